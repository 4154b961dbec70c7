//! The command line, run as a person would run it.

use std::io::Write;
use std::process::{Command, Stdio};

use super::Server;

/// What the command line did.
#[derive(Debug)]
pub(crate) struct Told {
    pub(crate) code: Option<i32>,
    pub(crate) stdout: String,
    pub(crate) stderr: String,
}

impl Told {
    /// Asserts the exit code.
    #[track_caller]
    pub(crate) fn ends_with(&self, code: i32) -> &Self {
        assert_eq!(self.code, Some(code), "{self:#?}");
        self
    }

    /// Asserts that it worked, without a word on standard error, and gives the output.
    #[track_caller]
    pub(crate) fn output(&self) -> &str {
        self.ends_with(0);
        assert_eq!(self.stderr, "", "{self:#?}");
        &self.stdout
    }

    /// The output as JSON.
    #[track_caller]
    pub(crate) fn json(&self) -> serde_json::Value {
        serde_json::from_str(self.output()).unwrap_or_else(|error| panic!("{error}: {self:#?}"))
    }
}

/// The program with a clean environment, not yet run.
pub(crate) fn clampbook(args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_clampbook"));
    command
        .args(args)
        .env_clear()
        .env("LANG", "C.UTF-8")
        .env("USER", "ida")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    command
}

/// Runs the program against a server.
pub(crate) fn cli(server: &Server, args: &[&str]) -> Told {
    run(clampbook(args).env("CLAMPBOOK_SERVER", server.url()))
}

/// Runs it against a server with something on its standard input.
pub(crate) fn cli_fed(server: &Server, args: &[&str], input: &[u8]) -> Told {
    let mut command = clampbook(args);
    command
        .env("CLAMPBOOK_SERVER", server.url())
        .stdin(Stdio::piped());
    let mut process = command.spawn().expect("the command line starts");
    let mut stdin = process.stdin.take().expect("standard input is piped");
    stdin.write_all(input).expect("input is taken");
    drop(stdin);
    told(process.wait_with_output().expect("it ends"))
}

/// Runs a prepared command.
pub(crate) fn run(command: &mut Command) -> Told {
    told(command.output().expect("the command line runs"))
}

fn told(output: std::process::Output) -> Told {
    Told {
        code: output.status.code(),
        stdout: String::from_utf8(output.stdout).expect("output is UTF-8"),
        stderr: String::from_utf8(output.stderr).expect("messages are UTF-8"),
    }
}
