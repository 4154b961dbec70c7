//! Backing up: a sound copy while the shop works on, that never replaces anything.

use crate::support::{Shop, after, job, lay_out, log_removal, order};
use clampbook_journal::{BackupError, Store, backup_file, verify_file};
use std::fs;

fn leftovers(shop: &Shop) -> Vec<String> {
    fs::read_dir(shop.folder())
        .expect("the folder can be read")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .filter(|name| name.contains("partial"))
        .collect()
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_backup_is_one_moment_of_a_journal_that_is_written_on() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 200).await;
    let writing = tokio::spawn({
        let store = store.clone();
        async move {
            for position in 1..=200 {
                store
                    .commit(order("hub", log_removal("drum", position)))
                    .await
                    .expect("it is written");
            }
        }
    });
    let mut number = 0;
    while !writing.is_finished() {
        number += 1;
        let target = shop.folder().join(format!("copy-{number}"));
        let minimum = *store.last_seq(None).borrow();
        let backup = store.backup(&target).await.expect("a backup can be made");
        assert_eq!(backup.path, target);
        assert_eq!(
            backup.bytes,
            fs::metadata(&target).expect("it is there").len()
        );
        assert!(
            backup.head.seq >= minimum,
            "what was acknowledged before is in it"
        );
        let found = verify_file(&target).expect("readable");
        assert_eq!((found.head, found.first_break), (backup.head, None));
        let live = store
            .entries_after(backup.head.seq - 1, None, 1)
            .await
            .expect("readable");
        assert_eq!(
            live[0].hash, backup.head.hash,
            "the live journal has the same entry there"
        );
    }
    writing.await.expect("the writer ends");
    assert!(number > 0);
    assert_eq!(leftovers(&shop), [""; 0]);
    store.stop().await;
}

#[tokio::test]
async fn a_backup_opens_as_a_journal_and_works_on() {
    let shop = Shop::new();
    let store = shop.open();
    let receipts = lay_out(&store, "hub", 2).await;
    let target = shop.folder().join("copy");
    let backup = store.backup(&target).await.expect("a backup can be made");
    store.stop().await;

    let mut options = shop.options();
    options.path = target;
    let store = Store::open(options).expect("the backup opens");
    assert_eq!(store.head().await.expect("readable"), backup.head);
    assert_eq!(
        store.job(&job("hub")).await.expect("readable").as_ref(),
        Some(after(&receipts[2]))
    );
    store
        .commit(order("hub", log_removal("drum", 1)))
        .await
        .expect("it is written");
    assert_eq!(store.verify().await.expect("readable").first_break, None);
    store.stop().await;
}

#[tokio::test]
async fn a_backup_never_replaces_a_file() {
    let shop = Shop::new();
    let store = shop.open();
    let target = shop.folder().join("precious");
    fs::write(&target, "last year").expect("a file can be written");
    let error = store.backup(&target).await.expect_err("it must be refused");
    assert!(matches!(error, BackupError::Exists { .. }), "{error}");
    assert_eq!(
        fs::read_to_string(&target).expect("it is there"),
        "last year"
    );
    assert_eq!(leftovers(&shop), [""; 0]);
    store.stop().await;
}

#[tokio::test]
async fn a_backup_that_cannot_be_made_leaves_nothing_behind() {
    let shop = Shop::new();
    let store = shop.open();
    let error = store
        .backup(&shop.folder().join("no-such-folder").join("copy"))
        .await
        .expect_err("there is no such folder");
    assert!(matches!(error, BackupError::Io { .. }), "{error}");
    store.stop().await;
    let error = backup_file(&shop.folder().join("ghost"), &shop.folder().join("copy"))
        .expect_err("there is nothing to copy");
    assert!(error.to_string().contains("ghost"), "{error}");
    assert!(!shop.folder().join("copy").exists());
    assert_eq!(leftovers(&shop), [""; 0]);
}
