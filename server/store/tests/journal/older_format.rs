//! Entries of format 1 stay what they are, in a file that is written on in format 2.

use crate::support::{Shop, add_assembly, open_job, order};
use crate::verifying::tampered;
use clampbook_book::speaker::Speaker;
use clampbook_book::words::Known;
use clampbook_store::{CommitError, Fingerprint, Order, Store, verify_file};
use uuid::Uuid;

/// A journal of schema 3, opened here, with one job more.
async fn mixed() -> (Shop, Store, i64) {
    let shop = Shop::of_schema(3);
    let before: i64 = shop
        .outsider()
        .query_row("SELECT count(*) FROM entries", [], |row| row.get(0))
        .expect("a count");
    let store = shop.open();
    assert_eq!(*store.last_seq().borrow(), before);
    for command in [open_job(), add_assembly()] {
        let receipt = store.commit(order("hub", command)).await;
        receipt.expect("it is written on");
    }
    (shop, store, before)
}

#[tokio::test]
async fn a_file_of_both_formats_is_whole_and_every_change_is_told() {
    let (shop, store, old) = mixed().await;
    let found = store.verify().await.expect("readable");
    assert_eq!((found.entries, found.first_break), (old + 2, None));
    store.stop().await;
    let conn = shop.outsider();
    let formats: Vec<(Option<i64>, i64)> = conn
        .prepare("SELECT format, count(*) FROM entries GROUP BY format ORDER BY format")
        .expect("a query")
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
        .expect("rows")
        .collect::<Result<_, _>>()
        .expect("rows");
    assert_eq!(formats, [(None, old), (Some(2), 2)]);
    drop(conn);

    for (name, change) in [
        ("person", "UPDATE entries SET person = 'Bob'"),
        ("person-id", "UPDATE entries SET person_id = 'bob'"),
        ("known", "UPDATE entries SET known = 'named'"),
        (
            "format",
            "UPDATE requests SET fingerprint_version = 1; UPDATE entries SET known = 'named', format = 2",
        ),
        ("version", "UPDATE requests SET fingerprint_version = 1"),
    ] {
        let copy = tampered(&shop, name, change);
        let broken = verify_file(&copy).expect("readable").first_break;
        assert_eq!(broken.map(|broken| broken.seq), Some(1), "{name}");
    }
}

#[tokio::test]
async fn who_spoke_in_format_1_is_known_by_name_alone() {
    let (_shop, store, _) = mixed().await;
    let entries = store.entries_after(0, None, 1_000).await.expect("entries");
    let said = |name: &str| {
        let mut by = entries.iter().map(|stored| &stored.entry.said.by);
        by.find(|by| &*by.name == name).cloned()
    };
    assert_eq!(said("Ida"), Some(Speaker::called("Ida".into())));
    assert_eq!(said("Ida").map(|by| by.known), Some(Known::Named));
    store.stop().await;
}

/// An order of the first request of the file, with another content.
fn again(shop: &Shop, version: u32) -> (Order, Fingerprint) {
    let conn = shop.outsider();
    let (id, hash, job): ([u8; 16], [u8; 32], String) = conn
        .query_row(
            "SELECT r.id, r.fingerprint, s.name FROM requests r JOIN streams s ON s.key = r.stream \
             WHERE s.name LIKE 'jobs/%' ORDER BY r.key LIMIT 1",
            [],
            |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)),
        )
        .expect("a request");
    let job = job.strip_prefix("jobs/").expect("a job");
    let order = Order {
        request: Uuid::from_bytes(id),
        fingerprint: Fingerprint {
            version,
            hash: [9; 32],
        },
        ..order(job, add_assembly())
    };
    (order, Fingerprint { version, hash })
}

#[tokio::test]
async fn a_fingerprint_of_another_version_tells_nothing_and_the_id_decides() {
    let (shop, store, _) = mixed().await;
    let (mut order, kept) = again(&shop, 1);
    let refused = store.commit(order.clone()).await.expect_err("reused");
    assert_eq!(refused, CommitError::RequestReused);
    order.fingerprint = kept;
    let first = store.commit(order.clone()).await.expect("its answer");
    assert!(first.replayed);
    let (other, _) = again(&shop, 2);
    let again = store.commit(other).await.expect("its first answer");
    assert!(again.replayed);
    assert_eq!(again.entries, first.entries);
    store.stop().await;
}
