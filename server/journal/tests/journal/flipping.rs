//! Flipping: a bit that turned over in a table or an index changes nothing, or is told; it never changes a job in silence.
//!
//! `CLAMPBOOK_FLIPS=1000` flips more bits, `CLAMPBOOK_SEED` others.

use crate::blobs::photo;
use crate::support::{Shop, create_paste, job, lay_out, log_removal, of, order, shop_order};
use clampbook_book::fact::PhotoOf;
use clampbook_book::job::Job;
use clampbook_journal::{Store, StoredEntry, rebuild_file, verify_file};
use rusqlite::Connection;
use std::fs;
use std::path::Path;
use std::sync::Arc;

const JOBS: [&str; 3] = ["hub", "axle", "gearbox"];

/// Bytes of a page.
const PAGE: u64 = 4_096;

/// What is seen of a journal.
#[derive(Debug, PartialEq)]
struct Seen {
    jobs: Vec<Arc<Job>>,
    histories: Vec<Vec<StoredEntry>>,
}

/// A journal of three jobs that were written in turns, so that each has entries on many pages.
async fn written() -> (Shop, Seen) {
    let shop = Shop::new();
    let store = shop.open();
    for id in JOBS {
        lay_out(&store, id, 60).await;
    }
    for position in 1..=60 {
        for id in JOBS {
            let removal = order(id, log_removal("drum", position));
            store.commit(removal).await.expect("it is written");
        }
    }
    for paste in ["bench-paste", "old-paste"] {
        let said = shop_order(create_paste(paste, 0.15));
        store.commit(said).await.expect("it is written");
    }
    for number in 1..=3 {
        let photo = photo("hub", PhotoOf::Job, number);
        store.commit(photo).await.expect("it is written");
    }
    let seen = look(&store).await.expect("it can be read");
    store.stop().await;
    (shop, seen)
}

async fn look(store: &Store) -> Result<Seen, String> {
    let mut seen = Seen {
        jobs: Vec::new(),
        histories: Vec::new(),
    };
    for id in JOBS {
        let found = store.job(&job(id)).await.map_err(|e| e.to_string())?;
        seen.jobs.push(found.ok_or("a job is gone")?);
        let history = store.entries(of(id), 0, 1_000).await;
        seen.histories.push(history.map_err(|e| e.to_string())?);
    }
    Ok(seen)
}

async fn opened_and_seen(shop: &Shop, path: &Path) -> Result<Seen, String> {
    let mut options = shop.options();
    options.path = path.to_owned();
    let store = Store::open(options).map_err(|e| e.to_string())?;
    let seen = look(&store).await;
    store.stop().await;
    seen
}

/// What is wrong with a journal; nothing when `verify` calls it whole.
fn complaint(path: &Path) -> Option<String> {
    match verify_file(path) {
        Ok(found) if found.is_whole() => None,
        Ok(found) => Some(format!("{:?} {:?}", found.first_break, found.faults)),
        Err(error) => Some(error.to_string()),
    }
}

/// Numbers that look random and come again with the same seed.
struct Dice(u64);

impl Dice {
    fn below(&mut self, end: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % end
    }
}

fn told(name: &str, usual: u64) -> u64 {
    let told = std::env::var(name).ok();
    told.map_or(usual, |told| told.parse().expect("a number"))
}

#[tokio::test]
async fn no_bit_turns_over_in_silence() {
    let (shop, seen) = written().await;
    let whole = fs::read(shop.path()).expect("the file can be read");
    let pages: Vec<(String, u64)> = shop
        .outsider()
        .prepare("SELECT name, pageno FROM dbstat WHERE name NOT LIKE 'sqlite_s%'")
        .and_then(|mut all| {
            all.query_map([], |row| {
                Ok((row.get(0)?, u64::from(row.get::<_, u32>(1)?)))
            })?
            .collect()
        })
        .expect("the pages can be told");
    let seed = told("CLAMPBOOK_SEED", 20_261_201);
    let mut dice = Dice(seed);
    let (mut harmless, mut repaired) = (0, 0);
    for round in 0..told("CLAMPBOOK_FLIPS", 200) {
        let (name, page) = &pages[dice.below(pages.len() as u64) as usize];
        let place = (page - 1) * PAGE + dice.below(PAGE);
        let mut bytes = whole.clone();
        bytes[place as usize] ^= 1 << dice.below(8);
        let path = shop.folder().join(format!("flipped-{round}"));
        fs::write(&path, bytes).expect("the copy is written");

        let what = format!("seed {seed}, round {round}: byte {place} in {name}");
        let complaint = complaint(&path);
        let found = opened_and_seen(&shop, &path).await;
        match (&complaint, found) {
            (None, found) => {
                assert_eq!(found.as_ref(), Ok(&seen), "{what}: nothing was told");
                harmless += 1;
            }
            // Found later than at opening; until then no job may show anything else.
            (Some(_), Ok(found)) => {
                assert_eq!(found.jobs, seen.jobs, "{what}: {complaint:?}");
            }
            (Some(_), Err(_)) => {}
        }
        let is_index = name.contains("autoindex") || name == "jobs";
        if is_index && complaint.is_some() && rebuild_file(&path).is_ok_and(|v| v.is_whole()) {
            assert_eq!(
                opened_and_seen(&shop, &path).await.as_ref(),
                Ok(&seen),
                "{what}"
            );
            repaired += 1;
        }
        fs::remove_file(path).expect("removed");
    }
    println!("{harmless} changed nothing that is kept, {repaired} were repaired by rebuilding");
    assert!(repaired > 0, "some indexes were hit");
}

