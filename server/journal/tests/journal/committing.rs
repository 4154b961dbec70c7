//! Committing: one request is written once, whole, or not at all.

use crate::support::{
    Shop, add_joint, after, book, decide_on, job, lay_out, log_alike, log_removal, of, order,
};
use clampbook_book::command::Command;
use clampbook_book::entry::Moment;
use clampbook_book::fact::{Fact, LengthSeen, SaidLength};
use clampbook_book::judge::Asked;
use clampbook_book::refusal::Refusal;
use clampbook_book::speaker::Speaker;
use clampbook_journal::{CommitError, Store, Work};

#[tokio::test]
async fn a_receipt_holds_what_was_written_and_the_job_after_it() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 2).await;
    let mut removal = order("hub", log_removal("drum", 2));
    removal.said = Some(Moment(1_789_999_000_000_000));
    let receipt = store.commit(removal.clone()).await.expect("it is written");
    assert!(!receipt.replayed);
    let [stored] = &receipt.entries[..] else {
        panic!("one removal is one entry: {receipt:?}");
    };
    let entry = &stored.entry;
    assert_eq!((stored.seq, entry.number), (4, 4));
    assert_eq!(entry.said.said, Moment(1_789_999_000_000_000));
    assert_eq!(entry.said.written, shop.hand.now());
    assert_eq!(entry.said.by, Speaker::called(removal.caller.person));
    assert_eq!(entry.said.device, removal.caller.device);
    assert_eq!(entry.fact.kind(), "removed");
    assert_eq!(stored.request, removal.request);
    assert!(
        stored
            .body
            .starts_with(r#"{"v":1,"kind":"removed","joint":"drum","position":2"#),
        "{}",
        stored.body
    );
    assert_eq!(after(&receipt).last, 4);
    assert_eq!(
        store.entries(of("hub"), 3, 10).await.expect("readable"),
        receipt.entries
    );
    store.stop().await;
}

#[tokio::test]
async fn one_request_may_make_many_entries() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 6).await;
    let alike = order("hub", log_alike("drum"));
    let receipt = store.commit(alike.clone()).await.expect("it is written");
    let numbers: Vec<_> = receipt.entries.iter().map(|e| e.entry.number).collect();
    assert_eq!(numbers, [4, 5, 6, 7, 8, 9]);
    let again = store.commit(alike).await.expect("it was written");
    assert!(again.replayed);
    assert_eq!(again.entries, receipt.entries);
    store.stop().await;
}

#[tokio::test]
async fn a_retry_after_success_gets_the_first_answer_even_with_an_old_etag() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 2).await;
    let removal = store
        .commit(order("hub", log_removal("drum", 1)))
        .await
        .expect("it is written");
    let etag = after(&removal).joints[0].positions[0].etag();
    let decision = order("hub", decide_on("drum", 1, etag.clone()));
    let first = store.commit(decision.clone()).await.expect("it is written");

    let stale = store.commit(order("hub", decide_on("drum", 1, etag))).await;
    assert!(
        matches!(stale, Err(CommitError::Refused(Refusal::Stale { .. }))),
        "{stale:?}"
    );
    for _ in 0..2 {
        let again = store
            .commit(decision.clone())
            .await
            .expect("it was written");
        assert!(again.replayed);
        assert_eq!(again.entries, first.entries);
    }
    store.stop().await;

    let store = shop.open();
    let again = store.commit(decision).await.expect("it was written");
    assert!(again.replayed);
    assert_eq!(again.entries, first.entries);
    assert_eq!(again.job, first.job);
    store.stop().await;
}

#[tokio::test]
async fn a_request_id_is_not_used_for_something_else() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 2).await;
    lay_out(&store, "axle", 2).await;
    let removal = order("hub", log_removal("drum", 1));
    store.commit(removal.clone()).await.expect("it is written");

    let mut other_content = removal.clone();
    other_content.fingerprint.hash[31] ^= 1;
    assert_eq!(
        store.commit(other_content).await.expect_err("reused"),
        CommitError::RequestReused
    );
    let mut other_job = removal;
    other_job.work = Work::Job(job("axle"), log_removal("drum", 1));
    assert_eq!(
        store.commit(other_job).await.expect_err("reused"),
        CommitError::RequestReused
    );
    assert_eq!(*store.last_seq(None).borrow(), 7);
    store.stop().await;
}

