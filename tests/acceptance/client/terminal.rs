//! What is written where: pipes, plain letters, no colours where nobody wants them.

use std::io::Read;
use std::process::Stdio;

use super::story::STORY;
use crate::support::cli::{clampbook, run};
use crate::support::{Server, cli};

#[test]
fn a_reader_that_has_had_enough_is_no_error() {
    let server = Server::start();
    for command in [
        &["catalog", "threads"][..],
        &["catalog", "threads", "--json"],
        &["man"],
        &["completions", "bash"],
    ] {
        let mut process = clampbook(command)
            .env("CLAMPBOOK_SERVER", server.url())
            .stdout(Stdio::piped())
            .spawn()
            .expect("it starts");
        // Closing the pipe before a word is read is what `head` does, only sooner.
        drop(process.stdout.take());
        let mut said = String::new();
        let mut stderr = process.stderr.take().expect("piped");
        stderr.read_to_string(&mut said).expect("read");
        let status = process.wait().expect("it ends");
        assert_eq!(said, "", "{command:?}");
        assert_eq!(status.code(), Some(0), "{command:?}");
    }
}

#[test]
fn a_locale_without_letters_of_its_own_gets_plain_ones() {
    let server = Server::start();
    let told = run(clampbook(&["torque", "M10", "8.8", "dry"])
        .env("CLAMPBOOK_SERVER", server.url())
        .env("LANG", "C"));
    assert!(told.output().is_ascii(), "{}", told.stdout);
    assert!(
        told.stdout.contains("N.m") || told.stdout.contains("N*m") || told.stdout.contains("Nm"),
        "{}",
        told.stdout
    );
}

#[test]
fn colours_stay_off_where_nobody_wants_them() {
    let server = Server::start();
    for command in &STORY[..6] {
        cli(&server, command).output();
    }
    for (key, value) in [
        ("NO_COLOR", "1"),
        ("TERM", "dumb"),
        ("TERM", "xterm-256color"),
    ] {
        let told = run(clampbook(&["flags", "list", "tractor"])
            .env("CLAMPBOOK_SERVER", server.url())
            .env(key, value));
        assert!(!told.output().contains('\u{1b}'), "{key}={value}");
    }
}
