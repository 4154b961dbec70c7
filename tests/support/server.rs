//! A server process of the test's own, and what must hold of its journal when the test is over.

use std::fs::{self, File, OpenOptions};
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Output, Stdio};
use std::time::Duration;

use rusqlite::{Connection, OpenFlags};
use tempfile::TempDir;
use tokio::sync::oneshot;
use tokio::time::timeout;

const PROGRAM: &str = env!("CARGO_BIN_EXE_clampbookd");

/// Longest that a process may take to end when it was told to: well below the 10 s that it gives to calls under way, since
/// nothing here needs them.
const ENDS_WITHIN: Duration = Duration::from_secs(5);

/// A running server; killed and its journal looked through when dropped.
pub(crate) struct Server {
    process: Option<Child>,
    url: String,
    data: PathBuf,
    flags: Vec<String>,
    errors_expected: bool,
    folder: TempDir,
}

impl Server {
    /// Starts a server on a fresh journal.
    pub(crate) fn start() -> Self {
        Self::start_with(&[])
    }

    /// Starts a server on a fresh journal with more flags.
    pub(crate) fn start_with(flags: &[&str]) -> Self {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let data = folder.path().join("journal.db");
        Self::prevailing_torque(folder, data, flags)
    }

    fn prevailing_torque(folder: TempDir, data: PathBuf, flags: &[&str]) -> Self {
        let mut server = Self {
            process: None,
            url: String::new(),
            data,
            flags: flags.iter().map(ToString::to_string).collect(),
            errors_expected: false,
            folder,
        };
        server.run();
        server
    }

    /// Starts a server on a copy of this journal.
    pub(crate) fn on_copy(journal: &Path) -> Self {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let data = folder.path().join("journal.db");
        fs::copy(journal, &data).expect("a copy");
        Self::prevailing_torque(folder, data, &[])
    }

    /// Where it listens.
    pub(crate) fn url(&self) -> &str {
        &self.url
    }

    /// The journal.
    pub(crate) fn data(&self) -> &Path {
        &self.data
    }

    /// A file of this name beside the journal.
    pub(crate) fn beside(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Process number.
    pub(crate) fn id(&self) -> u32 {
        self.process.as_ref().map_or(0, Child::id)
    }

    /// Everything it logged so far.
    pub(crate) fn log(&self) -> String {
        fs::read_to_string(self.log_file()).unwrap_or_default()
    }

    /// Says that this story makes the server log errors.
    pub(crate) fn expects_errors(&mut self) {
        self.errors_expected = true;
    }

    /// How many entries the journal holds, read beside the server.
    pub(crate) fn entry_count(&self) -> i64 {
        self.reader()
            .query_row("SELECT count(*) FROM entries", [], |row| row.get(0))
            .expect("entries are counted")
    }

    /// Sends SIGTERM and does not wait.
    pub(crate) fn tell_to_stop(&self) {
        signal(self.id(), "-TERM");
    }

    /// Waits until the process has ended by itself, and says how. Connections of this test go on meanwhile, as they must
    /// for the server to close them in good order.
    pub(crate) async fn wait_for_end(&mut self) -> ExitStatus {
        let mut process = self.process.take().expect("a running server");
        let id = process.id();
        let (ended, end) = oneshot::channel();
        std::thread::spawn(move || ended.send(process.wait()));
        match timeout(ENDS_WITHIN, end).await {
            Ok(status) => status
                .expect("somebody waits")
                .expect("the process is ours"),
            Err(_) => {
                signal(id, "-KILL");
                panic!(
                    "the server did not end within {ENDS_WITHIN:?}:\n{}",
                    self.log()
                );
            }
        }
    }

    /// Stops it in good order.
    pub(crate) async fn stop(&mut self) {
        self.tell_to_stop();
        let status = self.wait_for_end().await;
        assert!(status.success(), "{status}:\n{}", self.log());
    }

    /// Kills it where it stands.
    pub(crate) fn kill(&mut self) {
        if let Some(mut process) = self.process.take() {
            // It may have ended by itself, which is just as well.
            let _ = process.kill();
            let _ = process.wait();
        }
    }

    /// Starts it again on the same journal, with other flags if they were changed.
    pub(crate) fn start_again(&mut self, flags: &[&str]) {
        assert!(self.process.is_none(), "it still runs");
        self.flags = flags.iter().map(ToString::to_string).collect();
        self.run();
    }

    fn log_file(&self) -> PathBuf {
        self.folder.path().join("log")
    }

    fn run(&mut self) {
        let log = OpenOptions::new()
            .create(true)
            .append(true)
            .open(self.log_file())
            .expect("a log file");
        let mut process = program(log)
            .args(["serve", "--listen", "127.0.0.1:0", "--data"])
            .arg(&self.data)
            .args(&self.flags)
            .spawn()
            .expect("the server program starts");
        let stdout = process.stdout.take().expect("standard output is piped");
        self.process = Some(process);
        let mut line = String::new();
        BufReader::new(stdout)
            .read_line(&mut line)
            .expect("a first line");
        self.url = match line.trim_end().strip_prefix("listening on ") {
            Some(url) => url.to_owned(),
            None => panic!("first line was {line:?}; log:\n{}", self.log()),
        };
    }

    fn reader(&self) -> Connection {
        Connection::open_with_flags(&self.data, OpenFlags::SQLITE_OPEN_READ_ONLY)
            .expect("the journal opens")
    }

    fn check_journal(&self) {
        let journal = self.reader();
        let integrity: String = journal
            .query_row("PRAGMA integrity_check", [], |row| row.get(0))
            .expect("integrity is checked");
        assert_eq!(integrity, "ok");
        let dangling = journal
            .prepare("PRAGMA foreign_key_check")
            .and_then(|mut check| check.exists([]))
            .expect("foreign keys are checked");
        assert!(!dangling, "the journal holds dangling references");
        drop(journal);
        let verified = clampbookd(&["verify", "--data", &self.data.display().to_string()]);
        assert!(
            verified.status.success(),
            "verify: {}",
            String::from_utf8_lossy(&verified.stderr)
        );
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.kill();
        if std::thread::panicking() {
            eprintln!(
                "---- log of the server ----\n{}---- end of log ----",
                self.log()
            );
            return;
        }
        self.check_journal();
        if !self.errors_expected {
            let log = self.log();
            assert!(!log.contains("ERROR"), "the server logged an error:\n{log}");
        }
    }
}

/// Runs the server program to its end.
pub(crate) fn clampbookd(args: &[&str]) -> Output {
    Command::new(PROGRAM)
        .args(args)
        .env_remove("RUST_LOG")
        .stdin(Stdio::null())
        .output()
        .expect("the server program runs")
}

fn signal(process: u32, which: &str) {
    let told = Command::new("kill")
        .args([which, &process.to_string()])
        .status()
        .expect("kill runs");
    assert!(told.success(), "{which} was not sent");
}

fn program(log: File) -> Command {
    let mut command = Command::new(PROGRAM);
    command
        .env_remove("RUST_LOG")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(log);
    command
}
