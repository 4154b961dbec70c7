//! A journal as open files: written, checked without a journal, and taken in again.

use crate::support::photo::png;
use crate::support::server::clampbookd;
use crate::support::{Server, Shop};
use clampbook_api::v1::{ListEntriesRequest, RemovalOutcome, SheetFormat};
use rusqlite::Connection;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

/// Runs a command that ends well, and gives what it printed.
#[track_caller]
fn does(words: &[&str]) -> String {
    let output = clampbookd(words);
    assert!(output.status.success(), "{output:?}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// Runs a command that is refused, and gives why.
#[track_caller]
fn refuses(words: &[&str]) -> String {
    let output = clampbookd(words);
    assert!(!output.status.success(), "{output:?}");
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn text(path: &Path) -> &str {
    path.to_str().expect("a name")
}

fn head(said: &str) -> &str {
    let head = said.lines().find_map(|line| line.strip_prefix("head "));
    head.unwrap_or_else(|| panic!("no head in {said}"))
}

/// Two jobs, one with a photo, and what the examples are made from.
struct Scene {
    shop: Shop,
    folder: PathBuf,
}

impl Scene {
    async fn new() -> Self {
        let shop = Shop::open();
        for id in ["press", "tractor"] {
            let job = shop.job(id).await;
            let plate = job.joint("plate").await;
            plate.takes_out(1, RemovalOutcome::Normal).await;
        }
        let job = shop.job_named("tractor");
        job.adds_photo(&job.name, 0, &png(7)).await.expect("kept");
        let folder = shop.server.beside("papers");
        Self { shop, folder }
    }

    fn data(&self) -> String {
        text(self.shop.server.data()).into()
    }

    fn beside(&self, name: &str) -> String {
        text(&self.shop.server.beside(name)).into()
    }

    /// Exports while it is served.
    fn exports(&self, flags: &[&str]) -> String {
        let data = self.data();
        let words = [&["export", text(&self.folder), "--data", &data], flags].concat();
        does(&words)
    }

    fn is_refused(&self, why: &str) {
        let target = self.beside("refused.db");
        for words in [
            &["verify-export", text(&self.folder)][..],
            &["import", text(&self.folder), "--data", &target],
        ] {
            let told = refuses(words);
            assert!(told.contains(why), "{words:?}: {told}");
        }
        assert!(!Path::new(&target).exists(), "nothing was written");
    }

    fn entries(&self) -> Vec<Value> {
        let lines = fs::read_to_string(self.folder.join("entries.jsonl")).expect("entries");
        let lines = lines.lines().map(serde_json::from_str);
        lines.map(|line| line.expect("JSON")).collect()
    }

    /// Changes a file of the export.
    fn change(&self, name: &str, change: impl FnOnce(String) -> String) {
        let path = self.folder.join(name);
        let before = fs::read_to_string(&path).expect("text");
        let after = change(before.clone());
        assert_ne!(before, after);
        fs::write(path, after).expect("it is written");
    }
}

/// A request that wrote no entry, as nobody sent it.
const SILENT: &str = r#"{"request":"018f0000-0000-7000-8000-000000000000","stream":"shop","first_seq":1,"fingerprint":"0000000000000000000000000000000000000000000000000000000000000000","fingerprint_version":1}"#;

/// The sheet as a table.
async fn sheet(shop: &Shop, id: &str) -> String {
    shop.job_named(id).print(SheetFormat::Csv).await
}

#[tokio::test]
async fn a_whole_journal_comes_back_with_its_hashes_sheet_and_photos() {
    let scene = Scene::new().await;
    let exported = scene.exports(&[]);
    let verified = does(&["verify", "--data", &scene.data()]);
    assert_eq!(head(&exported), head(&verified));
    assert_eq!(
        head(&does(&["verify-export", text(&scene.folder)])),
        head(&verified)
    );
    let before = sheet(&scene.shop, "tractor").await;
    let copy = scene.beside("copy.db");
    let imported = does(&["import", text(&scene.folder), "--data", &copy]);
    assert_eq!(head(&imported), head(&verified));
    assert_eq!(does(&["verify", "--data", &copy]), verified);

    let again = Shop::at(Server::on_copy(Path::new(&copy)));
    assert_eq!(sheet(&again, "tractor").await, before);
    let twice = refuses(&["import", text(&scene.folder), "--data", &copy]);
    assert!(twice.contains("a new journal only"), "{twice}");
    let there = refuses(&["export", text(&scene.folder), "--data", &scene.data()]);
    assert!(there.contains("exists already"), "{there}");
}

#[tokio::test]
async fn a_whole_export_may_go_into_a_journal_without_entries_and_keeps_all_requests() {
    let mut scene = Scene::new().await;
    scene.shop.server.stop().await;
    let silent = "INSERT INTO requests (id, fingerprint, fingerprint_version, stream, first_seq, entry_count) \
                  VALUES (zeroblob(16), zeroblob(32), 1, 1, 3, 0)";
    let conn = Connection::open(scene.data()).expect("a journal");
    conn.execute_batch(silent).expect("it is remembered");
    drop(conn);
    let exported = scene.exports(&[]);
    let mut empty = Server::start();
    empty.stop().await;
    let data = text(empty.data()).to_owned();
    does(&["import", text(&scene.folder), "--data", &data]);
    assert_eq!(head(&does(&["verify", "--data", &data])), head(&exported));
    let kept = requests(&data);
    assert_eq!(kept, requests(&scene.data()));
    assert_eq!(kept.last().expect("requests").5, 0, "{kept:?}");
    scene.shop.server.start_again(&[]);
}

type Request = ([u8; 16], [u8; 32], Option<u32>, String, i64, i64);

/// Requests that a journal remembers, those without entries last.
fn requests(data: &str) -> Vec<Request> {
    let conn = Connection::open(data).expect("a journal");
    let mut statement = conn
        .prepare(
            "SELECT r.id, r.fingerprint, r.fingerprint_version, s.name, r.first_seq, r.entry_count FROM requests r \
             JOIN streams s ON s.key = r.stream ORDER BY r.entry_count = 0, r.first_seq",
        )
        .expect("they are there");
    let rows = statement.query_map([], |row| Request::try_from(row));
    rows.expect("rows")
        .map(|row| row.expect("a request"))
        .collect()
}

#[test]
fn journals_of_every_schema_come_back_to_the_same_head() {
    let folder = tempfile::tempdir().expect("a folder");
    for schema in 1..=4 {
        let fixture = format!("tests/fixtures/schema_{schema}.clampbook.db");
        let old = folder.path().join(format!("old-{schema}.db"));
        let fixture = Path::new(env!("CARGO_MANIFEST_DIR")).join(fixture);
        fs::copy(fixture, &old).expect("a copy");
        let (papers, new) = (
            folder.path().join(format!("papers-{schema}")),
            folder.path().join(format!("new-{schema}.db")),
        );
        let exported = does(&["export", text(&papers), "--data", text(&old)]);
        does(&["import", text(&papers), "--data", text(&new)]);
        let verified = does(&["verify", "--data", text(&new)]);
        assert_eq!(verified, does(&["verify", "--data", text(&old)]));
        assert_eq!(head(&exported), head(&verified));

        let job = folder.path().join(format!("job-{schema}"));
        let words = [
            "export",
            text(&job),
            "--job",
            "hay-press",
            "--data",
            text(&old),
        ];
        let exported = does(&words);
        let unproven = exported.contains("the chain is shown from entry");
        assert_eq!(unproven, schema < 4, "{exported}");
        let words = [
            "import",
            text(&job),
            "--as",
            "second-press",
            "--data",
            text(&new),
        ];
        does(&words);
        does(&["verify", "--data", text(&new)]);
        let words = ["import", text(&job), "--as", "second", "--data", text(&old)];
        if schema < 4 {
            assert!(refuses(&words).contains("serve it once"));
        } else {
            does(&words);
        }
    }
}

/// The same id is another person in another shop.
#[test]
fn people_of_an_imported_job_are_not_taken_for_those_of_the_shop() {
    let folder = tempfile::tempdir().expect("a folder");
    let [data, job] = ["data", "job"].map(|name| folder.path().join(name));
    let fixture = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    fs::copy(fixture.join("schema_4.clampbook.db"), &data).expect("a copy");
    let data = text(&data);
    let ids = |id: &str| -> Vec<String> {
        let conn = Connection::open(data).expect("a journal");
        let mut statement = conn
            .prepare(
                "SELECT DISTINCT e.person_id FROM entries e JOIN streams s ON s.key = e.stream \
                 WHERE s.name = 'jobs/' || ?1 AND e.person_id IS NOT NULL",
            )
            .expect("it is there");
        let ids = statement.query_map([id], |row| row.get(0)).expect("rows");
        ids.map(|id| id.expect("an id")).collect()
    };
    assert_eq!(ids("orchard-tractor"), ["ida"]);
    does(&[
        "export",
        text(&job),
        "--job",
        "orchard-tractor",
        "--data",
        data,
    ]);
    does(&["import", text(&job), "--as", "second", "--data", data]);
    let [id] = &ids("second")[..] else {
        panic!("one person");
    };
    assert!(id.starts_with("ida-of-") && id.len() == 19, "{id}");
    does(&["verify", "--data", data]);
}

/// The example of the page on exports runs as it is printed.
#[tokio::test]
async fn the_example_in_the_documentation_runs() {
    let mut shop = Shop::open();
    shop.job("press").await;
    let job = shop.job("tractor").await;
    job.adds_photo(&job.name, 0, &png(7)).await.expect("kept");
    shop.server.stop().await;
    let mut museum = Server::start();
    museum.stop().await;
    let folder = tempfile::tempdir().expect("a folder");
    let place = |name: &str| folder.path().join(name);
    fs::copy(shop.server.data(), place("shop.clampbook")).expect("a copy");
    fs::copy(museum.data(), place("museum.clampbook")).expect("a copy");
    let page = include_str!("../../docs/export.md");
    let (_, example) = page
        .split_once("## An example\n\n```\n")
        .expect("an example");
    let (example, _) = example.split_once("```").expect("its end");
    let mut ran = 0;
    for step in example.split("$ clampbookd ").skip(1) {
        let (command, expected) = step.split_once('\n').expect("what it prints");
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_clampbookd"))
            .args(command.split(' '))
            .current_dir(folder.path())
            .output()
            .expect("the program runs");
        assert!(output.status.success(), "{command}: {output:?}");
        let printed = String::from_utf8_lossy(&output.stdout).into_owned();
        assert_eq!(
            printed.lines().count(),
            expected.lines().count(),
            "{printed}"
        );
        for (printed, expected) in printed.lines().zip(expected.lines()) {
            let begins = expected.trim_end_matches("...");
            assert!(printed.starts_with(begins), "{printed} {expected}");
        }
        ran += 1;
    }
    assert_eq!(ran, 3);
}

#[tokio::test]
async fn the_export_of_a_job_hides_the_others_and_follows_the_chain() {
    let scene = Scene::new().await;
    let exported = scene.exports(&["--job", "tractor"]);
    let whole = does(&["verify", "--data", &scene.data()]);
    assert_eq!(head(&exported), head(&whole));
    let mut shown = 0;
    for entry in scene.entries() {
        match entry.get("said") {
            Some(said) => {
                assert_eq!(said["stream"], "jobs/tractor");
                shown += 1;
            }
            None => assert!(entry["content"].is_string(), "{entry}"),
        }
    }
    assert_eq!(shown, 5);
    let all = fs::read_to_string(scene.folder.join("entries.jsonl")).expect("entries");
    assert!(!all.contains("press"), "{all}");

    scene.change("entries.jsonl", |all| {
        let mut lines: Vec<_> = all.lines().map(str::to_owned).collect();
        let mut sealed: Value = serde_json::from_str(&lines[0]).expect("JSON");
        sealed["content"] = Value::from("00".repeat(32));
        lines[0] = sealed.to_string();
        lines.join("\n") + "\n"
    });
    scene.is_refused("line 1: is not what was written");
}

#[tokio::test]
async fn a_job_is_taken_in_as_new_entries_that_name_their_origin() {
    let scene = Scene::new().await;
    let exported = scene.exports(&["--job", "tractor"]);
    let origin = head(&exported).to_owned();
    let sheet_before = sheet(&scene.shop, "tractor").await;
    let mut other = Shop::open();
    other.job("tractor").await;
    let data = text(other.server.data()).to_owned();
    let papers = text(&scene.folder);
    let served = refuses(&["import", papers, "--data", &data, "--as", "guest"]);
    assert!(served.contains("in use"), "{served}");
    other.server.stop().await;
    let before = does(&["verify", "--data", &data]);
    let taken = refuses(&["import", papers, "--data", &data]);
    assert!(taken.contains("a job tractor already"), "{taken}");
    let missing = scene.beside("missing.db");
    let told = refuses(&["import", papers, "--data", &missing]);
    assert!(told.contains("does not exist"), "{told}");
    assert_eq!(does(&["verify", "--data", &data]), before);

    let imported = does(&["import", papers, "--data", &data, "--as", "guest"]);
    assert_eq!(head(&imported), head(&does(&["verify", "--data", &data])));
    let again = refuses(&["import", papers, "--data", &data, "--as", "guest"]);
    assert!(again.contains("a job guest already"), "{again}");
    other.server.start_again(&[]);
    let other = Shop::at(other.server);
    assert_eq!(
        sheet(&other, "guest").await,
        sheet_before.replace("tractor", "guest")
    );
    let request = ListEntriesRequest {
        parent: "jobs/guest".into(),
        ..Default::default()
    };
    let listed = other.jobs().list_entries(request).await;
    let listed = listed.expect("they are listed").into_inner().entries;
    let shown: Vec<_> = scene.entries();
    let shown = shown.iter().filter(|entry| entry.get("said").is_some());
    assert_eq!(listed.len(), shown.clone().count());
    for (entry, shown) in listed.iter().zip(shown) {
        let device = &entry.said.as_ref().expect("said").device;
        let named = format!("imported: entry {} of {}", shown["seq"], &origin[..14]);
        assert!(device.contains(&named), "{device} {named}");
    }
    let first = &listed[0].said.as_ref().expect("said").device;
    assert!(first.ends_with(&origin), "{first}");
}

#[tokio::test]
async fn what_was_changed_or_is_missing_is_refused_and_named() {
    let scene = Scene::new().await;
    let exported = scene.exports(&[]);
    let count = scene.entries().len();
    let last = format!("entries.jsonl, line {count}");
    let kept = scene.shop.server.beside("kept");
    let again = |scene: &Scene| {
        fs::remove_dir_all(&scene.folder).expect("removed");
        assert_eq!(scene.exports(&[]), exported);
    };
    scene.change("entries.jsonl", |all| all.replacen("Orchard", "Another", 1));
    scene.is_refused("entries.jsonl, line 1: is not what was written");
    again(&scene);
    scene.change("entries.jsonl", |all| {
        let lines: Vec<_> = all.lines().collect();
        [&lines[..1], &lines[2..]].concat().join("\n") + "\n"
    });
    scene.is_refused("line 2: is entry 3, not 2");
    again(&scene);
    scene.change("entries.jsonl", |all| all[..all.len() - 40].to_owned());
    scene.is_refused(&last);
    again(&scene);
    scene.change("entries.jsonl", |all| {
        let lines: Vec<_> = all.lines().collect();
        lines[..count - 1].join("\n") + "\n"
    });
    scene.is_refused("but the manifest says");
    again(&scene);
    scene.change("entries.jsonl", |all| {
        all.replacen("\"format\":2", "\"format\":3", 1)
    });
    scene.is_refused("entry format 3, which is not known");
    again(&scene);
    scene.change("manifest.json", |all| {
        all.replacen("\"format\":1", "\"format\":2", 1)
    });
    scene.is_refused("format 2 is not known");
    again(&scene);
    scene.change("requests.jsonl", |all| all + SILENT + "\n");
    scene.is_refused("requests.jsonl: is not what was written");
    again(&scene);
    // What a forger would try: an entry as a hash alone, the manifest of another journal, an entry under another request.
    scene.change("entries.jsonl", |all| {
        let mut lines: Vec<_> = all.lines().map(str::to_owned).collect();
        let mut hidden: Value = serde_json::from_str(&lines[1]).expect("JSON");
        hidden.as_object_mut().expect("an object").remove("said");
        lines[1] = hidden.to_string();
        lines.join("\n") + "\n"
    });
    scene.is_refused("line 2: does not say what was said");
    again(&scene);
    let head = head(&exported).to_owned();
    scene.change("manifest.json", |all| {
        all.replace(&head, &format!("{count}:{}", "0".repeat(64)))
    });
    scene.is_refused("but the manifest says");
    again(&scene);
    scene.change("manifest.json", |all| {
        all.replace("\"job\":null", "\"job\":\"jobs/press\"")
    });
    scene.is_refused("is of jobs/tractor, not of the job");
    again(&scene);
    let photos = fs::read_dir(scene.folder.join("photos")).expect("photos");
    for photo in photos.map(|photo| photo.expect("a photo").path()) {
        fs::write(&photo, png(8)).expect("another photo");
        scene.is_refused("has another content");
        fs::remove_file(&photo).expect("removed");
        scene.is_refused("photos/");
    }
    assert!(!kept.exists());
    let unknown = [
        "export",
        text(&kept),
        "--job",
        "nothing",
        "--data",
        &scene.data(),
    ];
    assert!(refuses(&unknown).contains("no job nothing"));
    assert!(!kept.exists());
    let left = fs::read_dir(kept.parent().expect("a folder")).expect("a folder");
    let left = left.map(|item| item.expect("an item").file_name());
    let left: Vec<_> = left
        .filter(|name| name.to_string_lossy().contains("partial"))
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

/// The record was changed and the hashes made again: only a head that was kept elsewhere tells. A journal with a foreign entry
/// takes nothing in.
#[tokio::test]
async fn a_damaged_journal_neither_gives_nor_takes() {
    let mut scene = Scene::new().await;
    scene.exports(&["--job", "tractor"]);
    scene.shop.server.stop().await;
    let copy = scene.beside("damaged.db");
    fs::copy(scene.data(), &copy).expect("a copy");
    let conn = Connection::open(&copy).expect("a journal");
    conn.execute_batch(
        "DROP TRIGGER entries_are_not_changed; UPDATE entries SET device = 'x' WHERE seq = 2; \
         CREATE TRIGGER entries_are_not_changed BEFORE UPDATE ON entries\n\
         BEGIN SELECT raise(ABORT, 'entries are never changed; write a correction'); END",
    )
    .expect("it is changed");
    drop(conn);
    let target = scene.beside("from-damaged");
    let told = refuses(&["export", &target, "--data", &copy]);
    assert!(told.contains("line 2: "), "{told}");
    assert!(!Path::new(&target).exists());
    let words = [
        "import",
        text(&scene.folder),
        "--data",
        &copy,
        "--as",
        "guest",
    ];
    let told = refuses(&words);
    assert!(told.contains("nothing was imported"), "{told}");
    scene.shop.server.start_again(&[]);
}
