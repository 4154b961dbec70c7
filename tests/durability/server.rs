//! A server process on a journal of the test's choice, and the ways it can end.

use std::fs::{self, OpenOptions};
use std::future::Future;
use std::io::{BufRead, BufReader};
use std::os::unix::process::ExitStatusExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::mpsc;
use std::time::{Duration, Instant};
use tonic::transport::{Channel, Endpoint};

const PROGRAM: &str = env!("CARGO_BIN_EXE_clampbookd");

/// Longest that anything here may take; nothing is ever right because of it.
pub(crate) const DEADLINE: Duration = Duration::from_secs(60);

/// Longest that a call may take, as every client of ours sets a limit: a transport does not always notice at once that
/// the other side is gone. Less than [`DEADLINE`], so that whoever waits for a caller sees it end.
const CALL_LIMIT: Duration = Duration::from_secs(20);

const KILL: i32 = 9;

/// A running server; killed when dropped.
pub(crate) struct Server {
    process: Child,
    url: String,
    log: PathBuf,
}

/// A server that ended instead of serving.
#[derive(Debug)]
pub(crate) struct Refused {
    pub(crate) status: ExitStatus,
    pub(crate) log: String,
}

impl Server {
    /// Starts a server on a journal.
    pub(crate) fn start(data: &Path) -> Self {
        Self::start_with(data, &[])
    }

    /// Starts a server on a journal with more flags.
    pub(crate) fn start_with(data: &Path, flags: &[&str]) -> Self {
        let mut command = Command::new(PROGRAM);
        served(&mut command, data).args(flags);
        Self::run(command, data).unwrap_or_else(|refused| panic!("{refused:#?}"))
    }

    /// Starts a server on a journal after the commands of a shell.
    pub(crate) fn start_after(data: &Path, before: &str) -> Self {
        let mut command = Command::new("sh");
        command
            .arg("-c")
            .arg(format!("{before}\nexec \"$0\" \"$@\""))
            .arg(PROGRAM);
        served(&mut command, data);
        Self::run(command, data).unwrap_or_else(|refused| panic!("{refused:#?}"))
    }

    /// Starts a server that may refuse the journal.
    pub(crate) fn try_start(data: &Path) -> Result<Self, Refused> {
        let mut command = Command::new(PROGRAM);
        served(&mut command, data);
        Self::run(command, data)
    }

    /// The log goes to a file, so that no pipe can get full.
    fn run(mut command: Command, data: &Path) -> Result<Self, Refused> {
        let log = data.with_extension("log");
        let log_file = OpenOptions::new()
            .create(true)
            .append(true)
            .open(&log)
            .expect("a log file");
        let mut process = command
            .env("NO_COLOR", "1")
            .env_remove("RUST_LOG")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(log_file)
            .spawn()
            .expect("the server program starts");
        let stdout = process.stdout.take().expect("standard output is piped");
        let (said, first_line) = mpsc::channel();
        std::thread::spawn(move || {
            let mut line = String::new();
            let read = BufReader::new(stdout).read_line(&mut line);
            said.send(read.map(|_| line))
        });
        let mut server = Self {
            process,
            url: String::new(),
            log,
        };
        let line = first_line
            .recv_timeout(DEADLINE)
            .expect("a first line in time")
            .expect("a first line");
        match line.trim_end().strip_prefix("listening on ") {
            Some(url) => {
                server.url = url.to_owned();
                Ok(server)
            }
            None if line.is_empty() => Err(Refused {
                status: server.process.wait().expect("it has ended"),
                log: server.log(),
            }),
            None => panic!("the first line is {line:?}"),
        }
    }

    /// A connection of its own.
    pub(crate) fn connect(&self) -> Channel {
        Endpoint::from_shared(self.url.clone())
            .expect("an address")
            .tcp_nodelay(true)
            .connect_timeout(CALL_LIMIT)
            .timeout(CALL_LIMIT)
            .connect_lazy()
    }

    pub(crate) fn id(&self) -> u32 {
        self.process.id()
    }

    /// Everything it logged, and those before it on the same journal.
    pub(crate) fn log(&self) -> String {
        fs::read_to_string(&self.log).expect("the log can be read")
    }

    /// Asserts that it runs: a kill of a process that has ended already shows nothing.
    #[track_caller]
    pub(crate) fn assert_alive(&mut self) {
        let ended = self.process.try_wait().expect("the process is ours");
        assert_eq!(ended, None, "it ended by itself:\n{}", self.log());
    }

    /// Kills it where it stands.
    pub(crate) fn kill(mut self) {
        self.assert_alive();
        self.process.kill().expect("it can be killed");
        let status = self.process.wait().expect("it ends");
        assert_eq!(status.signal(), Some(KILL), "it ended of the kill");
    }

    /// Tells it to stop.
    pub(crate) fn terminate(&self) {
        let sent = Command::new("sh")
            .args(["-c", "kill -TERM \"$0\"", &self.id().to_string()])
            .status()
            .expect("a shell");
        assert!(sent.success(), "the signal is sent");
    }

    /// Waits until it has ended in good order.
    pub(crate) async fn ended(mut self) {
        let mut status = None;
        until("the server ends", async || {
            status = self.process.try_wait().expect("the process is ours");
            status.is_some()
        })
        .await;
        assert!(
            status.is_some_and(|s| s.success()),
            "{status:?}:\n{}",
            self.log()
        );
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may have ended already, which is just as well.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

fn served<'c>(command: &'c mut Command, data: &Path) -> &'c mut Command {
    command
        .args(["serve", "--listen", "127.0.0.1:0", "--data"])
        .arg(data)
}

/// Asks again and again until it is so; fails when that does not come about.
pub(crate) async fn until(what: &str, mut is_so: impl AsyncFnMut() -> bool) {
    let start = Instant::now();
    while !is_so().await {
        assert!(start.elapsed() < DEADLINE, "waited too long until {what}");
        tokio::time::sleep(Duration::from_millis(1)).await;
    }
}

/// Waits for something that must come.
pub(crate) async fn in_time<T>(what: &str, coming: impl Future<Output = T>) -> T {
    match tokio::time::timeout(DEADLINE, coming).await {
        Ok(came) => came,
        Err(_) => panic!("waited too long for {what}"),
    }
}

/// What `clampbookd verify` says of a journal: nothing wrong, or its complaint.
pub(crate) fn verify(data: &Path) -> Result<String, String> {
    let output = Command::new(PROGRAM)
        .args(["verify", "--data"])
        .arg(data)
        .output()
        .expect("the program runs");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    if output.status.success() {
        Ok(text(output.stdout))
    } else {
        assert_eq!(output.status.code(), Some(1), "it says so and ends");
        Err(text(output.stderr))
    }
}
