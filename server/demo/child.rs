//! A server process of the demo's own.

use anyhow::Context;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};

/// A running server; ended when dropped.
pub(super) struct Child {
    process: Option<std::process::Child>,
    url: String,
}

impl Child {
    /// Starts a server on a free loopback port and waits until it serves.
    pub(super) fn start(data: &Path) -> anyhow::Result<Self> {
        let program = std::env::current_exe().context("own program")?;
        let mut process = Command::new(program)
            .args(["serve", "--listen", "127.0.0.1:0", "--data"])
            .arg(data)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .context("the server does not start")?;
        let stdout = process.stdout.take();
        let mut child = Self {
            process: Some(process),
            url: String::new(),
        };
        let mut line = String::new();
        if let Some(stdout) = stdout {
            BufReader::new(stdout)
                .read_line(&mut line)
                .context("the server's first line")?;
        }
        child.url = line
            .trim()
            .strip_prefix("listening on ")
            .context("the server ended before it served")?
            .to_owned();
        Ok(child)
    }

    /// Where it listens.
    pub(super) fn url(&self) -> &str {
        &self.url
    }

    /// Lets it go on without us, and gives its process number.
    pub(super) fn leave_running(mut self) -> u32 {
        self.process.take().map_or(0, |process| process.id())
    }
}

impl Drop for Child {
    fn drop(&mut self) {
        if let Some(mut process) = self.process.take() {
            // It may have ended by itself, which is just as well.
            let _ = process.kill();
            let _ = process.wait();
        }
    }
}
