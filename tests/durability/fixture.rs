//! Fixtures: a journal of every schema that ever was, kept for ever. Today's server must open it to the same chain, the same
//! state and the same sheet.
//!
//! `CLAMPBOOK_BLESS=1` writes down anew what is expected, and makes a journal only where there is none. Chain and state of a
//! fixture never change; a line of its sheet may, when its wording was changed on purpose.

use crate::ask::says;
use crate::check::{all_entries, assert_sound, entries_of};
use crate::health;
use crate::server::{Server, until, verify};
use crate::whole::{Teller, json, pool, story};
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::sheet_service_client::SheetServiceClient;
use clampbook_api::{reason, v1 as wire};
use prost_reflect::DynamicMessage;
use prost_reflect::prost::Message;
use rusqlite::Connection;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tonic::transport::Channel;

/// Most bytes of a fixture; every clone of the repository carries it.
const MOST_BYTES: u64 = 200 * 1_024;

/// Form of the one time in a sheet that is not the journal's: when it was made.
const MADE: &str = "YYYY-MM-DD HH:MM UTC";

/// The jobs of every fixture.
const JOBS: [&str; 2] = ["jobs/orchard-tractor", "jobs/hay-press"];

/// All that can be said in schema 3.
const KINDS: [&str; 18] = [
    "assembly-added",
    "condition-stated",
    "condition-withdrawn",
    "corrected",
    "counterpart-answered",
    "decided",
    "job-opened",
    "joint-added",
    "marked",
    "part-arrived",
    "part-found",
    "part-wanted",
    "photo-added",
    "piece-accounted",
    "refitted",
    "removed",
    "specification-stated",
    "specification-withdrawn",
];

/// And what can be said since schema 4.
const KINDS_OF_SCHEMA_4: [&str; 3] = ["person-stated", "person-withdrawn", "tightened"];

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_journal_of_schema_1_opens_to_the_same_chain_state_and_sheet() {
    opens_to_the_same(1).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_journal_of_schema_2_opens_to_the_same_chain_state_and_sheet() {
    opens_to_the_same(2).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_journal_of_schema_3_opens_to_the_same_chain_state_and_sheet() {
    let entries = opens_to_the_same(3).await;
    let kinds: BTreeSet<_> = entries.iter().map(|entry| entry.kind.as_str()).collect();
    assert_eq!(kinds.into_iter().collect::<Vec<_>>(), KINDS);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_journal_of_schema_4_opens_to_the_same_chain_state_and_sheet() {
    let entries = opens_to_the_same(4).await;
    let kinds: BTreeSet<_> = entries.iter().map(|entry| entry.kind.as_str()).collect();
    let mut all: BTreeSet<_> = KINDS.into_iter().collect();
    all.extend(KINDS_OF_SCHEMA_4);
    assert_eq!(kinds, all);
    let known = entries.iter().filter_map(|entry| entry.said.as_ref());
    let people: BTreeSet<_> = known.map(|said| said.person.as_str()).collect();
    assert_eq!(people.into_iter().collect::<Vec<_>>(), ["", "people/ida"]);
}

/// By way of open files too: the same chain, state and sheet, and requests that are sent again get their first answer.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn journals_of_every_schema_come_back_from_an_export_to_the_same_chain_state_and_sheet() {
    for number in 1..=4 {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let [old, papers, new] = ["old", "papers", "new"].map(|name| folder.path().join(name));
        fs::copy(fixture(number), &old).expect("it can be copied");
        for (command, what, data) in [("export", &papers, &old), ("import", &papers, &new)] {
            let done = Command::new(env!("CARGO_BIN_EXE_clampbookd"))
                .arg(command)
                .args([what, Path::new("--data"), data])
                .status()
                .expect("the program runs");
            assert!(done.success(), "{command} of schema {number}");
        }
        is_the_same(number, &new).await;
    }
}

/// Where only ids can be compared, one that made something else is still told to be used.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn an_old_request_id_makes_nothing_else() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let data = folder.path().join("shop.clampbook");
    fs::copy(fixtures().join("schema_3.clampbook.db"), &data).expect("it can be copied");
    let server = Server::start(&data);
    let channel = server.connect();
    let before = all_entries(&channel).await;
    let removal = before.iter().find(|entry| entry.kind == "removed");
    let removal = removal.expect("a removal");
    let request = wire::LogFindingRequest {
        finding: Some(wire::Finding {
            assembly: format!("{}/assemblies/left-hub", JOBS[0]),
            part: "drum".into(),
            kind: wire::FindingKind::Wear.into(),
            severity: wire::FindingSeverity::Usable.into(),
            criticality: wire::Criticality::C.into(),
            ..Default::default()
        }),
        request_id: removal.request_id.clone(),
        ..Default::default()
    };
    let answer = JobServiceClient::new(channel.clone())
        .log_finding(request)
        .await;
    let status = answer.expect_err("it was used");
    assert!(says(&status, reason::REQUEST_ID_REUSED), "{status:?}");
    assert_eq!(all_entries(&channel).await, before);
}

/// Gives the entries of the fixture.
async fn opens_to_the_same(number: i64) -> Vec<wire::Entry> {
    let fixture = fixture(number);
    if blessing() && !fixture.exists() {
        make(&fixture).await;
    }
    assert!(fs::metadata(&fixture).expect("a fixture").len() < MOST_BYTES);

    let folder = tempfile::tempdir().expect("a temporary folder");
    let data = folder.path().join("shop.clampbook");
    fs::copy(&fixture, &data).expect("it can be copied");
    assert_eq!(schema(&data), number);
    is_the_same(number, &data).await
}

/// Serves a journal with the entries of the fixture and compares all that is known of it.
async fn is_the_same(number: i64, data: &Path) -> Vec<wire::Entry> {
    let expected = fixtures().join(format!("schema_{number}.expected.txt"));
    let server = Server::start(data);
    let channel = server.connect();
    until("the journal is served as sound", async || {
        health::is_serving(&channel).await
    })
    .await;
    let mut found = described(&channel).await;
    if number >= 3 {
        found += &told_besides(&channel).await;
    }
    if number >= 4 {
        let asker = Teller::new(channel.clone());
        let people = asker.ask("ListPeople", json!({})).await;
        found += &format!("\nListPeople\n{:#}\n", json(&people));
    }
    if blessing() {
        fs::write(&expected, &found).expect("it is written down");
    }
    let expected = fs::read_to_string(&expected).expect("what is expected");
    for (line, (found, expected)) in found.lines().zip(expected.lines()).enumerate() {
        assert_eq!(found, expected, "line {} of what is expected", line + 1);
    }
    assert_eq!(found, expected);

    let before = all_entries(&channel).await;
    if number >= 3 {
        is_told_again(&channel, requests(data)).await;
        assert_eq!(all_entries(&channel).await, before, "all was there already");
    }
    goes_on(&channel).await;
    let after = all_entries(&channel).await;
    assert_eq!(after[..before.len()], before);
    assert_eq!(after.len(), before.len() + 1, "it is written on");
    let said = verify(data).expect("it is whole");
    let expected = format!("{} entries, chain whole\n", after.len());
    assert!(said.starts_with(&expected), "{said}");
    assert_sound(data);
    before
}

fn fixture(number: i64) -> PathBuf {
    fixtures().join(format!("schema_{number}.clampbook.db"))
}

fn fixtures() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures")
}

