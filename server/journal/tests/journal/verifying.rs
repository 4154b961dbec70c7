//! Verifying: whatever is done to the file behind our back is found, and the first place of it named.

use crate::support::{
    Shop, create_person, lay_out, log_alike, log_match_marks, order, shop_order, tamper_with,
};
use clampbook_journal::{Verification, verify_file};
use std::fs;
use std::path::{Path, PathBuf};

/// A journal of two jobs with seven entries, then a person and what she says.
async fn written() -> (Shop, Verification) {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    lay_out(&store, "axle", 1).await;
    store
        .commit(order("hub", log_alike("drum")))
        .await
        .expect("it is written");
    store
        .commit(shop_order(create_person("ada", "Ada")))
        .await
        .expect("it is written");
    store
        .commit(order("axle", log_match_marks("drum", 1)))
        .await
        .expect("it is written");
    let found = store.verify().await.expect("readable");
    store.stop().await;
    (shop, found)
}

/// A copy of the journal, changed by somebody who knows how.
pub(crate) fn tampered(shop: &Shop, name: &str, sql: &str) -> PathBuf {
    let copy = shop.folder().join(name);
    fs::copy(shop.path(), &copy).expect("it can be copied");
    let conn = rusqlite::Connection::open(&copy).expect("it opens");
    tamper_with(&conn, sql);
    copy
}

fn first_break(path: &Path) -> (i64, String) {
    let found = verify_file(path).expect("readable");
    let broken = found.first_break.expect("it must be found");
    assert_eq!(found.entries, broken.seq - 1, "all before it are whole");
    (broken.seq, broken.to_string())
}

#[tokio::test]
async fn a_whole_journal_is_whole() {
    let (shop, found) = written().await;
    assert_eq!(
        (found.entries, found.head.seq, &found.first_break),
        (9, 9, &None)
    );
    assert_eq!(verify_file(&shop.path()).expect("readable"), found);
}

#[tokio::test]
async fn every_way_to_change_the_past_is_named_by_its_first_entry() {
    let (shop, _) = written().await;
    let changes = [
        (
            "body",
            "UPDATE entries SET body = replace(body, 'Brake drum', 'Brake disc') WHERE seq = 3",
            3,
            "(jobs/hub, number 3) is not what was written",
        ),
        (
            "space",
            "UPDATE entries SET body = body || ' ' WHERE seq = 3",
            3,
            "is not what was written",
        ),
        (
            "person",
            "UPDATE entries SET person = 'Bob' WHERE seq = 5",
            5,
            "(jobs/axle, number 2) is not what was written",
        ),
        (
            "device",
            "UPDATE entries SET device = '' WHERE seq = 5",
            5,
            "is not what was written",
        ),
        (
            "person-id",
            "UPDATE entries SET person_id = 'bob' WHERE seq = 5",
            5,
            "(jobs/axle, number 2) is not what was written",
        ),
        (
            "no-person-id",
            "UPDATE entries SET person_id = NULL WHERE seq = 9",
            9,
            "(jobs/axle, number 4) is not what was written",
        ),
        (
            "empty-person-id",
            "UPDATE entries SET person_id = '' WHERE seq = 5",
            5,
            "is not what was written",
        ),
        (
            "known",
            "UPDATE entries SET known = 'open' WHERE seq = 5",
            5,
            "is not what was written",
        ),
        (
            "known-by-no-word",
            "UPDATE entries SET known = 'guessed' WHERE seq = 5",
            5,
            "is not what was written",
        ),
        (
            "format",
            "UPDATE entries SET format = 3 WHERE seq = 5",
            5,
            "is of no known format",
        ),
        (
            "older-format",
            "UPDATE entries SET format = NULL WHERE seq = 5",
            5,
            "is of no known format",
        ),
        (
            "as-if-of-format-1",
            "UPDATE entries SET format = NULL, known = NULL WHERE seq = 5;
             UPDATE requests SET fingerprint_version = NULL WHERE first_seq = 5",
            5,
            "is not what was written",
        ),
        (
            "kind",
            "UPDATE entries SET kind = 'marked' WHERE seq = 5",
            5,
            "is not what was written",
        ),
        (
            "written",
            "UPDATE entries SET written = written + 1 WHERE seq = 5",
            5,
            "is not what was written",
        ),
        (
            "said",
            "UPDATE entries SET said = said - 1 WHERE seq = 1",
            1,
            "is not what was written",
        ),
        (
            "hash",
            "UPDATE entries SET hash = zeroblob(32) WHERE seq = 7",
            7,
            "is not what was written",
        ),
        (
            "short-hash",
            "UPDATE entries SET hash = zeroblob(3) WHERE seq = 7",
            7,
            "cannot be read",
        ),
        (
            "stream",
            "UPDATE streams SET name = 'jobs/other' WHERE name = 'jobs/axle'",
            4,
            "(jobs/other, number 1) is not what was written",
        ),
        (
            "request",
            "UPDATE requests SET id = zeroblob(16) WHERE first_seq = 2",
            2,
            "is not what was written",
        ),
        (
            "fingerprint",
            "UPDATE requests SET fingerprint = zeroblob(32) WHERE first_seq = 2",
            2,
            "is not what was written",
        ),
        (
            "fingerprint-version",
            "UPDATE requests SET fingerprint_version = 2 WHERE first_seq = 2",
            2,
            "is not what was written",
        ),
        (
            "range",
            "UPDATE requests SET first_seq = 1 WHERE first_seq = 2",
            2,
            "is not among the entries of its request",
        ),
        (
            "deleted",
            "DELETE FROM entries WHERE seq = 4",
            4,
            "is missing",
        ),
        (
            "deleted-request",
            "DELETE FROM requests WHERE first_seq = 4",
            4,
            "is missing",
        ),
        (
            "cut-off",
            "DELETE FROM entries WHERE seq = 9",
            9,
            "is missing; requests made entries up to 9",
        ),
        (
            "swapped",
            "UPDATE entries SET seq = 100 WHERE seq = 2; UPDATE entries SET seq = 2 WHERE seq = 3; UPDATE entries SET seq = 3 WHERE seq = 100",
            2,
            "is not what was written",
        ),
    ];
    for (name, sql, seq, what) in changes {
        let (found, text) = first_break(&tampered(&shop, name, sql));
        assert_eq!(found, seq, "{name}: {text}");
        assert!(text.contains(what), "{name}: {text}");
    }
}

#[tokio::test]
async fn verification_can_run_while_the_journal_is_written() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 40).await;
    let writing = tokio::spawn({
        let store = store.clone();
        async move {
            for position in 1..=40 {
                store
                    .commit(order("hub", crate::support::log_removal("drum", position)))
                    .await
                    .expect("it is written");
            }
        }
    });
    while !writing.is_finished() {
        let found = verify_file(&shop.path()).expect("readable");
        assert_eq!(found.first_break, None);
        let found = store.verify().await.expect("readable");
        assert_eq!(found.first_break, None);
    }
    writing.await.expect("the writer ends");
    assert_eq!(store.verify().await.expect("readable").entries, 43);
    store.stop().await;
}
