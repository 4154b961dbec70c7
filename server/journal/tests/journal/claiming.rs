//! Claiming: one file, under one name, for its owner only, served by one process.

use crate::child::{child_of, command, command_of_nobody};
use crate::support::{Hand, Shop, book, lay_out};
use clampbook_journal::{OpenError, Options, Store, backup_file, verify_file};
use std::fs::{self, Permissions};
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;

fn refused(shop: &Shop, path: &Path) -> OpenError {
    let mut options = shop.options();
    options.path = path.to_owned();
    Store::open(options).expect_err("the journal must not open")
}

#[tokio::test]
async fn a_file_with_two_names_is_not_opened_by_either() {
    let shop = Shop::new();
    shop.open().stop().await;
    let other = shop.folder().join("other");
    fs::create_dir(&other).expect("a folder");
    let other = other.join("alias.clampbook");
    fs::hard_link(shop.path(), &other).expect("a link can be made");
    for path in [shop.path(), other.clone()] {
        let error = refused(&shop, &path);
        assert!(
            matches!(error, OpenError::Linked { names: 2, .. }),
            "{error}"
        );
    }
    fs::remove_file(other).expect("removed");
    shop.open().stop().await;
}

#[tokio::test]
async fn a_file_that_was_renamed_while_it_is_served_is_not_served_twice() {
    let shop = Shop::new();
    let store = shop.open();
    let moved = shop.folder().join("moved.clampbook");
    fs::rename(shop.path(), &moved).expect("moved");
    let error = refused(&shop, &moved);
    assert!(matches!(error, OpenError::InUse { .. }), "{error}");
    store.stop().await;
}

#[tokio::test]
async fn a_lock_that_is_a_link_is_refused_and_what_it_leads_to_left_alone() {
    let shop = Shop::new();
    let precious = shop.folder().join("precious");
    let lock = shop.folder().join("shop.clampbook.lock");
    symlink(&precious, &lock).expect("a link can be made");
    let error = refused(&shop, &shop.path()).to_string();
    assert!(error.contains("it is a link"), "{error}");
    assert!(!precious.exists() && !shop.path().exists());
}

#[test]
fn an_empty_file_is_no_journal_and_is_left_alone() {
    let shop = Shop::new();
    let empty = shop.folder().join("empty");
    fs::write(&empty, "").expect("a file can be written");
    let error = refused(&shop, &empty);
    assert!(matches!(error, OpenError::NotAJournal { .. }), "{error}");
    assert!(error.to_string().contains("it is empty"), "{error}");
    assert_eq!(fs::metadata(&empty).expect("it is there").len(), 0);
}

#[test]
fn a_new_journal_is_not_begun_beside_the_log_of_another() {
    let shop = Shop::new();
    let log = shop.folder().join("shop.clampbook-wal");
    fs::write(&log, "the only copy of twelve entries").expect("a file can be written");
    let error = refused(&shop, &shop.path());
    assert!(matches!(error, OpenError::StrayLog { .. }), "{error}");
    assert!(log.exists() && !shop.path().exists());
}

#[tokio::test]
async fn every_file_is_for_its_owner_only_whatever_the_process_is_set_to() {
    const TEST: &str = "claiming::every_file_is_for_its_owner_only_whatever_the_process_is_set_to";
    if let Some(path) = child_of(TEST) {
        let hand = Hand::default();
        let store = Store::open(Options::new(&path, book(), hand.clock())).expect("it opens");
        lay_out(&store, "hub", 1).await;
        let copy = path.with_extension("copy");
        store.backup(&copy).await.expect("a backup can be made");
        let folder = path.parent().expect("a folder");
        let mut seen = Vec::new();
        for item in fs::read_dir(folder).expect("the folder can be read") {
            let item = item.expect("an item");
            let mode = item.metadata().expect("it is there").permissions().mode();
            assert_eq!(mode & 0o777, 0o600, "{}", item.path().display());
            seen.push(item.file_name().to_string_lossy().into_owned());
        }
        seen.sort();
        let journal = ["", "-shm", "-wal", ".lock"].map(|end| format!("shop.clampbook{end}"));
        assert_eq!(seen[..4], journal);
        assert_eq!(seen[4..], ["shop.copy"]);
        store.stop().await;
        return;
    }
    for umask in ["000", "022"] {
        let shop = Shop::new();
        let output = command(&shop, TEST, &format!("umask {umask}")).output();
        let output = output.expect("the child runs");
        assert!(output.status.success(), "{output:?}");
    }
}

#[tokio::test]
async fn what_cannot_be_written_is_found_at_opening() {
    const TEST: &str = "claiming::what_cannot_be_written_is_found_at_opening";
    if let Some(path) = child_of(TEST) {
        let options = Options::new(&path, book(), Hand::default().clock());
        let error = Store::open(options).expect_err("it cannot be written");
        assert!(matches!(error, OpenError::ReadOnly { .. }), "{error}");
        return;
    }
    for (file, folder) in [(0o444, 0o777), (0o666, 0o555)] {
        let shop = Shop::new();
        shop.open().stop().await;
        let set = |path: &Path, mode| fs::set_permissions(path, Permissions::from_mode(mode));
        set(&shop.folder().join("shop.clampbook.lock"), 0o666).expect("set");
        set(&shop.path(), file).expect("set");
        set(shop.folder(), folder).expect("set");
        let output = command_of_nobody(&shop, TEST).output();
        set(shop.folder(), 0o700).expect("set back");
        let output = output.expect("the child runs");
        assert!(output.status.success(), "{output:?}");
    }
}

#[tokio::test]
async fn a_journal_on_a_disk_that_cannot_be_written_can_be_verified_and_copied_from() {
    const TEST: &str =
        "claiming::a_journal_on_a_disk_that_cannot_be_written_can_be_verified_and_copied_from";
    if let Some(path) = child_of(TEST) {
        let put_away = path.with_file_name("put 100% away?");
        let found = verify_file(&put_away.join("shop#1")).expect("it can be read");
        assert!(found.is_whole() && found.entries == 3, "{found:?}");
        let copy = path.with_file_name("copy");
        let made = backup_file(&put_away.join("shop#1"), &copy).expect("a copy can be made");
        assert_eq!(made.head, found.head);
        return;
    }
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    store.stop().await;
    let folder = shop.folder().join("put 100% away?");
    fs::create_dir(&folder).expect("a folder");
    let set = |path: &Path, mode| fs::set_permissions(path, Permissions::from_mode(mode));
    fs::copy(shop.path(), folder.join("shop#1")).expect("copied");
    set(&folder.join("shop#1"), 0o444).expect("set");
    set(&folder, 0o555).expect("set");
    set(shop.folder(), 0o777).expect("set");
    let output = command_of_nobody(&shop, TEST).output();
    set(&folder, 0o700).expect("set back");
    let output = output.expect("the child runs");
    assert!(output.status.success(), "{output:?}");
}
