//! Opening: what is asked of a file before anything is written.

use crate::support::{Shop, add_joint, after, lay_out, log_alike, order, tamper_with};
use clampbook_journal::{OpenError, Options, Store, backup_file, verify_file};
use rusqlite::Connection;
use std::fs;

fn refused(options: Options) -> OpenError {
    Store::open(options).expect_err("the journal must not open")
}

#[tokio::test]
async fn what_was_written_is_there_after_a_restart() {
    let shop = Shop::new();
    let store = shop.open();
    let receipts = lay_out(&store, "hub", 4).await;
    let head = store.head().await.expect("the head can be read");
    store.stop().await;

    let store = shop.open();
    assert_eq!(*store.last_seq(None).borrow(), 3);
    assert_eq!(store.head().await.expect("the head can be read"), head);
    let job = store
        .job(&crate::support::job("hub"))
        .await
        .expect("the job can be read")
        .expect("the job exists");
    assert_eq!(job, *after(&receipts[2]));
    store.stop().await;
}

#[tokio::test]
async fn one_journal_has_one_server() {
    let shop = Shop::new();
    let store = shop.open();
    assert!(
        matches!(refused(shop.options()), OpenError::InUse { path } if path.ends_with("shop.clampbook"))
    );
    store.stop().await;
    shop.open().stop().await;
}

#[cfg(unix)]
#[tokio::test]
async fn another_name_for_the_same_file_does_not_help() {
    let shop = Shop::new();
    let store = shop.open();
    let alias = shop.folder().join("alias");
    std::os::unix::fs::symlink(shop.path(), &alias).expect("a link can be made");
    let mut options = shop.options();
    options.path = alias;
    assert!(matches!(refused(options), OpenError::InUse { .. }));
    store.stop().await;
}

#[tokio::test]
async fn a_file_of_a_newer_program_is_left_alone() {
    let shop = Shop::new();
    shop.open().stop().await;
    shop.outsider()
        .pragma_update(None, "user_version", 5)
        .expect("the version can be changed");
    let before = fs::read(shop.path()).expect("the file can be read");
    let error = refused(shop.options());
    assert!(
        matches!(
            error,
            OpenError::Newer {
                file: 5,
                program: 4,
                ..
            }
        ),
        "{error}"
    );
    let error = verify_file(&shop.path()).expect_err("it is not known what is in it");
    assert!(matches!(error, OpenError::Newer { .. }), "{error}");
    let copied = backup_file(&shop.path(), &shop.folder().join("copy"));
    assert!(
        copied.is_err(),
        "nobody could say whether the copy is sound"
    );
    assert_eq!(fs::read(shop.path()).expect("the file can be read"), before);
    shop.outsider()
        .pragma_update(None, "user_version", 3)
        .expect("the version can be put back");
}

#[test]
fn somebody_elses_database_is_left_alone() {
    let shop = Shop::new();
    let other = shop.folder().join("other.db");
    Connection::open(&other)
        .and_then(|conn| conn.execute_batch("CREATE TABLE birds (name TEXT)"))
        .expect("a database can be made");
    let before = fs::read(&other).expect("the file can be read");
    let mut options = shop.options();
    options.path = other.clone();
    let error = refused(options);
    assert!(matches!(error, OpenError::NotAJournal { .. }), "{error}");
    assert_eq!(fs::read(&other).expect("the file can be read"), before);
}

#[test]
fn a_file_that_is_no_database_is_left_alone() {
    let shop = Shop::new();
    let letter = shop.folder().join("letter.txt");
    let text = "Dear Ada, the drum is at the blacksmith's. ".repeat(40);
    fs::write(&letter, &text).expect("a file can be written");
    let mut options = shop.options();
    options.path = letter.clone();
    let error = refused(options);
    assert!(matches!(error, OpenError::NotAJournal { .. }), "{error}");
    assert_eq!(
        fs::read_to_string(&letter).expect("the file can be read"),
        text
    );
}

#[test]
fn a_folder_that_is_not_there_is_named() {
    let shop = Shop::new();
    let mut options = shop.options();
    options.path = shop.folder().join("no-such-folder").join("a.clampbook");
    let error = refused(options).to_string();
    assert!(error.contains("no-such-folder"), "{error}");
}

#[test]
fn options_that_make_no_sense_are_named() {
    let shop = Shop::new();
    let mut options = shop.options();
    options.queue = 0;
    let error = refused(options).to_string();
    assert_eq!(error, "option queue is 0; allowed is 1 or more");
    let mut options = shop.options();
    options.cached_jobs = 0;
    assert!(matches!(
        refused(options),
        OpenError::Option {
            name: "cached_jobs",
            ..
        }
    ));
    assert!(!shop.path().exists(), "nothing may be made for nonsense");
}

#[tokio::test]
async fn the_file_is_ours_strict_and_in_the_safe_mode() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    let conn = shop.outsider();
    let text = |sql: &str| conn.query_row(sql, [], |row| row.get::<_, String>(0));
    let number = |sql: &str| conn.query_row(sql, [], |row| row.get::<_, i64>(0));
    assert_eq!(text("PRAGMA journal_mode").expect("a mode"), "wal");
    assert_eq!(number("PRAGMA application_id").expect("an id"), 0x434C_4D50);
    assert_eq!(number("PRAGMA user_version").expect("a version"), 4);
    let lax = number(
        "SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite%' AND strict = 0",
    );
    assert_eq!(lax.expect("a count"), 0, "every table is strict");
    store.stop().await;
}

#[tokio::test]
async fn a_restart_after_a_tampered_entry_is_refused_with_its_number() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    store.stop().await;
    let original = tamper(&shop, "UPDATE entries SET person = 'Bob' WHERE seq = 2");
    let error = refused(shop.options());
    assert!(
        matches!(&error, OpenError::Damaged(broken) if broken.seq == 2),
        "{error}"
    );
    original.restore();
}

#[tokio::test]
async fn of_a_long_journal_the_last_thousand_entries_are_verified_at_opening() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 200).await;
    for number in 0..5 {
        let id = format!("cover-{number}");
        for command in [add_joint(&id, 200), log_alike(&id)] {
            store
                .commit(order("hub", command))
                .await
                .expect("it is written");
        }
    }
    let reach = *store.last_seq(None).borrow();
    assert_eq!(reach, 1_008);
    store.stop().await;

    let original = tamper(&shop, "UPDATE entries SET person = 'Bob' WHERE seq = 7");
    let store = shop.open();
    let found = store.verify().await.expect("readable").first_break;
    assert_eq!(
        found.map(|broken| broken.seq),
        Some(7),
        "the whole verification finds it"
    );
    store.stop().await;
    original.restore();

    let original = tamper(&shop, "UPDATE entries SET person = 'Bob' WHERE seq = 9");
    let error = refused(shop.options());
    assert!(
        matches!(&error, OpenError::Damaged(broken) if broken.seq == 9),
        "{error}"
    );
    original.restore();
}

/// The file as it was before it was tampered with.
struct Original {
    path: std::path::PathBuf,
    bytes: Vec<u8>,
}

impl Original {
    fn restore(self) {
        fs::write(self.path, self.bytes).expect("the file can be put back");
    }
}

fn tamper(shop: &Shop, sql: &str) -> Original {
    let bytes = fs::read(shop.path()).expect("the file can be read");
    tamper_with(&shop.outsider(), sql);
    Original {
        path: shop.path(),
        bytes,
    }
}
