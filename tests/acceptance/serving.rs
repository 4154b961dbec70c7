//! The server as a process: when it says it serves, how it ends, and whom it turns away.

use std::fs;
use std::net::TcpStream;
use std::time::{Duration, Instant};

use clampbook_api::v1::{RemovalOutcome, WatchEntriesRequest};
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;
use tonic_reflection::pb::v1::ServerReflectionRequest;
use tonic_reflection::pb::v1::server_reflection_client::ServerReflectionClient;
use tonic_reflection::pb::v1::server_reflection_request::MessageRequest;
use tonic_reflection::pb::v1::server_reflection_response::MessageResponse;

use crate::support::server::clampbookd;
use crate::support::{Server, Shop};

const SERVICES: [&str; 5] = [
    "clampbook.v1.CatalogService",
    "clampbook.v1.JobService",
    "clampbook.v1.SpecificationService",
    "clampbook.v1.SheetService",
    "clampbook.v1.TorqueService",
];

/// Watches the health of a service until it is as wanted, and gives all that was seen on the way.
async fn becomes(shop: &Shop, service: &str, wanted: ServingStatus) -> Vec<ServingStatus> {
    let request = HealthCheckRequest {
        service: service.into(),
    };
    let mut health = HealthClient::new(shop.channel());
    let mut seen = Vec::new();
    let mut watch = health
        .watch(request)
        .await
        .expect("health is watched")
        .into_inner();
    while seen.last() != Some(&wanted) {
        let change = tokio::time::timeout(Duration::from_secs(20), watch.message());
        let change = change
            .await
            .expect("health changes")
            .expect("a status")
            .expect("no end");
        seen.push(change.status());
    }
    seen
}

#[tokio::test]
async fn health_serves_once_the_journal_is_verified() {
    let shop = Shop::open();
    for service in SERVICES.iter().chain(&[""]) {
        let seen = becomes(&shop, service, ServingStatus::Serving).await;
        let before = &seen[..seen.len() - 1];
        assert!(
            before
                .iter()
                .all(|status| *status == ServingStatus::NotServing),
            "{seen:?}"
        );
    }
    let unknown = HealthCheckRequest {
        service: "clampbook.v1.Nothing".into(),
    };
    let status = HealthClient::new(shop.channel())
        .check(unknown)
        .await
        .expect_err("unknown");
    assert_eq!(status.code(), tonic::Code::NotFound);
}

#[tokio::test]
async fn a_journal_that_was_tampered_with_is_never_healthy() {
    let mut shop = Shop::open();
    shop.job("tractor").await;
    shop.server.stop().await;
    tamper(shop.server.data());
    let verified = clampbookd(&[
        "verify",
        "--data",
        &shop.server.data().display().to_string(),
    ]);
    assert!(!verified.status.success());
    let said = String::from_utf8_lossy(&verified.stderr).into_owned();
    assert!(said.contains("entry 1"), "{said}");

    let data = shop.server.data().display().to_string();
    let outcome = clampbookd(&["serve", "--listen", "127.0.0.1:0", "--data", &data]);
    assert!(
        !outcome.status.success(),
        "the last entries are looked at before anything is served"
    );
    mend(shop.server.data());
}

/// Changes what an entry says, as somebody with the file and a bad conscience would.
fn tamper(data: &std::path::Path) {
    change(data, "Orchard tractor", "Pre-war tractor");
}

fn mend(data: &std::path::Path) {
    change(data, "Pre-war tractor", "Orchard tractor");
}

fn change(data: &std::path::Path, from: &str, to: &str) {
    let journal = rusqlite::Connection::open(data).expect("the journal opens");
    let trigger: String = journal
        .query_row(
            "SELECT sql FROM sqlite_master WHERE name = 'entries_are_not_changed'",
            [],
            |row| row.get(0),
        )
        .expect("the trigger that forbids it");
    journal
        .execute("DROP TRIGGER entries_are_not_changed", [])
        .expect("dropped");
    let changed = journal
        .execute(
            "UPDATE entries SET body = replace(body, ?1, ?2) WHERE seq = 1",
            [from, to],
        )
        .expect("changed");
    assert_eq!(changed, 1);
    journal.execute(&trigger, []).expect("put back");
}