#[tokio::test]
async fn an_index_that_lost_an_entry_hides_none_from_the_job() {
    let (shop, seen) = written().await;
    // The last entry of a job, one in the middle, and the last of the shop, which every sheet is computed with.
    for lost in [
        "n <> 63 OR stream <> 3",
        "n <> 20 OR stream <> 2",
        "n <> 2 OR stream <> 4",
    ] {
        let path = shop.folder().join("lost");
        fs::copy(shop.path(), &path).expect("copied");
        lose(&path, lost);
        let complaint = complaint(&path).expect("it is told");
        assert!(complaint.contains("but its index shows"), "{complaint}");
        let read = opened_and_seen(&shop, &path).await;
        let error = read.expect_err("a job without an entry is not shown");
        assert!(error.contains("clampbookd rebuild"), "{error}");
        let rebuilt = rebuild_file(&path).expect("it can be rebuilt");
        assert!(rebuilt.is_whole(), "{rebuilt:?}");
        assert_eq!(opened_and_seen(&shop, &path).await.as_ref(), Ok(&seen));
        fs::remove_file(path).expect("removed");
    }
}

/// Takes entries out of the index of the streams, as a damaged page does: by an index of the others, put in its place.
fn lose(path: &Path, kept: &str) {
    let conn = Connection::open(path).expect("it opens");
    conn.execute_batch(&format!(
        "CREATE UNIQUE INDEX fewer ON entries (stream, n) WHERE {kept};
         PRAGMA writable_schema = ON;
         CREATE TEMP TABLE roots AS SELECT name, rootpage FROM sqlite_schema WHERE name IN ('fewer', 'sqlite_autoindex_entries_1');
         UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM roots WHERE roots.name <> sqlite_schema.name)
         WHERE name IN (SELECT name FROM roots);
         PRAGMA writable_schema = RESET;
         DROP INDEX fewer;"
    ))
    .expect("an outsider can do anything");
}

#[tokio::test]
async fn a_list_that_does_not_follow_from_the_entries_is_told_and_made_again() {
    let (shop, _) = written().await;
    for change in [
        "UPDATE jobs SET loose = loose + 1 WHERE stream = 2",
        "UPDATE jobs SET display_name = 'Another tractor' WHERE stream = 1",
        "DELETE FROM jobs WHERE stream = 3",
    ] {
        shop.outsider().execute_batch(change).expect("anybody can");
        let complaint = complaint(&shop.path()).expect("it is told");
        assert!(
            complaint.contains("the job list does not say"),
            "{complaint}"
        );
        let store = shop.open();
        let faults = store.examine().await.expect("it can be read");
        assert_eq!(faults.len(), 1, "{faults:?}");
        store.stop().await;
        let rebuilt = rebuild_file(&shop.path()).expect("it can be rebuilt");
        assert!(rebuilt.is_whole(), "{rebuilt:?}");
    }
}

#[tokio::test]
async fn what_somebody_added_to_the_schema_is_told_and_not_served() {
    let (shop, _) = written().await;
    for (change, told) in [
        (
            "CREATE TRIGGER helper AFTER INSERT ON entries BEGIN SELECT 1; END",
            "the trigger helper is not of this program",
        ),
        (
            "CREATE TABLE notes (text TEXT)",
            "the table notes is not of this program",
        ),
        (
            "DROP TRIGGER entries_are_not_changed",
            "the trigger entries_are_not_changed is missing",
        ),
    ] {
        let path = shop.folder().join("changed");
        fs::copy(shop.path(), &path).expect("copied");
        let conn = Connection::open(&path).expect("it opens");
        conn.execute_batch(change).expect("anybody can");
        drop(conn);
        let complaint = complaint(&path).expect("it is told");
        assert!(complaint.contains(told), "{complaint}");
        let refused = opened_and_seen(&shop, &path).await.expect_err("not served");
        assert!(refused.contains(told), "{refused}");
        fs::remove_file(path).expect("removed");
    }
}
