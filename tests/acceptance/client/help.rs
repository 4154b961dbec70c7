//! What the command line says of itself: help, manuals, completions.

use super::story::{LOOKING, STORY};
use crate::support::cli::{clampbook, run};

#[test]
fn completions_and_manuals_come_without_a_server() {
    for shell in ["bash", "zsh", "fish"] {
        let told = run(&mut clampbook(&["completions", shell]));
        assert!(told.output().contains("removal"), "{shell}");
    }
    let manual = run(&mut clampbook(&["man"]));
    assert!(
        manual.output().starts_with(".ie") || manual.output().contains(".TH"),
        "{}",
        manual.stdout
    );
    for code in ["0", "1", "2", "3", "4", "5", "6", "7", "130"] {
        assert!(manual.stdout.contains(code), "exit code {code}");
    }
    let one = run(&mut clampbook(&["man", "removal", "log"]));
    assert!(one.output().contains("removal"), "{}", one.stdout);
    run(&mut clampbook(&["man", "dance"])).ends_with(2);
}

#[test]
fn help_begins_with_examples_and_ends_with_the_exit_codes() {
    let told = run(&mut clampbook(&["--help"]));
    let help = told.output();
    let at = |words: &str| {
        help.find(words)
            .unwrap_or_else(|| panic!("{words} in {help}"))
    };
    assert!(at("Examples:") < at("Usage:") && at("Usage:") < at("Exit codes:"));
    for command in STORY.iter().chain(&LOOKING) {
        let told = run(&mut clampbook(&[command[0], "--help"]));
        assert!(told.output().contains("Examples:"), "{}", command[0]);
        assert!(
            told.stdout
                .lines()
                .filter(|line| !line.starts_with("Usage:"))
                .all(|line| line.chars().count() <= 80),
            "{}",
            told.stdout
        );
    }
    assert!(
        run(&mut clampbook(&["--version"]))
            .output()
            .contains("clampbook.v1")
    );
}