#[tokio::test]
async fn reflection_lists_every_service_and_tells_the_contract() {
    let shop = Shop::open();
    let ask = |question| ServerReflectionRequest {
        host: String::new(),
        message_request: Some(question),
    };
    let questions = tokio_stream::iter([
        ask(MessageRequest::ListServices(String::new())),
        ask(MessageRequest::FileContainingSymbol(
            "clampbook.v1.JobService".into(),
        )),
    ]);
    let mut client = ServerReflectionClient::new(shop.channel());
    let mut answers = client
        .server_reflection_info(questions)
        .await
        .expect("reflection")
        .into_inner();
    let first = answers
        .message()
        .await
        .expect("an answer")
        .expect("no end")
        .message_response;
    let Some(MessageResponse::ListServicesResponse(list)) = first else {
        panic!("{first:?}");
    };
    let names: Vec<&str> = list
        .service
        .iter()
        .map(|service| service.name.as_str())
        .collect();
    for service in SERVICES.iter().chain(&["grpc.health.v1.Health"]) {
        assert!(names.contains(service), "{service} of {names:?}");
    }
    let second = answers
        .message()
        .await
        .expect("an answer")
        .expect("no end")
        .message_response;
    assert!(
        matches!(second, Some(MessageResponse::FileDescriptorResponse(_))),
        "{second:?}"
    );
}

#[tokio::test]
async fn sigterm_ends_the_server_in_time_although_somebody_watches() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await.name;
    let request = WatchEntriesRequest {
        parent: job,
        after_sequence: 0,
    };
    let mut watch = shop
        .jobs()
        .watch_entries(request)
        .await
        .expect("a stream")
        .into_inner();
    watch.message().await.expect("an entry");
    let begun = Instant::now();
    shop.server.tell_to_stop();
    let status = shop.server.wait_for_end().await;
    assert!(status.success(), "{status}");
    assert!(
        begun.elapsed() < Duration::from_secs(3),
        "{:?}",
        begun.elapsed()
    );
    assert!(shop.server.log().contains("stopping"));
}

#[tokio::test]
async fn a_second_sigterm_ends_it_at_once_although_a_peer_keeps_silent() {
    let mut server = Server::start();
    let address = server.url().trim_start_matches("http://").to_owned();
    let silent = TcpStream::connect(address).expect("a connection that says nothing");
    server.tell_to_stop();
    let begun = Instant::now();
    while !server.log().contains("stopping") {
        assert!(
            begun.elapsed() < Duration::from_secs(5),
            "it does not even begin to stop"
        );
        tokio::task::yield_now().await;
    }
    server.tell_to_stop();
    server.wait_for_end().await;
    drop(silent);
}

#[test]
fn what_was_answered_is_there_after_the_hardest_end() {
    let runtime = tokio::runtime::Runtime::new().expect("a runtime");
    let mut shop = runtime.block_on(async {
        let shop = Shop::open();
        let plate = shop.job("tractor").await.joint("plate").await;
        plate.takes_out(1, RemovalOutcome::Normal).await;
        drop(plate);
        shop
    });
    shop.server.kill();
    shop.server.start_again(&[]);
    assert_eq!(shop.server.entry_count(), 4);
}

#[test]
fn only_loopback_is_listened_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("journal.db").display().to_string();
    for address in ["0.0.0.0:0", "[::]:0", "192.0.2.1:0"] {
        let outcome = clampbookd(&["serve", "--listen", address, "--data", &data]);
        let said = String::from_utf8_lossy(&outcome.stderr).into_owned();
        assert_eq!(outcome.status.code(), Some(1), "{address}: {said}");
        assert!(said.contains("loopback"), "{said}");
    }
    assert!(
        !folder.path().join("journal.db").exists(),
        "nothing is made before the address is good"
    );
}

#[tokio::test]
async fn a_second_server_on_one_journal_is_refused_and_the_first_goes_on() {
    let shop = Shop::open();
    let data = shop.server.data().display().to_string();
    let outcome = clampbookd(&["serve", "--listen", "127.0.0.1:0", "--data", &data]);
    let said = String::from_utf8_lossy(&outcome.stderr).into_owned();
    assert_eq!(outcome.status.code(), Some(1), "{said}");
    assert!(outcome.stdout.is_empty(), "it must not say that it listens");
    assert!(said.contains("served") || said.contains("in use"), "{said}");
    shop.job("tractor").await;
}

#[test]
fn what_is_no_journal_is_left_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("notes.txt");
    fs::write(
        &file,
        "not a database, but long enough to be looked at as one".repeat(100),
    )
    .expect("written");
    let data = file.display().to_string();
    let before = fs::read(&file).expect("read");
    for command in [
        vec!["serve", "--listen", "127.0.0.1:0", "--data", &data],
        vec!["verify", "--data", &data],
        vec!["rebuild", "--data", &data],
    ] {
        let outcome = clampbookd(&command);
        let said = String::from_utf8_lossy(&outcome.stderr).into_owned();
        assert_eq!(outcome.status.code(), Some(1), "{command:?}: {said}");
        assert!(said.contains("notes.txt"), "{said}");
        assert!(!said.contains("panicked"), "{said}");
    }
    assert_eq!(fs::read(&file).expect("read"), before);
}

