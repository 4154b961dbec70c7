//! The promises, each by its name.

use crate::plain::Plain;
use clampbook_book::standings::Standings;
use clampbook_book::stream::Stream;
use clampbook_journal::{Store, StoredEntry};
use std::collections::BTreeMap;
use uuid::Uuid;

/// Every promise that can be asked for at any time.
pub(crate) async fn all(store: &Store, plain: &Plain) {
    let stored = whole_file(store).await;
    acknowledged_stays(&stored, plain);
    order_is_kept(&stored);
    same_request_once(&stored, plain);
    jobs_are_what_their_entries_say(store, plain).await;
    the_shop_is_what_its_entries_say(store, plain).await;
    the_list_follows_the_entries(store, plain).await;
    let reach = *store.last_seq(None).borrow();
    assert_eq!(
        reach,
        plain.entries.len() as i64,
        "the watched number is the last entry's"
    );
}

/// Every entry in the file, read page by page.
async fn whole_file(store: &Store) -> Vec<StoredEntry> {
    let mut stored: Vec<StoredEntry> = Vec::new();
    loop {
        let after = stored.last().map_or(0, |e| e.seq);
        let page = store
            .entries_after(after, None, 17)
            .await
            .expect("readable");
        if page.is_empty() {
            return stored;
        }
        stored.extend(page);
    }
}

/// What was acknowledged is there, as it was acknowledged; and nothing else is.
fn acknowledged_stays(stored: &[StoredEntry], plain: &Plain) {
    let stored: Vec<_> = stored.iter().map(|e| (&*e.entry, e.request)).collect();
    let expected: Vec<_> = plain
        .entries
        .iter()
        .map(|(e, request)| (e, *request))
        .collect();
    assert_eq!(stored, expected);
}

/// Places in the file and numbers in each stream grow by one.
fn order_is_kept(stored: &[StoredEntry]) {
    let mut numbers = BTreeMap::new();
    for (expected, stored) in (1..).zip(stored) {
        assert_eq!(stored.seq, expected);
        let last = numbers.entry(&stored.entry.stream).or_insert(0);
        *last += 1;
        assert_eq!(stored.entry.number, *last);
    }
}

/// A request made its entries once, one after the other, however often it was sent.
fn same_request_once(stored: &[StoredEntry], plain: &Plain) {
    let mut made: BTreeMap<Uuid, Vec<i64>> = BTreeMap::new();
    for entry in stored {
        made.entry(entry.request).or_default().push(entry.seq);
    }
    for (request, (_, _, range)) in &plain.requests {
        let expected: Vec<i64> = range.clone().map(|index| index as i64 + 1).collect();
        assert_eq!(
            made.remove(request).unwrap_or_default(),
            expected,
            "request {request}"
        );
    }
    assert_eq!(
        made,
        BTreeMap::new(),
        "no entry is of a request that was not accepted"
    );
}

/// A step in which nothing was accepted leaves the chain where it was.
pub(crate) async fn refused_changes_nothing(store: &Store, before: clampbook_journal::Head) {
    assert_eq!(store.head().await.expect("readable"), before);
}

async fn jobs_are_what_their_entries_say(store: &Store, plain: &Plain) {
    for id in plain.jobs() {
        let job = store.job(&id).await.expect("readable");
        assert_eq!(job.as_deref(), Some(&plain.job(&id)));
        a_stream_has_its_entries(store, plain, Stream::Job(id)).await;
    }
    let ghost = crate::support::job("ghost");
    assert_eq!(store.job(&ghost).await.expect("readable"), None);
}

async fn the_shop_is_what_its_entries_say(store: &Store, plain: &Plain) {
    assert_eq!(*store.shop(), plain.shop());
    a_stream_has_its_entries(store, plain, Stream::Shop).await;
}

async fn a_stream_has_its_entries(store: &Store, plain: &Plain, stream: Stream) {
    let expected: Vec<_> = plain.of(&stream).collect();
    let all = store.entries(stream.clone(), 0, 10_000).await;
    let after = store.entries_after(0, Some(stream), 10_000).await;
    for found in [all, after] {
        let found = found.expect("readable");
        let found: Vec<_> = found.iter().map(|e| (e.seq, &*e.entry)).collect();
        assert_eq!(found, expected);
    }
}

async fn the_list_follows_the_entries(store: &Store, plain: &Plain) {
    let mut listed = Vec::new();
    let mut after = None;
    loop {
        let page = store.jobs(after, 2).await.expect("readable");
        listed.extend(page.jobs);
        after = page.next;
        if after.is_none() {
            break;
        }
    }
    let ids: Vec<_> = listed.iter().map(|summary| summary.id.clone()).collect();
    assert_eq!(ids, plain.jobs());
    for summary in listed {
        let job = plain.job(&summary.id);
        assert_eq!(summary.standings, Standings::of(&job.joints));
        assert_eq!((summary.last, summary.updated), (job.last, job.updated));
    }
}

/// Every hash follows, from the first entry to the last.
pub(crate) async fn the_chain_is_whole(store: &Store, plain: &Plain) {
    let found = store.verify().await.expect("readable");
    assert_eq!(found.first_break, None);
    assert_eq!(found.entries, plain.entries.len() as i64);
    assert_eq!(found.head, store.head().await.expect("readable"));
}
