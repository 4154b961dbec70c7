//! Restoring: a backup comes back whole, beside nothing of another journal, and whatever ends it in between.

use crate::child::{child_of, command};
use crate::support::{Hand, Shop, book, lay_out, log_removal, order};
use clampbook_book::entry::Moment;
use clampbook_journal::{
    Head, OpenError, Options, RestoreError, Store, backup_file, restore_file, verify_file,
};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::Duration;

/// Kills in each of the tests here.
const KILLS: u64 = 12;

/// A backup of a journal that was written on since, and its head.
async fn backed_up(shop: &Shop) -> (Store, PathBuf, Head) {
    let store = shop.open();
    lay_out(&store, "hub", 40).await;
    let copy = shop.folder().join("copy");
    let head = store
        .backup(&copy)
        .await
        .expect("a backup can be made")
        .head;
    for position in 1..=40 {
        let removal = order("hub", log_removal("drum", position));
        store.commit(removal).await.expect("it is written");
    }
    (store, copy, head)
}

fn names(folder: &Path, part: &str) -> Vec<String> {
    let items = fs::read_dir(folder).expect("the folder can be read");
    let names = items.map(|item| {
        item.expect("an item")
            .file_name()
            .to_string_lossy()
            .into_owned()
    });
    names.filter(|name| name.contains(part)).collect()
}

#[tokio::test]
async fn a_backup_is_restored_under_a_new_name_and_written_on() {
    let shop = Shop::new();
    let (store, copy, head) = backed_up(&shop).await;
    store.stop().await;
    let path = shop.folder().join("restored.clampbook");
    let restored = restore_file(&copy, &path, None).expect("it can be restored");
    assert_eq!((restored.journal.head, restored.kept), (head, None));
    let mut options = shop.options();
    options.path = path;
    let store = Store::open(options).expect("it opens");
    let removal = order("hub", log_removal("drum", 1));
    store.commit(removal).await.expect("it is written");
    store.stop().await;
}

#[tokio::test]
async fn nothing_is_restored_over_a_journal_or_beside_its_log() {
    let shop = Shop::new();
    let (store, copy, _) = backed_up(&shop).await;
    let served = restore_file(&copy, &shop.path(), Some(Moment(7)));
    assert!(
        matches!(served, Err(RestoreError::Place(OpenError::InUse { .. }))),
        "{served:?}"
    );
    store.stop().await;
    let occupied = restore_file(&copy, &shop.path(), None);
    assert!(
        matches!(occupied, Err(RestoreError::Occupied { .. })),
        "{occupied:?}"
    );
    let other = shop.folder().join("other.clampbook");
    let log = shop.folder().join("other.clampbook-wal");
    fs::write(log, "entries of another journal").expect("written");
    let beside = restore_file(&copy, &other, None);
    assert!(
        matches!(beside, Err(RestoreError::Occupied { .. })),
        "{beside:?}"
    );
    assert!(!other.exists());
}

#[tokio::test]
async fn a_damaged_backup_is_not_restored() {
    let shop = Shop::new();
    let (store, copy, _) = backed_up(&shop).await;
    store.stop().await;
    let conn = rusqlite::Connection::open(&copy).expect("it opens");
    conn.execute_batch("DROP TRIGGER entries_are_not_changed; UPDATE entries SET person = 'Bob'")
        .expect("an outsider can do anything");
    drop(conn);
    let path = shop.folder().join("restored.clampbook");
    let refused = restore_file(&copy, &path, None);
    assert!(matches!(refused, Err(RestoreError::Copy(_))), "{refused:?}");
    assert!(!path.exists() && names(shop.folder(), "partial").is_empty());
}

/// Somebody copies a backup over the file of a server that was killed, and leaves the log there.
#[tokio::test]
async fn a_log_of_the_journal_before_is_named_with_what_to_do_and_put_away() {
    let shop = Shop::new();
    let (store, copy, head) = backed_up(&shop).await;
    store.stop().await;
    // A server that wrote a little since everything was in the one file.
    let store = shop.open();
    lay_out(&store, "axle", 1).await;
    let killed = shop.folder().join("killed.clampbook");
    for ending in ["", "-wal"] {
        let from = shop.folder().join(format!("shop.clampbook{ending}"));
        let to = shop.folder().join(format!("killed.clampbook{ending}"));
        fs::copy(from, to).expect("copied");
    }
    store.stop().await;
    fs::copy(&copy, &killed).expect("copied over");
    let before = fs::read(&killed).expect("readable");

    let mut options = shop.options();
    options.path = killed.clone();
    let error = Store::open(options).expect_err("file and log are of two journals");
    assert!(matches!(error, OpenError::WithLog { .. }), "{error}");
    assert!(error.to_string().contains("clampbookd restore"), "{error}");
    assert_eq!(
        fs::read(&killed).expect("readable"),
        before,
        "the log is not put into it"
    );

    let restored = restore_file(&copy, &killed, Some(Moment(7))).expect("it can be restored");
    assert_eq!(restored.journal.head, head);
    let kept = restored.kept.expect("what was there is kept");
    assert!(kept.exists() && kept.with_extension("before-restore-7-wal").exists());
    let mut options = shop.options();
    options.path = killed;
    let store = Store::open(options).expect("it opens");
    assert_eq!(store.head().await.expect("readable"), head);
    store.stop().await;
}

/// Runs the test as a child and kills it after so many milliseconds, whatever it does then.
fn kill_after(shop: &Shop, test: &str, millis: u64) {
    let mut child = command(shop, test, "")
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the child runs");
    std::thread::sleep(Duration::from_millis(millis));
    child.kill().expect("the child can be killed");
    child.wait().expect("the child ends");
}

