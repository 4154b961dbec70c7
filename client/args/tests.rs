//! The command line as a whole: what is taken, what is refused and how.
#![allow(clippy::unwrap_used)] // a test may panic

use clap::{CommandFactory, error::ErrorKind};

use super::*;

fn parse(line: &str) -> Result<Args, clap::Error> {
    let words = std::iter::once("clampbook").chain(line.split_whitespace());
    let matches = command().try_get_matches_from(words)?;
    Args::from_arg_matches(&matches)
}

#[test]
fn the_tree_is_sound() {
    Args::command().debug_assert();
}

#[test]
fn every_command_shows_examples_before_its_usage() {
    fn check(command: &mut clap::Command, path: &str) {
        let help = command.render_help().to_string();
        let examples = help.find("Examples:");
        let usage = help.find("Usage:");
        let plain_leaf = command.get_before_help().is_none();
        if !plain_leaf {
            assert!(examples < usage && examples.is_some(), "{path}:\n{help}");
        }
        assert!(command.get_about().is_some(), "{path} says what it is for");
        // Only the usage line, which nobody reads word by word, is never wrapped.
        let wrapped = help.lines().filter(|line| !line.starts_with("Usage:"));
        let widest = wrapped.map(|line| line.chars().count()).max();
        assert!(widest <= Some(80), "{path}:\n{help}");
        for inner in command.get_subcommands_mut() {
            let path = format!("{path} {}", inner.get_name());
            check(inner, &path);
        }
    }
    let mut tree = command();
    tree.build();
    check(&mut tree, "clampbook");
}

#[test]
fn every_line_shown_as_an_example_is_understood() {
    fn examples(command: &clap::Command, found: &mut Vec<String>) {
        let text = command
            .get_before_help()
            .map(ToString::to_string)
            .unwrap_or_default();
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
        let joined = text.replace("\\\n", " ");
        let lines = joined.lines().map(str::trim);
        found.extend(
            lines
                .filter(|line| line.starts_with("clampbook "))
                .map(ToOwned::to_owned),
        );
        for inner in command.get_subcommands() {
            examples(inner, found);
        }
    }
    let mut found = Vec::new();
    examples(&command(), &mut found);
    assert!(found.len() > 20, "{found:?}");
    for line in found {
        let words = shell_words(&line);
        if let Err(error) = command().try_get_matches_from(&words) {
            panic!("{line}\n{error}");
        }
    }
}

/// The README is the first that anybody types.
#[test]
fn every_command_of_the_readme_is_understood() {
    let readme = include_str!("../../README.md").replace("\\\n", " ");
    let lines = readme.lines().filter(|line| line.starts_with("clampbook "));
    let mut count = 0;
    for line in lines {
        let line = line.split(" #").next().unwrap_or_default();
        if let Err(error) = command().try_get_matches_from(shell_words(line)) {
            panic!("{line}\n{error}");
        }
        count += 1;
    }
    assert!(count > 15, "only {count} were found");
}

/// Words of a line with double quotes, up to a redirection.
fn shell_words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for character in line.chars() {
        match character {
            '"' => quoted = !quoted,
            '<' | '>' if !quoted => break,
            ' ' if !quoted => words.push(String::new()),
            other => words.last_mut().unwrap().push(other),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

#[test]
fn commands_are_never_abbreviated_and_a_slip_gets_a_suggestion() {
    let error = parse("torq 7/16-20 8.8 dry").unwrap_err();
    assert_eq!(error.kind(), ErrorKind::InvalidSubcommand);
    assert!(error.to_string().contains("torque"), "{error}");
    assert_eq!(
        parse("job list").unwrap_err().kind(),
        ErrorKind::InvalidSubcommand
    );
    let error = parse("removal log oak hub 1 siezed").unwrap_err();
    assert!(error.to_string().contains("'seized'"), "{error}");
}

#[test]
fn a_usage_error_exits_with_two_and_help_with_zero() {
    assert_eq!(parse("").unwrap_err().exit_code(), 2);
    assert_eq!(parse("torque").unwrap_err().exit_code(), 2);
    assert_eq!(parse("--help").unwrap_err().exit_code(), 0);
    assert_eq!(parse("torque --help").unwrap_err().exit_code(), 0);
    assert_eq!(parse("--version").unwrap_err().exit_code(), 0);
}

#[test]
fn values_that_no_call_could_carry_are_refused_here() {
    for line in [
        "jobs list --timeout 0",
        "jobs list --timeout -1",
        "jobs list --timeout NaN",
        "jobs list --timeout inf",
        "jobs list --timeout 1e300",
        "jobs list --timeout 86401",
        "jobs list --server 127.0.0.1:50551",
        "jobs list --server https://127.0.0.1:50551",
        "jobs list --server http://",
        "removal log oak hub one normal",
        "removal log oak hub 99999999999 normal",
        "removal log oak hub 1 normal --length 2in --compared same",
        "torque M10 8.8 dry --proof-share three",
        "torque M10 8.8 dry --purpose jewellery",
        "joints add oak hub --assembly a --name n --layout ring --class A --hole-kind stud",
        "joints add oak hub --assembly a --name n --layout ring --class A --hole-kind stud --positions -1",
        "joints add oak hub --assembly a --name n --layout ring --class D --hole-kind stud --positions 4",
        "torque M10 8.8 dry --request-id x",
    ] {
        assert_eq!(parse(line).unwrap_err().exit_code(), 2, "{line}");
    }
}

#[test]
fn values_that_the_server_must_judge_go_through() {
    for line in [
        "torque M10 8.8 dry --proof-share -1 --clamp-load-n NaN --nut-factor 1e300",
        "removal log oak hub -3 normal --request-id nonsense",
        "removal alike oak hub normal --positions 1,-2,3",
        "watch --after -1",
        "joints add oak hub --assembly a --name n --layout grid --rows -2 --class a --hole-kind stud --positions 65535",
    ] {
        assert!(parse(line).is_ok(), "{line}");
    }
}

#[test]
fn several_means_come_by_commas_or_by_repeating() {
    for line in [
        "removal log oak hub 1 seized --methods heat,hammer",
        "removal log oak hub 1 seized --methods heat --methods hammer",
    ] {
        let Command::Removal(RemovalCommand::Log(args)) = parse(line).unwrap().command else {
            panic!("{line} is not a removal");
        };
        let words: Vec<_> = args.seen.methods.into_iter().map(Word::word).collect();
        assert_eq!(words, ["heat", "hammer"]);
    }
}

#[test]
fn a_request_id_is_fresh_unless_it_is_given() {
    let id = |line: &str| {
        let Command::Jobs(JobsCommand::Create(args)) = parse(line).unwrap().command else {
            panic!("{line} creates no job");
        };
        args.change.ticket().request_id()
    };
    assert_eq!(id("jobs create oak --name Oak --request-id abc"), "abc");
    let (one, other) = (
        id("jobs create oak --name Oak"),
        id("jobs create oak --name Oak"),
    );
    assert_ne!(one, other);
    assert_eq!(uuid::Uuid::parse_str(&one).unwrap().get_version_num(), 7);
}
