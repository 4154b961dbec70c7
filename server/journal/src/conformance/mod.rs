//! The conformance suite: what a journal promises wherever it is kept, asked of each backend through two handles.

mod backends;
mod memory;

use self::backends::{Backend, InMemory, InSqlite, assembly, order, shop_order};
use self::memory::Outcome;
use crate::protocol::entry::StoredEntry;
use crate::protocol::error::CommitError;
use crate::protocol::request::{Order, Work};
use clampbook_book::ids::JobId;
use clampbook_book::stream::Stream;

fn hub() -> JobId {
    JobId::new("hub").expect("a slug")
}

/// Runs every promise on a backend; each has a journal of its own.
macro_rules! promises {
    ($backend:ident as $module:ident: $($promise:ident),* $(,)?) => {
        mod $module {
            $(#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
            async fn $promise() {
                super::$promise(super::$backend::new()).await;
            })*
        }
    };
}

promises!(InSqlite as sqlite: stale_job, stale_shop, the_same_request_twice_at_once, a_group_with_a_refusal_in_it,
    an_answer_that_was_lost, a_watcher_misses_nothing, a_restart, times_never_run_backwards);
promises!(InMemory as in_memory: stale_job, stale_shop, the_same_request_twice_at_once, a_group_with_a_refusal_in_it,
    an_answer_that_was_lost, a_watcher_misses_nothing, a_restart, times_never_run_backwards);

/// Every entry, and that places and numbers have no gap.
async fn whole(journal: &impl Backend) -> Vec<StoredEntry> {
    let all = journal.read(0, None).await;
    let mut lasts = std::collections::HashMap::new();
    for (place, stored) in (1..).zip(&all) {
        let last = lasts.entry(stored.entry.stream.clone()).or_insert(0);
        *last += 1;
        assert_eq!((stored.seq, stored.entry.number), (place, *last));
    }
    assert_eq!(
        all.last().map_or(0, |last| last.seq),
        journal.head().await.seq
    );
    all
}

async fn stale_job(journal: impl Backend) {
    let other = journal.another();
    journal
        .commit(order(&hub(), "Orchard tractor"))
        .await
        .expect("written");
    let second = other.commit(order(&hub(), "Orchard tractor")).await;
    let refused = matches!(second, Err(CommitError::Refused(_)));
    assert!(refused, "judged on the job as it is: {second:?}");
    assert_eq!(whole(&journal).await.len(), 1);
}

async fn stale_shop(journal: impl Backend) {
    let other = journal.another();
    journal.commit(shop_order("bo")).await.expect("written");
    let second = other.commit(shop_order("bo")).await;
    assert!(matches!(second, Err(CommitError::Refused(_))), "{second:?}");
    let receipt = other.commit(order(&hub(), "Orchard tractor")).await;
    assert_eq!(
        receipt.expect("written").shop.last,
        1,
        "on the shop as it is"
    );
    assert_eq!(whole(&other).await.len(), 2);
}

async fn the_same_request_twice_at_once(journal: impl Backend) {
    let other = journal.another();
    let one = order(&hub(), "Orchard tractor");
    let (first, second) = tokio::join!(journal.commit(one.clone()), other.commit(one.clone()));
    let (first, second) = (first.expect("written"), second.expect("written"));
    assert_ne!(first.replayed, second.replayed);
    assert_eq!(first.entries, second.entries);

    let reused = Order {
        request: one.request,
        ..order(&hub(), "Museum baler")
    };
    let reused = other.commit(reused).await;
    assert_eq!(
        reused.expect_err("another request"),
        CommitError::RequestReused
    );
    assert_eq!(whole(&journal).await.len(), 1);
}

async fn a_group_with_a_refusal_in_it(journal: impl Backend) {
    let other = journal.another();
    let baler = JobId::new("baler").expect("a slug");
    let (first, second, third) = tokio::join!(
        journal.commit(order(&hub(), "Orchard tractor")),
        other.commit(order(&hub(), "Orchard tractor")),
        journal.commit(order(&baler, "Museum baler")),
    );
    assert_ne!(first.is_ok(), second.is_ok());
    third.expect("written");
    assert_eq!(
        whole(&journal).await.len(),
        2,
        "the refused one left no trace"
    );
}