#[tokio::test]
async fn a_backup_made_while_serving_is_a_whole_journal() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.comes_apart().await;
    let copy = shop.server.beside("copy.db");
    let (data, to) = (
        shop.server.data().display().to_string(),
        copy.display().to_string(),
    );
    let outcome = clampbookd(&["backup", &to, "--data", &data]);
    assert!(
        outcome.status.success(),
        "{}",
        String::from_utf8_lossy(&outcome.stderr)
    );
    assert!(String::from_utf8_lossy(&outcome.stdout).starts_with("7 entries copied"));
    let verified = clampbookd(&["verify", "--data", &to]);
    assert!(
        verified.status.success(),
        "{}",
        String::from_utf8_lossy(&verified.stderr)
    );
    // The server goes on writing, and the copy stays what it was.
    plate.puts_back(1).await;
    let again = clampbookd(&["backup", &to, "--data", &data]);
    assert!(
        !again.status.success(),
        "an existing file is never overwritten"
    );
    let serving = Shop::at(Server::on_copy(&copy));
    assert_eq!(serving.job_named("tractor").entries().await.len(), 7);
}

#[tokio::test]
async fn lists_made_anew_are_the_same_lists() {
    let mut shop = Shop::open();
    for id in ["a", "b"] {
        shop.job(id).await.joint("plate").await.comes_apart().await;
    }
    let list = |shop: &Shop| {
        let mut jobs = shop.jobs();
        async move {
            let request = clampbook_api::v1::ListJobsRequest::default();
            jobs.list_jobs(request)
                .await
                .expect("jobs")
                .into_inner()
                .jobs
        }
    };
    let before = list(&shop).await;
    let data = shop.server.data().display().to_string();
    let busy = clampbookd(&["rebuild", "--data", &data]);
    assert!(!busy.status.success(), "not while it is served");
    shop.server.stop().await;
    let rebuilt = clampbookd(&["rebuild", "--data", &data]);
    assert!(
        rebuilt.status.success(),
        "{}",
        String::from_utf8_lossy(&rebuilt.stderr)
    );
    shop.server.start_again(&[]);
    let shop = Shop::at(shop.server);
    assert_eq!(list(&shop).await, before);
}

#[test]
fn the_log_goes_to_standard_error_as_plain_text_or_json() {
    let server = Server::start();
    let log = wait_for_log(&server);
    assert!(!log.contains('\u{1b}'), "a file gets no colours: {log:?}");
    let server = Server::start_with(&["--log-format", "json"]);
    for line in wait_for_log(&server).lines() {
        serde_json::from_str::<serde_json::Value>(line)
            .unwrap_or_else(|error| panic!("{error}: {line}"));
    }
}

fn wait_for_log(server: &Server) -> String {
    let begun = Instant::now();
    loop {
        let log = server.log();
        if log.contains("the journal is whole") && log.ends_with('\n') {
            return log;
        }
        assert!(begun.elapsed() < Duration::from_secs(20), "{log}");
        std::thread::yield_now();
    }
}

#[test]
fn wrong_flags_are_usage_errors() {
    for args in [
        vec![],
        vec!["serve"],
        vec!["serve", "--data", "x", "--listen", "nowhere"],
        vec!["dance"],
        vec!["backup", "--data", "x"],
    ] {
        let outcome = clampbookd(&args);
        assert_eq!(outcome.status.code(), Some(2), "{args:?}");
        assert!(outcome.stdout.is_empty(), "{args:?}");
    }
    let version = clampbookd(&["--version"]);
    assert!(version.status.success());
    assert!(String::from_utf8_lossy(&version.stdout).starts_with("clampbookd "));
}

#[test]
fn a_barrier_that_is_none_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("journal.db").display().to_string();
    let outcome = clampbookd(&["serve", "--data", &data, "--barrier", "nowhere"]);
    assert_eq!(outcome.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&outcome.stderr).contains("--barrier"));
}

#[tokio::test]
async fn backups_that_are_overdue_are_told_by_a_health_of_their_own_and_the_log() {
    let mut shop = Shop::open();
    let folder = shop.server.beside("backups");
    fs::create_dir(&folder).expect("a folder");
    let name = folder.to_str().expect("a name").to_owned();
    // Once a second, and a bit.
    let flags = ["--backups", &name, "--backup-every", "0.0003"];
    shop.restart(&flags).await;
    shop.server.expects_errors();
    let backups = "clampbook.backups";
    becomes(&shop, backups, ServingStatus::Serving).await;
    fs::remove_dir_all(&folder).expect("the disk is gone");
    becomes(&shop, backups, ServingStatus::NotServing).await;
    becomes(&shop, "", ServingStatus::Serving).await;
    let log = shop.server.log();
    assert!(
        log.contains("no backup was made and verified for more than twice"),
        "{log}"
    );
    fs::create_dir(&folder).expect("the disk is back");
    becomes(&shop, backups, ServingStatus::Serving).await;
}
