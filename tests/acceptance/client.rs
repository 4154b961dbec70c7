//! The command line: every command does its work, ends with the code it promises, and pipes well.

use std::io::Read;
use std::process::Stdio;

use clampbook_api::v1::RemovalCondition;
use serde_json::Value;

use crate::support::cli::{clampbook, cli_fed, run};
use crate::support::{Server, Shop, cli};

/// Commands of a whole small job, in order, none of which says more than it must.
const STORY: [&[&str]; 12] = [
    &[
        "jobs",
        "create",
        "tractor",
        "--name",
        "Orchard tractor",
        "--unit",
        "lbf-ft",
    ],
    &[
        "assemblies",
        "add",
        "tractor",
        "left-hub",
        "--name",
        "Left hub",
    ],
    &[
        "assemblies",
        "add",
        "tractor",
        "right-hub",
        "--name",
        "Right hub",
        "--counterpart",
        "left-hub",
    ],
    &[
        "joints",
        "add",
        "tractor",
        "plate",
        "--assembly",
        "left-hub",
        "--name",
        "Plate",
        "--layout",
        "ring",
        "--positions",
        "4",
        "--class",
        "a",
        "--hole",
        "tapped-through",
        "--thread",
        "7/16-20",
        "--grade",
        "SAE J429 5",
        "--condition",
        "oiled",
        "--approver",
        "Ida",
    ],
    &[
        "joints",
        "add",
        "tractor",
        "nut",
        "--assembly",
        "left-hub",
        "--name",
        "Nut",
        "--layout",
        "single",
        "--label",
        "end",
        "--class",
        "A",
        "--hole",
        "stud",
        "--purpose",
        "wheel-bearing",
    ],
    &[
        "removal",
        "log",
        "tractor",
        "plate",
        "1",
        "seized",
        "--means",
        "heat,hammer",
        "--heat",
        "red",
        "--length",
        "1-1/4 in",
        "--grade",
        "SAE J429 5",
        "--breakaway",
        "160 lbf·ft",
    ],
    &[
        "removal",
        "alike",
        "tractor",
        "plate",
        "normal",
        "--positions",
        "2,3",
        "--means",
        "hand",
        "--kept-in",
        "tin 1",
    ],
    &[
        "decide",
        "tractor",
        "plate",
        "1",
        "replace",
        "--reason",
        "heated red",
        "--thread",
        "7/16-20",
        "--length",
        "1-1/4 in",
        "--grade",
        "SAE J429 5",
        "--hole",
        "chased",
    ],
    &[
        "refit",
        "tractor",
        "plate",
        "2",
        "original",
        "--tightness",
        "final",
        "--reading",
        "67 N·m",
        "--tool",
        "wrench A",
    ],
    &[
        "correct",
        "removal",
        "tractor",
        "8",
        "plate",
        "3",
        "stiff",
        "--reason",
        "it did not come easily",
    ],
    &[
        "correct",
        "withdraw",
        "tractor",
        "10",
        "--reason",
        "that was the other hub",
    ],
    &["removal", "log", "tractor", "nut", "1", "loose-on-arrival"],
];

/// Commands that only look, once the story is told.
const LOOKING: [&[&str]; 18] = [
    &[
        "restate",
        "7/16-20",
        "50 lbf·ft",
        "dry",
        "oiled",
        "--flat-seats",
        "--grade",
        "SAE J429 5",
    ],
    &[
        "wrench",
        "60 lbf·ft",
        "--wrench",
        "long,150 lbf·ft,1 lbf·ft,in-date",
    ],
    &[
        "plan",
        "--layout",
        "ring",
        "--positions",
        "8",
        "--gasketed",
        "--torque",
        "90 N·m",
    ],
    &["torque", "7/16-20", "SAE J429 5", "dry"],
    &["catalog", "threads"],
    &["catalog", "thread", "7/16-20"],
    &["catalog", "grades"],
    &["catalog", "nuts"],
    &["catalog", "conditions"],
    &["jobs", "show", "tractor"],
    &["jobs", "list"],
    &["joints", "show", "tractor", "plate"],
    &["joints", "list", "tractor"],
    &["flags", "list", "tractor"],
    &["flags", "explain", "odd-length"],
    &["flags", "rules"],
    &["sheet", "tractor"],
    &["entries", "tractor"],
];