fn blessing() -> bool {
    std::env::var_os("CLAMPBOOK_BLESS").is_some_and(|said| said == "1")
}

/// Tells the whole story to today's server and keeps its journal. It is told once; the journal is kept for ever.
async fn make(fixture: &Path) {
    fs::create_dir_all(fixtures()).expect("a folder for fixtures");
    let folder = tempfile::tempdir().expect("a temporary folder");
    let data = folder.path().join("shop.clampbook");
    let server = Server::start(&data);
    Teller::new(server.connect()).tells_all().await;
    let backup = Command::new(env!("CARGO_BIN_EXE_clampbookd"))
        .args(["backup", "--data"])
        .args([data.as_path(), fixture])
        .status()
        .expect("the program runs");
    assert!(backup.success(), "the journal is kept");
}

fn schema(data: &Path) -> i64 {
    Connection::open(data)
        .and_then(|conn| conn.pragma_query_value(None, "user_version", |row| row.get(0)))
        .expect("a schema")
}

/// How many requests a journal keeps.
fn requests(data: &Path) -> u32 {
    Connection::open(data)
        .and_then(|conn| conn.query_row("SELECT count(*) FROM requests", [], |row| row.get(0)))
        .expect("a count")
}

/// The requests that a journal keeps, sent again as they were sent then: each must get its first answer.
async fn is_told_again(channel: &Channel, requests: u32) {
    let mut teller = Teller::new(channel.clone());
    for (what, said) in story().into_iter().take(requests as usize) {
        let step = teller.tells(&what, said).await;
        assert!(!step.entries.is_empty(), "{what} made no entry");
    }
}

/// Chain, state and sheets as text.
async fn described(channel: &Channel) -> String {
    let entries = all_entries(channel).await;
    let head = entries.last().expect("entries");
    let mut text = format!("chain head {} at entry {}\n", head.hash, head.sequence);
    for job in JOBS {
        let count = entries_of(channel, job).await.len();
        text += &format!(
            "\n{job} has {count} entries\n\n{}\n",
            state(channel, job).await
        );
        text += &format!("\n{}", sheet(channel, job).await);
    }
    text
}

