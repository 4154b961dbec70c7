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

/// A torque is one short screen of 80 columns: the number first, and nothing told by an id that has words.
#[test]
fn a_torque_is_one_short_screen() {
    let server = Server::start();
    for (joint, most) in [
        (&["7/16-20", "SAE J429 5", "dry"][..], 22),
        (&["M10", "8.8", "oiled"], 20),
        (&["1/2-13", "SAE J429 8", "oiled", "--unit", "lbf-ft"], 20),
        (&["3/8-24", "SAE J429 8", "dry", "--nut-factor", "0.2"], 22),
        // Stainless: galling, no proof stress, a nut factor from memory.
        (&["M8", "A2-70", "anti-seize nickel"], 24),
        // As many checks as one joint can have: a hard bolt, plated, in a soft nut.
        (&["M12x1.25", "12.9", "zinc plated", "--nut-grade", "8"], 33),
    ] {
        let args: Vec<&str> = ["torque"].iter().chain(joint).copied().collect();
        let told = cli(&server, &args);
        let shown = told.output();
        let lines: Vec<&str> = shown.lines().collect();
        assert!(lines.len() <= most, "{} lines: {shown}", lines.len());
        assert!(lines.iter().all(|l| l.chars().count() <= 80), "{shown}");
        assert!(
            lines[0].starts_with(|c: char| c.is_ascii_digit()),
            "{shown}"
        );
        for said in [
            "COMPUTED, NOT MAKER'S",
            "governed by",
            "Scatter",
            "Literature",
            "Assumed",
            "Mind",
            "Sources",
        ] {
            assert!(shown.contains(said), "{said} is not in {shown}");
        }
        assert!(!shown.contains("-against-"), "an id: {shown}");
    }
}