#[tokio::test]
async fn a_backup_that_is_killed_leaves_a_whole_copy_or_nothing() {
    const TEST: &str = "restoring::a_backup_that_is_killed_leaves_a_whole_copy_or_nothing";
    if let Some(path) = child_of(TEST) {
        for number in 0.. {
            let copy = path.with_extension(format!("copy-{}-{number}", std::process::id()));
            backup_file(&path, &copy).expect("a backup can be made");
        }
    }
    let shop = Shop::new();
    let (store, _, _) = backed_up(&shop).await;
    let mut left = 0;
    for kill in 0..KILLS {
        kill_after(&shop, TEST, 20 + kill * 7);
        left += names(shop.folder(), "partial").len();
        let last = shop.folder().join(format!("last-{kill}"));
        store.backup(&last).await.expect("a backup can be made");
        assert_eq!(names(shop.folder(), "partial"), [""; 0], "it is swept");
        for name in names(shop.folder(), "copy-") {
            let copy = shop.folder().join(name);
            assert!(verify_file(&copy).expect("readable").is_whole());
            fs::remove_file(copy).expect("removed");
        }
    }
    assert!(left > 0, "some were killed half way");
    store.stop().await;
}

#[tokio::test]
async fn a_restore_that_is_killed_leaves_the_old_journal_or_the_backup_whole() {
    const TEST: &str =
        "restoring::a_restore_that_is_killed_leaves_the_old_journal_or_the_backup_whole";
    if let Some(path) = child_of(TEST) {
        let copy = path.with_file_name("copy");
        for number in 0.. {
            let moment = i64::from(std::process::id()) * 1_000_000 + number;
            restore_file(&copy, &path, Some(Moment(moment))).expect("it can be restored");
        }
    }
    let shop = Shop::new();
    let (store, copy, head) = backed_up(&shop).await;
    store.stop().await;
    for kill in 0..KILLS {
        kill_after(&shop, TEST, 20 + kill * 7);
        for name in names(shop.folder(), "clampbook") {
            let is_journal = name == "shop.clampbook" || name.contains("before-restore");
            if is_journal && !name.contains("partial") {
                let found = verify_file(&shop.folder().join(name)).expect("readable");
                assert!(found.is_whole(), "{found:?}");
            }
        }
        restore_file(&copy, &shop.path(), Some(Moment(kill.cast_signed()))).expect("again");
        let store = shop.open();
        assert_eq!(store.head().await.expect("readable"), head);
        store.stop().await;
        for name in names(shop.folder(), "before-restore") {
            fs::remove_file(shop.folder().join(name)).expect("removed");
        }
    }
}

fn fixture(schema: u32) -> PathBuf {
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/fixtures");
    fixtures.join(format!("schema_{schema}.clampbook.db"))
}

/// Puts a journal of schema 1 in place, and gives its head.
fn as_in_schema_1(path: &Path) -> Head {
    for ending in ["-wal", "-shm"] {
        let _ = fs::remove_file(format!("{}{ending}", path.display()));
    }
    fs::copy(fixture(1), path).expect("it is put in place");
    verify_file(path).expect("readable").head
}

#[tokio::test]
async fn a_backup_of_an_older_schema_is_verified_as_it_is_and_restored() {
    for schema in 1..=4 {
        let shop = Shop::new();
        let copy = shop.folder().join("older");
        fs::copy(fixture(schema), &copy).expect("a copy");
        let found = verify_file(&copy).expect("readable");
        assert!(found.is_whole() && found.entries > 0, "{schema}: {found:?}");
        let restored = restore_file(&copy, &shop.path(), None).expect("it can be restored");
        assert_eq!(restored.journal.head, found.head);
        let store = shop.open();
        assert_eq!(store.head().await.expect("readable"), found.head);
        store.stop().await;
    }
}

#[tokio::test]
async fn a_migration_that_is_killed_is_done_at_the_next_start_with_one_copy() {
    const TEST: &str =
        "restoring::a_migration_that_is_killed_is_done_at_the_next_start_with_one_copy";
    if let Some(path) = child_of(TEST) {
        let hand = Hand::default();
        let store = Store::open(Options::new(path, book(), hand.clock())).expect("it opens");
        store.stop().await;
        std::thread::sleep(Duration::from_secs(60));
    }
    let shop = Shop::new();
    for kill in 0..KILLS {
        let head = as_in_schema_1(&shop.path());
        kill_after(&shop, TEST, 5 + kill * 4);
        let store = shop.open();
        assert_eq!(store.head().await.expect("readable"), head);
        assert!(store.verify().await.expect("readable").is_whole());
        store.stop().await;
        let copies = names(shop.folder(), ".schema-1-");
        assert_eq!(copies, [format!("shop.clampbook.schema-1-{}", head.seq)]);
    }
}

#[tokio::test]
async fn a_migration_that_fails_leaves_one_copy_and_not_one_a_start() {
    let shop = Shop::new();
    as_in_schema_1(&shop.path());
    // Somebody holds the file for writing for longer than anybody waits for it; it is as a server leaves it, not as a backup.
    let holder = shop.outsider();
    holder
        .pragma_update(None, "journal_mode", "wal")
        .expect("it is free");
    holder.execute_batch("BEGIN IMMEDIATE").expect("it is free");
    for _ in 0..2 {
        let error = Store::open(shop.options()).expect_err("it cannot be changed");
        assert!(error.to_string().contains("locked"), "{error}");
    }
    assert_eq!(names(shop.folder(), ".schema-1-").len(), 1);
    drop(holder);
    shop.open().stop().await;
    assert_eq!(names(shop.folder(), ".schema-1-").len(), 1);
}