#[test]
fn a_whole_job_is_told_command_by_command() {
    let server = Server::start();
    for command in STORY {
        let told = cli(&server, command);
        assert!(!told.output().is_empty(), "{command:?}");
    }
    for command in LOOKING {
        let told = cli(&server, command);
        assert!(!told.output().is_empty(), "{command:?}");
        let widest = told.stdout.lines().map(|line| line.chars().count()).max();
        let is_prose = command[0] != "entries";
        assert!(
            !is_prose || widest <= Some(80),
            "{command:?} is {widest:?} wide:\n{}",
            told.stdout
        );
        assert!(
            !told.stdout.contains('\u{1b}'),
            "{command:?} colours a pipe"
        );
    }
    let flags = cli(&server, &["flags", "list", "tractor"]);
    assert!(
        flags.stdout.contains("loose-on-arrival"),
        "{}",
        flags.stdout
    );
    assert!(!flags.stdout.contains("forced-out"), "{}", flags.stdout);
}

#[test]
fn every_command_has_its_answer_as_json_with_the_names_of_the_contract() {
    let server = Server::start();
    for command in STORY.iter().chain(&LOOKING) {
        let told = cli(&server, &[command, &["--json"][..]].concat());
        let json = told.json();
        let object = json
            .as_object()
            .unwrap_or_else(|| panic!("{command:?}: {json}"));
        assert!(!object.is_empty(), "{command:?}");
        for name in object.keys() {
            assert!(
                name.chars()
                    .all(|c| c.is_ascii_lowercase() || c == '_' || c.is_ascii_digit()),
                "{command:?}: {name}"
            );
        }
    }
    let joint = cli(&server, &["joints", "show", "tractor", "plate", "--json"]).json();
    assert_eq!(joint["criticality"], "CRITICALITY_A");
    assert_eq!(
        joint["positions"][2]["removal"]["condition"],
        "REMOVAL_CONDITION_STIFF"
    );
    assert_eq!(
        joint["positions"][1]["refit"],
        Value::Null,
        "it was withdrawn"
    );
}

#[test]
fn lists_longer_than_a_page_come_whole() {
    let server = Server::start();
    let json = cli(&server, &["catalog", "threads", "--json"]).json();
    let count = json["threads"].as_array().map_or(0, Vec::len);
    assert!(count > 100, "{count}");
    let people = cli(&server, &["catalog", "threads"]);
    assert!(
        people.output().lines().count() > count,
        "a line each below the head"
    );
}

#[test]
fn each_failure_ends_with_its_own_code_and_what_to_do_next() {
    let server = Server::start();
    for command in &STORY[..6] {
        cli(&server, command).output();
    }
    let id = crate::support::fresh_id();
    let first = [
        "jobs",
        "create",
        "mower",
        "--name",
        "Mower",
        "--request-id",
        &id,
    ];
    cli(&server, &first).output();
    cli(&server, &first).ends_with(0);
    let table: [(&[&str], i32, &str); 10] = [
        (&["dance"], 2, "unrecognized subcommand"),
        (&["torque", "7/16-21", "SAE J429 5", "dry"], 2, "thread"),
        (&["jobs", "show", "none"], 3, "jobs/none does not exist"),
        (&["flags", "explain", "no-such-rule"], 3, "flags rules"),
        (
            &["jobs", "create", "tractor", "--name", "Again"],
            4,
            "exists already",
        ),
        (
            &["removal", "log", "tractor", "plate", "1", "normal"],
            4,
            "is empty already",
        ),
        (
            &[
                "decide", "tractor", "plate", "1", "reuse", "--reason", "x", "--etag", "\"1\"",
            ],
            4,
            "read again",
        ),
        (
            &["torque", "M10", "8.8", "dry", "--purpose", "spark-plug"],
            7,
            "no torque is computed",
        ),
        (
            &[
                "jobs",
                "create",
                "mower",
                "--name",
                "Other",
                "--request-id",
                &id,
            ],
            2,
            "--request-id",
        ),
        (
            &["removal", "import", "tractor", "no-such-file.csv"],
            2,
            "no-such-file.csv",
        ),
    ];
    for (command, code, words) in table {
        let told = cli(&server, command);
        told.ends_with(code);
        assert!(told.stderr.contains(words), "{words:?}: {told:#?}");
        assert_eq!(
            told.stdout, "",
            "results alone go to standard output: {command:?}"
        );
    }
}

#[tokio::test]
async fn a_server_for_reading_is_code_six() {
    let mut shop = Shop::open();
    shop.job("tractor").await;
    shop.restart(&["--read-only"]).await;
    let told = cli(
        &shop.server,
        &["jobs", "create", "mower", "--name", "Mower"],
    );
    told.ends_with(6);
    cli(&shop.server, &["jobs", "show", "tractor"]).output();
}

#[test]
fn no_server_is_code_five_and_says_how_to_start_one() {
    let nobody = std::net::TcpListener::bind("127.0.0.1:0").expect("a port");
    let url = format!("http://{}", nobody.local_addr().expect("an address"));
    drop(nobody);
    for command in [
        &["jobs", "list"][..],
        &["jobs", "create", "a", "--name", "A"],
    ] {
        let told = run(clampbook(command).args(["--server", &url]));
        told.ends_with(5);
        assert!(told.stderr.contains(&url), "{told:#?}");
        assert!(told.stderr.contains("clampbookd serve"), "{told:#?}");
        assert!(
            !told.stderr.contains("request-id"),
            "nothing was sent: {told:#?}"
        );
    }
}

