//! Failing: what goes wrong leaves the file whole, and is said as it is.

use crate::child::{child_of, command};
use crate::support::{Hand, Shop, after, book, job, lay_out, log_removal, of, open_job, order};
use clampbook_book::command::Command;
use clampbook_book::judge::Asked;
use clampbook_journal::{CommitError, Condition, Options, ReadError, Store};
use std::sync::Arc;

#[tokio::test]
async fn a_panic_while_judging_is_the_orders_own_affair() {
    let shop = Shop::new();
    let mut options = shop.options();
    let judge = book();
    options.decider = Box::new(move |asked, context| match asked {
        Asked::OfJob(_, Command::LogRemoval(removed)) if removed.position == 2 => {
            panic!("a bug with position {}", removed.position)
        }
        _ => judge(asked, context),
    });
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 3).await;
    let panicked = store.commit(order("hub", log_removal("drum", 2))).await;
    assert!(
        matches!(panicked, Err(CommitError::Panicked { .. })),
        "{panicked:?}"
    );
    let receipt = store
        .commit(order("hub", log_removal("drum", 3)))
        .await
        .expect("the writer lives");
    assert_eq!(receipt.entries[0].entry.number, 4);
    store.stop().await;
}

#[tokio::test]
async fn any_other_panic_of_the_writer_ends_the_process() {
    const TEST: &str = "failing::any_other_panic_of_the_writer_ends_the_process";
    if let Some(path) = child_of(TEST) {
        let options = Options::new(path, book(), Arc::new(|| panic!("the clock is broken")));
        let store = Store::open(options).expect("the journal opens");
        let answer = store.commit(order("hub", open_job())).await;
        println!("answered: {answer:?}");
        return;
    }
    let shop = Shop::new();
    let output = command(&shop, TEST, "ulimit -c 0")
        .output()
        .expect("the child runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        !output.status.success() && !said.contains("answered"),
        "{output:?}"
    );
    let store = shop.open();
    assert_eq!(*store.last_seq(None).borrow(), 0);
    store.stop().await;
}

#[tokio::test]
async fn a_file_that_may_not_grow_says_so_stays_whole_and_is_read_on() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 200).await;
    store.stop().await;
    let pages: u32 = shop
        .outsider()
        .pragma_query_value(None, "page_count", |row| row.get(0))
        .expect("a count");

    let mut options = shop.options();
    options.most_pages = Some(pages + 2);
    let store = Store::open(options).expect("the journal opens");
    let mut last = None;
    for position in 1..=200 {
        let removal = order("hub", log_removal("drum", position));
        match store.commit(removal.clone()).await {
            Ok(receipt) => assert_eq!(receipt.entries[0].entry.number, 3 + u32::from(position)),
            Err(error) => {
                assert_eq!(error, CommitError::NoSpace);
                last = Some((position, removal));
                break;
            }
        }
    }
    let (position, removal) = last.expect("the file gets full");
    assert!(position > 1, "there was room for some");
    assert_eq!(
        store.commit(removal.clone()).await.expect_err("still full"),
        CommitError::NoSpace
    );
    assert_eq!(*store.condition().borrow(), Condition::Full);
    let written = 2 + u32::from(position);
    let read = store
        .job(&job("hub"))
        .await
        .expect("reads go on")
        .expect("it exists");
    assert_eq!(read.last, written);
    assert_eq!(
        store
            .entries(of("hub"), 0, 1_000)
            .await
            .expect("reads go on")
            .len(),
        written as usize
    );
    assert_eq!(store.verify().await.expect("reads go on").first_break, None);
    store.stop().await;

    let store = shop.open();
    let receipt = store.commit(removal).await.expect("there is room again");
    assert!(!receipt.replayed);
    assert_eq!(receipt.entries[0].entry.number, written + 1);
    store.stop().await;
}

