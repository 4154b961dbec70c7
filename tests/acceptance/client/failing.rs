//! Each failure ends with its own code, and says what to do next.

use super::story::STORY;
use crate::support::cli::{clampbook, run};
use crate::support::{Server, Shop, cli, fresh_id};

#[test]
fn each_failure_ends_with_its_own_code_and_what_to_do_next() {
    let server = Server::start();
    for command in &STORY[..6] {
        cli(&server, command).output();
    }
    let id = fresh_id();
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
            "read it again",
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
fn a_file_too_large_for_one_message_is_code_one() {
    let server = Server::start();
    let file = server.beside("large.csv");
    std::fs::write(&file, "x".repeat(1024 * 1024)).expect("written");
    let path = file.display().to_string();
    let told = cli(&server, &["removal", "import", "tractor", &path]);
    told.ends_with(1);
    assert!(told.stderr.contains("smaller parts"), "{told:#?}");
}
