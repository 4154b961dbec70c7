//! Entries of format 1 stay what they are, in a file that is written on in format 2.

use crate::support::{Shop, add_assembly, add_joint, create_person, open_job, order, shop_order};
use crate::verifying::tampered;
use clampbook_book::speaker::Speaker;
use clampbook_book::words::Known;
use clampbook_journal::{CommitError, Order, Store, verify_file};
use uuid::Uuid;

/// A journal of schema 3, opened here, with one job more.
async fn mixed() -> (Shop, Store, i64) {
    let shop = Shop::of_schema(3);
    let before: i64 = shop
        .outsider()
        .query_row("SELECT count(*) FROM entries", [], |row| row.get(0))
        .expect("a count");
    let store = shop.open();
    assert_eq!(*store.last_seq(None).borrow(), before);
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

/// An order under the id of the first request of the file about a job, with another content.
fn reused(shop: &Shop) -> Order {
    let (id, job): ([u8; 16], String) = shop
        .outsider()
        .query_row(
            "SELECT r.id, s.name FROM requests r JOIN streams s ON s.key = r.stream \
             WHERE s.name LIKE 'jobs/%' ORDER BY r.key LIMIT 1",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .expect("a request");
    let job = job.strip_prefix("jobs/").expect("a job");
    Order {
        request: Uuid::from_bytes(id),
        ..order(job, add_assembly())
    }
}

#[tokio::test]
async fn a_fingerprint_of_another_version_tells_nothing_and_the_id_decides() {
    let (shop, store, _) = mixed().await;
    let older = store.commit(reused(&shop)).await;
    let older = older.expect("its first answer");
    assert!(older.replayed);
    assert_eq!(older.entries[0].entry.fact.kind(), "job-opened");

    let said = order("hub", add_joint("drum", 1));
    let first = store.commit(said.clone()).await.expect("it is written");
    let mut again = said;
    again.fingerprint.hash[0] ^= 1;
    let refused = store.commit(again.clone()).await.expect_err("reused");
    assert_eq!(refused, CommitError::RequestReused);
    again.fingerprint.version += 1;
    let second = store.commit(again.clone()).await;
    let second = second.expect("its first answer");
    assert!(second.replayed);
    assert_eq!(second.entries, first.entries);
    again.work = shop_order(create_person("ada", "Ada")).work;
    let elsewhere = store.commit(again).await.expect_err("of another stream");
    assert_eq!(elsewhere, CommitError::RequestReused);
    store.stop().await;
}