/// The process may not write beyond 200 KiB into a file: commits fail in the middle of the write-ahead log.
#[cfg(unix)]
#[tokio::test]
async fn a_commit_that_fails_wrote_nothing_and_says_so() {
    const TEST: &str = "failing::a_commit_that_fails_wrote_nothing_and_says_so";
    if let Some(path) = child_of(TEST) {
        let hand = Hand::default();
        hand.set(1);
        let store =
            Store::open(Options::new(path, book(), hand.clock())).expect("the journal opens");
        lay_out(&store, "hub", 200).await;
        for position in 1..=200 {
            let removal = order("hub", log_removal("drum", position));
            match store.commit(removal.clone()).await {
                Ok(receipt) => println!("acknowledged {}", after(&receipt).last),
                Err(error) => {
                    assert!(matches!(error, CommitError::Broken { .. }), "{error}");
                    assert!(matches!(
                        &*store.condition().borrow(),
                        Condition::Failing(_)
                    ));
                    let read = store
                        .job(&job("hub"))
                        .await
                        .expect("reads go on")
                        .expect("it exists");
                    assert_eq!(read.last, 2 + u32::from(position));
                    let again = store.commit(removal.clone()).await;
                    let again = again.expect_err("there still is no room");
                    assert!(matches!(again, CommitError::Broken { .. }), "{again}");
                    assert_eq!(store.verify().await.expect("reads go on").first_break, None);
                    println!("refused {} {}", position, removal.request);
                    return;
                }
            }
        }
        panic!("no commit failed");
    }
    let shop = Shop::new();
    let output = command(&shop, TEST, "trap '' XFSZ; ulimit -f 400")
        .output()
        .expect("the child runs");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let said = String::from_utf8_lossy(&output.stdout);
    let acknowledged = said
        .lines()
        .filter_map(|l| l.strip_prefix("acknowledged "))
        .next_back();
    let acknowledged: u32 = acknowledged
        .and_then(|n| n.parse().ok())
        .expect("some were written");
    let refused = said
        .lines()
        .find_map(|l| l.strip_prefix("refused "))
        .expect("one was not");
    let (position, request) = refused.split_once(' ').expect("two words");

    let store = shop.open();
    let read = store
        .job(&job("hub"))
        .await
        .expect("readable")
        .expect("it exists");
    assert_eq!(
        read.last, acknowledged,
        "what was acknowledged is there, and nothing else"
    );
    let mut removal = order(
        "hub",
        log_removal("drum", position.parse().expect("a number")),
    );
    removal.request = request.parse().expect("a request id");
    assert!(
        !store
            .commit(removal.clone())
            .await
            .expect("there is room")
            .replayed
    );
    assert!(
        store
            .commit(removal)
            .await
            .expect("it was written")
            .replayed
    );
    store.stop().await;
}

#[tokio::test]
async fn a_stopped_store_says_so() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 2).await;
    let other = store.clone();
    store.stop().await;
    let removal = order("hub", log_removal("drum", 1));
    assert_eq!(
        other.commit(removal).await.expect_err("stopped"),
        CommitError::Stopped
    );
    assert_eq!(other.rebuild_read_models().await, Err(CommitError::Stopped));
    assert_eq!(other.head().await, Err(ReadError::Stopped));
    assert_eq!(
        other.verify().await.expect_err("stopped"),
        ReadError::Stopped
    );
    other.stop().await;
    let wal = shop.folder().join("shop.clampbook-wal");
    assert!(!wal.exists(), "everything is in the one file");
}

#[tokio::test]
async fn a_clock_that_jumps_back_makes_no_entry_earlier_than_the_last() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 2).await;
    let before = shop.hand.now();
    shop.hand.set(5);
    let receipt = store
        .commit(order("hub", log_removal("drum", 1)))
        .await
        .expect("it is written");
    assert_eq!(receipt.entries[0].entry.said.written, before);
    assert_eq!(
        receipt.entries[0].entry.number, 4,
        "order is by number, not by time"
    );
    let found = store.verify().await.expect("readable");
    assert!(found.is_whole());
    assert!(
        found.set_back.is_empty(),
        "no entry is earlier than another"
    );
    store.stop().await;
}