#[tokio::test]
async fn a_refusal_changes_nothing_and_is_not_remembered() {
    let shop = Shop::new();
    let store = shop.open();
    let early = order("hub", add_joint("drum", 2));
    let refused = store.commit(early.clone()).await;
    assert!(
        matches!(refused, Err(CommitError::Refused(Refusal::NotFound { .. }))),
        "{refused:?}"
    );
    assert_eq!(store.job(&job("hub")).await.expect("readable"), None);
    assert_eq!(*store.last_seq(None).borrow(), 0);
    lay_out(&store, "hub", 2).await;
    let mut later = early;
    later.work = Work::Job(job("hub"), add_joint("cover", 2));
    let receipt = store
        .commit(later)
        .await
        .expect("the same request may come again");
    assert!(!receipt.replayed);
    store.stop().await;
}

#[tokio::test]
async fn a_fact_that_cannot_be_stored_is_not_written() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 2).await;
    let mut removal = crate::support::removed("drum", 1);
    removal.length = Some(LengthSeen::Measured(SaidLength {
        said: "45 mm".into(),
        mm: f64::NAN,
    }));
    let error = store
        .commit(order("hub", Command::LogRemoval(removal)))
        .await
        .expect_err("it cannot be stored");
    assert!(
        matches!(&error, CommitError::Broken { detail } if detail.contains("removed")),
        "{error}"
    );
    let mut nameless = order("hub", log_removal("drum", 1));
    nameless.caller.person = "".into();
    let error = store.commit(nameless).await.expect_err("nobody said it");
    assert!(error.to_string().contains("no name"), "{error}");
    assert_eq!(*store.last_seq(None).borrow(), 3);
    store
        .commit(order("hub", log_removal("drum", 1)))
        .await
        .expect("the next one is written");
    store.stop().await;
}

#[tokio::test]
async fn a_request_that_makes_no_entry_is_remembered_too() {
    let shop = Shop::new();
    let mut options = shop.options();
    let judge = book();
    options.decider = Box::new(move |asked, context| match asked {
        Asked::OfJob(_, Command::ImportRemovals(lines)) if lines.is_empty() => Ok(Vec::new()),
        _ => judge(asked, context),
    });
    let store = Store::open(options).expect("the journal opens");
    let nothing = order("hub", Command::ImportRemovals(Vec::new()));
    let first = store
        .commit(nothing.clone())
        .await
        .expect("nothing is to be written");
    assert!(!first.replayed && first.entries.is_empty());
    assert_eq!(store.job(&job("hub")).await.expect("readable"), None);
    lay_out(&store, "hub", 1).await;
    let again = store.commit(nothing).await.expect("it was accepted");
    assert!(again.replayed && again.entries.is_empty());
    assert_eq!(after(&again).last, 3);
    let empty = order("hub", Command::ImportRemovals(Vec::new()));
    store.commit(empty).await.expect("nothing is to be written");
    let page = store.jobs(None, 10).await.expect("readable");
    assert_eq!(page.jobs.len(), 1);
    store.stop().await;
}

#[tokio::test]
async fn facts_keep_their_numbers_to_the_last_digit() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    let mut removal = crate::support::removed("drum", 1);
    // Comes back as another number from a parser that takes a short cut.
    removal.length = Some(LengthSeen::Measured(SaidLength {
        said: "long".into(),
        mm: 182.574_809_465_844_54,
    }));
    let receipt = store
        .commit(order("hub", Command::LogRemoval(removal.clone())))
        .await
        .expect("it is written");
    store.stop().await;
    let store = shop.open();
    let read = store.entries(of("hub"), 3, 1).await.expect("readable");
    assert_eq!(read, receipt.entries);
    assert_eq!(read[0].entry.fact, Fact::Removed(removal));
    store.stop().await;
}
