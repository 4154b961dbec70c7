//! The command line: every command does its work, ends with the code it promises, and pipes well.

mod failing;
mod help;
mod story;
mod terminal;

use clampbook_api::v1::RemovalOutcome;
use serde_json::Value;

use crate::support::cli::{clampbook, cli_fed, run};
use crate::support::{Server, Shop, cli};
use story::{LOOKING, STORY};

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
        joint["positions"][2]["removal"]["outcome"],
        "REMOVAL_OUTCOME_STIFF"
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
fn a_strip_down_is_imported_from_a_file_and_from_standard_input() {
    let server = Server::start();
    for command in &STORY[..4] {
        cli(&server, command).output();
    }
    let table = "joint,position,outcome,length\nplate,1,normal,1-1/4 in\nplate,2,seized,1-1/4 in\n";
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
        b"joint,position,outcome\nplate,x,normal\n",
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
    plate.takes_out(1, RemovalOutcome::Normal).await;
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
            json["entries"][n]["said"]["display_name"].clone(),
            json["entries"][n]["said"]["device"].clone(),
        )
    };
    assert_eq!(said(0), ("Jörg Ö.".into(), "bench".into()));
    assert_eq!(said(1), ("Tomas".into(), "cli".into()));
}