async fn an_answer_that_was_lost(journal: impl Backend) {
    let one = order(&hub(), "Orchard tractor");
    let lost = journal.commit(one.clone()).await.expect("written");
    let again = journal.another().commit(one).await.expect("written before");
    assert!(again.replayed);
    assert_eq!(again.entries, lost.entries);
    assert_eq!(whole(&journal).await.len(), 1);
}

/// How many jobs each of two opens while somebody watches.
const EACH: usize = 40;

async fn write(to: impl Backend, side: &str) {
    for n in 0..EACH {
        let id = JobId::new(&format!("{side}-{n}")).expect("a slug");
        let receipt = to.commit(order(&id, "Orchard tractor")).await;
        receipt.expect("written");
    }
}

async fn a_watcher_misses_nothing(journal: impl Backend) {
    let (left, right) = (journal.another(), journal.another());
    let watch = async {
        let mut seen = Vec::new();
        while seen.len() < 2 * EACH {
            let after = seen.last().copied().unwrap_or(0);
            seen.extend(journal.read(after, None).await.iter().map(|one| one.seq));
            tokio::task::yield_now().await;
        }
        seen
    };
    let ((), (), seen) = tokio::join!(write(left, "left"), write(right, "right"), watch);
    assert!(seen.into_iter().eq(1..=2 * EACH as i64));
    let one = Stream::Job(JobId::new("left-3").expect("a slug"));
    assert_eq!(journal.read(0, Some(&one)).await.len(), 1);
}

async fn a_restart(journal: impl Backend) {
    let one = order(&hub(), "Orchard tractor");
    let first = journal.commit(one.clone()).await.expect("written");
    let head = journal.head().await;
    let journal = journal.restarted().await;
    assert_eq!(journal.head().await, head);
    let again = journal.commit(one).await.expect("written before");
    assert!(again.replayed);
    assert_eq!(again.entries, first.entries);
    assert_eq!(again.job, first.job);
    assert_eq!(whole(&journal).await.len(), 1);
}

async fn times_never_run_backwards(journal: impl Backend) {
    const LATEST: i64 = 50_000_000;
    journal.set_clock(LATEST);
    let opened = journal.commit(order(&hub(), "Orchard tractor")).await;
    opened.expect("written");
    for (id, clock, written) in [
        ("a", LATEST - 1, LATEST),
        ("b", 5, LATEST),
        ("c", LATEST, LATEST),
        ("d", LATEST + 1, LATEST + 1),
    ] {
        journal.set_clock(clock);
        let receipt = journal.commit(assembly(&hub(), id)).await.expect("written");
        let said = &receipt.entries[0].entry.said;
        let times = (said.said.0, said.written.0);
        assert_eq!(times, (written, written), "{id} at {clock}");
        assert_eq!(receipt.job.expect("a job").updated.0, written, "{id}");
    }
    assert_eq!(whole(&journal).await.len(), 5);
}

/// What was judged on one handle while the other wrote is not written.
#[tokio::test]
async fn a_stale_draft_is_given_back() {
    let journal = InMemory::new();
    let other = journal.another();
    let late = order(&hub(), "Orchard tractor");
    let Work::Job(id, _) = &late.work else {
        unreachable!("it is about a job")
    };
    let draft = journal.handle.draft_job(&late, id).expect("it is allowed");
    other.commit(shop_order("bo")).await.expect("written");
    let stale = journal.handle.append(&late, &draft);
    assert!(
        matches!(stale, Outcome::Stale),
        "the shop is another: {stale:?}"
    );

    assert!(journal.handle.catch_up());
    let draft = journal.handle.draft_job(&late, id).expect("it is allowed");
    other
        .commit(order(&hub(), "Museum baler"))
        .await
        .expect("written");
    let stale = journal.handle.append(&late, &draft);
    assert!(
        matches!(stale, Outcome::Stale),
        "the job is another: {stale:?}"
    );
    assert_eq!(whole(&journal).await.len(), 2);
}