#[test]
fn a_server_that_never_answers_is_code_five_and_the_outcome_is_said_to_be_open() {
    let mute = std::net::TcpListener::bind("127.0.0.1:0").expect("a port");
    let url = format!("http://{}", mute.local_addr().expect("an address"));
    let told = run(
        clampbook(&["jobs", "create", "a", "--name", "A", "--timeout", "0.3"])
            .args(["--server", &url]),
    );
    told.ends_with(5);
    assert!(told.stderr.contains("--request-id"), "{told:#?}");
}

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

#[test]
fn a_strip_down_is_imported_from_a_file_and_from_standard_input() {
    let server = Server::start();
    for command in &STORY[..4] {
        cli(&server, command).output();
    }
    let table =
        "joint,position,condition,length\nplate,1,normal,1-1/4 in\nplate,2,seized,1-1/4 in\n";
    let file = server.beside("strip.csv");
    std::fs::write(&file, table).expect("written");
    let path = file.display().to_string();
    let before = server.entry_count();
    let dry = cli(
        &server,
        &["removal", "import", "tractor", &path, "--dry-run"],
    );
    assert!(dry.output().contains('2'), "{}", dry.stdout);
    assert_eq!(server.entry_count(), before);
    let wrong = cli_fed(
        &server,
        &["removal", "import", "tractor", "-"],
        b"joint,position,condition\nplate,x,normal\n",
    );
    wrong.ends_with(2);
    assert!(
        wrong.stderr.contains("line 2, column position"),
        "{wrong:#?}"
    );
    let real = cli_fed(
        &server,
        &["removal", "import", "tractor", "-", "--json"],
        table.as_bytes(),
    );
    assert_eq!(real.json()["removal_count"], 2);
    assert_eq!(server.entry_count(), before + 2);
    let again = cli(&server, &["removal", "import", "tractor", &path]);
    again.ends_with(2);
    assert!(again.stderr.contains("is empty already"), "{again:#?}");
}

#[test]
fn a_file_too_large_for_one_message_is_code_one() {
    let server = Server::start();
    let file = server.beside("large.csv");
    std::fs::write(&file, "x".repeat(1024 * 1024)).expect("written");
    let path = file.display().to_string();
    let told = cli(&server, &["removal", "import", "tractor", &path]);
    told.ends_with(1);
    assert!(told.stderr.contains("smaller parts"), "{told:#?}");
}

#[tokio::test]
async fn a_watch_prints_a_line_of_json_an_entry_and_ends_when_interrupted() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let mut process = clampbook(&["watch", "tractor", "--json"])
        .env("CLAMPBOOK_SERVER", shop.server.url())
        .spawn()
        .expect("it starts");
    let stdout = process.stdout.take().expect("piped");
    let mut lines = std::io::BufRead::lines(std::io::BufReader::new(stdout));
    let mut next = || -> Value {
        let line = lines.next().expect("a line").expect("text");
        serde_json::from_str(&line).expect("JSON")
    };
    for kind in ["job-opened", "assembly-added", "joint-added"] {
        assert_eq!(next()["kind"], kind);
    }
    plate.takes_out(1, RemovalCondition::Normal).await;
    let entry = next();
    assert_eq!(
        (entry["kind"].as_str(), entry["sequence"].as_str()),
        (Some("removed"), Some("4"))
    );
    let told = std::process::Command::new("kill")
        .args(["-INT", &process.id().to_string()])
        .status();
    assert!(told.expect("kill runs").success());
    assert_eq!(process.wait().expect("it ends").code(), Some(130));
}

#[test]
fn who_speaks_and_on_what_is_written_down() {
    let server = Server::start();
    let told = cli(
        &server,
        &[
            "jobs",
            "create",
            "a",
            "--name",
            "A",
            "--person",
            "Jörg Ö.",
            "--device",
            "bench",
        ],
    );
    told.output();
    run(
        clampbook(&["assemblies", "add", "a", "hub", "--name", "Hub"])
            .env("CLAMPBOOK_SERVER", server.url())
            .env("CLAMPBOOK_PERSON", "Tomas"),
    )
    .output();
    let json = cli(&server, &["entries", "a", "--json"]).json();
    let said = |n: usize| {
        (
            json["entries"][n]["said"]["person"].clone(),
            json["entries"][n]["said"]["device"].clone(),
        )
    };
    assert_eq!(said(0), ("Jörg Ö.".into(), "bench".into()));
    assert_eq!(said(1), ("Tomas".into(), "cli".into()));
}
