//! Damage: what somebody or something changes in the file behind our back is found, named, and not served as sound.

use crate::check::all_entries;
use crate::crew::Crew;
use crate::dice::Dice;
use crate::health::{is_serving, served};
use crate::outside::Outside;
use crate::server::{Server, until, verify};
use rusqlite::Connection;
use std::fs::{self, File};
use std::os::unix::fs::FileExt;
use std::path::Path;

/// Entries that are verified before a server opens a journal.
const VERIFIED_AT_OPENING: usize = 1_000;

/// A stopped journal with more than so many entries.
async fn written(more_than: usize) -> Outside {
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    let server = Server::start(&outside.data());
    let mut round = 0;
    while outside.history.len() <= more_than {
        let crew = Crew::begin(&server, round, &mut outside.dice).await;
        let ledger = crew.ends().await;
        let found = outside.look_through_at(&server, &ledger).await;
        assert_eq!(found.absent, 0, "nothing disturbed it");
        round += 1;
    }
    until("the journal is served as sound", async || {
        is_serving(&server.connect()).await
    })
    .await;
    server.terminate();
    server.ended().await;
    outside
}

/// Flips one bit of a letter in a person's own words in the body of an entry, so that it still is a fact.
fn flip_a_bit(data: &Path, place: usize, dice: &mut Dice) {
    let conn = Connection::open(data).expect("the journal opens");
    let place = i64::try_from(place).expect("a place");
    let trigger: String = conn
        .query_row(
            "SELECT sql FROM sqlite_schema WHERE name = 'entries_are_not_changed'",
            [],
            |row| row.get(0),
        )
        .expect("the trigger that forbids it");
    conn.execute_batch("DROP TRIGGER entries_are_not_changed")
        .expect("an outsider can do anything");
    let body: String = conn
        .query_row("SELECT body FROM entries WHERE seq = ?1", [place], |row| {
            row.get(0)
        })
        .expect("the entry is there");
    let words = ["\"display_name\":\"", ":\""];
    let start = words
        .iter()
        .find_map(|key| Some(body.rfind(key)? + key.len()));
    let start = start.expect("every fact has a text in it");
    let end = start + body[start..].find('"').expect("the text ends");
    let mut bytes = body.into_bytes();
    let letters: Vec<usize> = (start..end)
        .filter(|i| bytes[*i].is_ascii_lowercase())
        .collect();
    bytes[letters[dice.between(0, letters.len() - 1)]] ^= 1;
    let changed = String::from_utf8(bytes).expect("still ASCII");
    conn.execute(
        "UPDATE entries SET body = ?2 WHERE seq = ?1",
        rusqlite::params![place, changed],
    )
    .expect("the entry is changed");
    conn.execute_batch(&trigger).expect("it is put back");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_bit_that_flipped_in_a_new_entry_keeps_the_journal_closed() {
    let mut outside = written(0).await;
    let data = outside.data();
    let place = outside.dice.between(1, outside.history.len());
    flip_a_bit(&data, place, &mut outside.dice);

    let complaint = verify(&data).expect_err("it is not whole");
    let named = format!(
        "{} entries follow from each other, then entry {place}: ",
        place - 1
    );
    assert!(complaint.contains(&named), "{complaint}");
    let Err(refused) = Server::try_start(&data) else {
        panic!("it is served, though entry {place} was changed");
    };
    assert_eq!(refused.status.code(), Some(1));
    let named = format!("the journal is damaged: entry {place} of the file ");
    assert!(refused.log.contains(&named), "{}", refused.log);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_bit_that_flipped_long_ago_is_named_and_health_never_serves() {
    let mut outside = written(VERIFIED_AT_OPENING).await;
    let data = outside.data();
    let old = outside.history.len() - VERIFIED_AT_OPENING;
    let place = outside.dice.between(1, old);
    flip_a_bit(&data, place, &mut outside.dice);

    let server = Server::start(&data);
    until("the damage is found", async || {
        server.log().contains("the journal is not whole")
    })
    .await;
    assert!(
        server.log().contains(&format!("entry.seq={place} ")),
        "{}",
        server.log()
    );
    assert!(served(&server.connect()).await.is_empty());
    let entries = all_entries(&server.connect()).await;
    let changed: Vec<usize> = (1..=entries.len())
        .filter(|seq| entries[seq - 1] != outside.history[seq - 1])
        .collect();
    assert_eq!(changed, [place], "all else can be read, to be saved");
    let complaint = verify(&data).expect_err("it is not whole");
    assert!(
        complaint.contains(&format!("then entry {place}: ")),
        "{complaint}"
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_list_that_does_not_follow_from_the_entries_is_not_served_as_sound() {
    let outside = written(0).await;
    Connection::open(outside.data())
        .and_then(|conn| conn.execute_batch("UPDATE jobs SET in_place = in_place + 1"))
        .expect("anybody can");
    let complaint = verify(&outside.data()).expect_err("it is not whole");
    assert!(
        complaint.contains("the job list does not say"),
        "{complaint}"
    );
    let server = Server::start(&outside.data());
    until("the fault is found", async || {
        server.log().contains("the job list does not say")
    })
    .await;
    until("health says so", async || {
        served(&server.connect()).await.is_empty()
    })
    .await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_page_of_entries_that_turned_into_rubbish_is_not_served_as_sound() {
    let mut outside = written(0).await;
    let data = outside.data();
    let pages: Vec<i64> = Connection::open(&data)
        .and_then(|conn| {
            conn.prepare("SELECT pageno FROM dbstat WHERE name = 'entries' AND pagetype = 'leaf'")?
                .query_map([], |row| row.get(0))?
                .collect()
        })
        .expect("the pages can be told");
    let page = pages[outside.dice.between(0, pages.len() - 1)];
    File::options()
        .write(true)
        .open(&data)
        .and_then(|file| file.write_all_at(&[0xa5; 4_096], (page.unsigned_abs() - 1) * 4_096))
        .expect("the page is overwritten");
    assert_not_sound(&data);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_file_that_lost_its_end_is_not_served_as_sound() {
    let outside = written(0).await;
    let data = outside.data();
    let size = fs::metadata(&data).expect("a size").len();
    File::options()
        .write(true)
        .open(&data)
        .and_then(|file| file.set_len(size / 2))
        .expect("the file is cut");
    assert_not_sound(&data);
}

/// Asserts that damage which SQLite itself comes upon keeps the journal closed, and that `verify` says so.
#[track_caller]
fn assert_not_sound(data: &Path) {
    let complaint = verify(data).expect_err("it is not whole");
    assert!(complaint.starts_with("clampbookd: "), "{complaint}");
    let Err(refused) = Server::try_start(data) else {
        panic!("it is served, though verify says: {complaint}");
    };
    assert_eq!(refused.status.code(), Some(1));
    let named = format!("cannot open {}", data.display());
    assert!(refused.log.contains(&named), "{}", refused.log);
}