/// All that is known of a job's joints, as protobuf JSON without what was not said, so that later fields do not show.
async fn state(channel: &Channel, job: &str) -> String {
    let request = wire::ListJointsRequest {
        parent: job.into(),
        page_size: 200,
        page_token: String::new(),
    };
    let answer = JobServiceClient::new(channel.clone())
        .list_joints(request)
        .await
        .expect("joints are listed")
        .into_inner();
    assert_eq!(answer.next_page_token, "", "one page holds them all");
    let message = pool().get_message_by_name("clampbook.v1.ListJointsResponse");
    let message = message.expect("it is in the contract");
    let bytes = answer.encode_to_vec();
    let message = DynamicMessage::decode(message, bytes.as_slice()).expect("it is one");
    serde_json::to_string_pretty(&message).expect("it can be written as JSON")
}

async fn sheet(channel: &Channel, job: &str) -> String {
    let request = wire::RenderSheetRequest {
        name: job.into(),
        format: wire::SheetFormat::Text.into(),
        ..Default::default()
    };
    let answer = SheetServiceClient::new(channel.clone())
        .render_sheet(request)
        .await
        .expect("the sheet");
    let mut content = answer.into_inner().content;
    let made = content.rfind("\nMade ").expect("when it was made") + "\nMade ".len();
    content.replace_range(made..made + MADE.len(), MADE);
    content
}

/// What the jobs' assemblies, findings, photos, flags, orders and waits are, and what the shop keeps.
async fn told_besides(channel: &Channel) -> String {
    let asker = Teller::new(channel.clone());
    let mut text = String::new();
    let mut tell = |what: String, told: &Value| {
        text += &format!("\n{what}\n{told:#}\n");
    };
    for job in JOBS {
        let whole = asker.ask("GetJob", json!({"name": job})).await;
        tell(job.into(), &json(&whole));
        for list in ["ListFlags", "ListPartsToOrder", "ListWaits"] {
            let page = asker.ask(list, json!({"parent": job, "page_size": 200}));
            tell(format!("{list} {job}"), &json(&page.await));
        }
    }
    let said = entries_of(channel, "shop").await;
    let kinds = said.iter().map(|entry| entry.kind.clone().into()).collect();
    tell("shop".into(), &Value::Array(kinds));
    let specifications = asker.ask("ListSpecifications", json!({})).await;
    tell("ListSpecifications".into(), &json(&specifications));
    let mut own = json(
        &asker
            .ask("ListLubrications", json!({"page_size": 500}))
            .await,
    );
    let own = own["lubrications"].as_array_mut().expect("lubrications");
    own.retain(|lubrication| lubrication.get("etag").is_some());
    tell("own lubrications".into(), &own.clone().into());
    text
}

/// Says one thing more.
async fn goes_on(channel: &Channel) {
    let request = wire::CreateAssemblyRequest {
        parent: JOBS[1].into(),
        assembly_id: "needles".into(),
        assembly: Some(wire::Assembly {
            display_name: "Needles".into(),
            ..Default::default()
        }),
        ..Default::default()
    };
    let answer = JobServiceClient::new(channel.clone())
        .create_assembly(request)
        .await;
    answer.expect("it is taken");
}

/// Journals are read for ever by the words they were written with: the glossary must tell those, not today's.
#[test]
fn the_glossary_tells_the_words_that_are_really_stored() {
    let glossary = include_str!("../../docs/glossary.md");
    let table = glossary
        .split("## Words as stored")
        .nth(1)
        .and_then(|rest| rest.split("\n## ").next())
        .expect("the table");
    let journal = Connection::open(fixtures().join("schema_3.clampbook.db")).expect("a journal");
    let holds = |key: &str| {
        let like = format!("%\"{key}\"%");
        let asked = "SELECT count(*) FROM entries WHERE body LIKE ?1 OR kind = ?2";
        let count: i64 = journal
            .query_row(asked, (like, key), |row| row.get(0))
            .expect("a count");
        count > 0
    };
    let mut told = 0;
    for row in table
        .lines()
        .filter(|line| line.starts_with("| ") && line.contains('`'))
    {
        let stored = row.split('|').nth(1).expect("a cell");
        for word in stored.split('`').skip(1).step_by(2) {
            let key = word.rsplit('.').next().unwrap_or(word);
            assert!(holds(key), "no entry of the fixture says {key} ({word})");
            told += 1;
        }
    }
    assert!(told > 12, "only {told} words are told");
}
