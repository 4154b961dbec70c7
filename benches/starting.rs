//! From starting the server to serving, and a whole run of the command line, each against the cheapest process there is.

mod support;

use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use support::{Server, ms};

const ROUNDS: usize = 40;

fn main() {
    if std::env::args().any(|argument| argument == "nothing") {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("bench.clampbook");
    let fresh = median(|| {
        let data = tempfile::tempdir().expect("a folder");
        let start = Instant::now();
        let server = Server::clampbook(&data.path().join("fresh.clampbook"));
        let took = start.elapsed();
        drop(server);
        took
    });
    let server = Server::clampbook(&data);
    let nothing = median(|| run(&std::env::current_exe().expect("own program"), &["nothing"]));
    let client = median(|| {
        let arguments = [
            "--server",
            &server.url,
            "torque",
            "7/16-20",
            "SAE J429 5",
            "dry",
        ];
        run(env!("CARGO_BIN_EXE_clampbook").as_ref(), &arguments)
    });
    println!(
        "server, start to serving a new journal: {:.1} ms",
        ms(fresh)
    );
    println!(
        "command line, whole process: {:.1} ms (wanted <= 15); a process that does nothing: {:.1} ms; ratio {:.1}",
        ms(client),
        ms(nothing),
        ms(client) / ms(nothing)
    );
}

fn run(program: &std::path::Path, arguments: &[&str]) -> Duration {
    let start = Instant::now();
    let status = Command::new(program)
        .args(arguments)
        .stdout(Stdio::null())
        .status()
        .expect("it runs");
    assert!(status.success());
    start.elapsed()
}

fn median(mut measure: impl FnMut() -> Duration) -> Duration {
    let mut times: Vec<Duration> = (0..ROUNDS).map(|_| measure()).collect();
    times.sort_unstable();
    times[ROUNDS / 2]
}
