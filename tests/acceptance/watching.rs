//! Watching the journal: from any place on, by anybody, until the server stops.

use std::time::Duration;

use clampbook_api::reason;
use clampbook_api::v1::{Entry, RemovalOutcome, WatchEntriesRequest};
use tonic::{Code, Status, Streaming};

use crate::support::{Refusal, Shop};

async fn watch(shop: &Shop, parent: &str, after_sequence: i64) -> Streaming<Entry> {
    let request = WatchEntriesRequest {
        parent: parent.into(),
        after_sequence,
    };
    shop.jobs()
        .watch_entries(request)
        .await
        .expect("a stream")
        .into_inner()
}

/// The next entry; a watch that stays silent for so long has lost it.
async fn next(stream: &mut Streaming<Entry>) -> Result<Option<Entry>, Status> {
    tokio::time::timeout(Duration::from_secs(20), stream.message())
        .await
        .expect("the watch says something")
}

async fn take(stream: &mut Streaming<Entry>, count: usize) -> Vec<Entry> {
    let mut entries = Vec::with_capacity(count);
    for _ in 0..count {
        entries.push(next(stream).await.expect("no error").expect("no end"));
    }
    entries
}

#[tokio::test]
async fn a_watch_begins_with_what_was_written_and_goes_on_with_what_is() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let mut stream = watch(&shop, &job.name, 0).await;
    let kinds: Vec<String> = take(&mut stream, 2)
        .await
        .into_iter()
        .map(|e| e.kind)
        .collect();
    assert_eq!(kinds, ["job-opened", "assembly-added"]);
    let plate = job.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let seen = take(&mut stream, 2).await;
    assert_eq!(seen, job.entries().await[2..]);
}

#[tokio::test]
async fn a_watch_resumes_after_the_sequence_it_names_without_gap_or_repeat() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.comes_apart().await;
    let all = take(&mut watch(&shop, "", 0).await, 7).await;
    let sequences: Vec<i64> = all.iter().map(|entry| entry.sequence).collect();
    assert_eq!(sequences, [1, 2, 3, 4, 5, 6, 7]);
    for after in 0..7 {
        let rest = take(&mut watch(&shop, "", after as i64).await, 7 - after).await;
        assert_eq!(rest, all[after..], "after {after}");
    }
}

#[tokio::test]
async fn several_watchers_see_the_same_in_the_same_order() {
    let shop = Shop::open();
    let (a, b) = (shop.job("a").await, shop.job("b").await);
    let mut streams = Vec::new();
    for _ in 0..5 {
        streams.push(watch(&shop, "", 4).await);
    }
    let mut only_b = watch(&shop, &b.name, 0).await;
    let (left, right) = (a.joint("left").await, b.joint("right").await);
    for hole in 1..=4 {
        left.takes_out(hole, RemovalOutcome::Normal).await;
        right.takes_out(hole, RemovalOutcome::Normal).await;
    }
    let first = take(&mut streams[0], 10).await;
    for stream in &mut streams[1..] {
        assert_eq!(take(stream, 10).await, first);
    }
    let seen = take(&mut only_b, 7).await;
    assert!(
        seen.iter().all(|entry| entry.name.starts_with("jobs/b/")),
        "{seen:?}"
    );
}

#[tokio::test]
async fn a_watcher_that_does_not_listen_for_a_while_loses_nothing() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let mut slow = watch(&shop, "", 0).await;
    let large = job
        .joint_like("large", |joint| {
            joint.layout = clampbook_api::v1::Layout::Line.into();
            joint.positions = vec![Default::default(); 200];
        })
        .await;
    for hole in 1..=200 {
        large
            .takes_out(hole, RemovalOutcome::Normal)
            .and(|removal| removal.note = "n".repeat(1_000))
            .await;
    }
    let seen = take(&mut slow, 203).await;
    let sequences: Vec<i64> = seen.iter().map(|entry| entry.sequence).collect();
    assert_eq!(sequences, (1..=203).collect::<Vec<i64>>());
}

#[tokio::test]
async fn a_server_that_stops_ends_every_watch_with_what_to_do() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await.name;
    let mut streams = [watch(&shop, "", 2).await, watch(&shop, &job, 2).await];
    shop.server.tell_to_stop();
    for stream in &mut streams {
        let status = next(stream)
            .await
            .expect_err("the stream ends with an error");
        let refusal = Refusal::of(&status);
        refusal
            .is(Code::Unavailable, reason::NOT_READY)
            .says("after the last sequence");
        assert!(refusal.says_when);
    }
    assert!(shop.server.wait_for_end().await.success());
}

#[tokio::test]
async fn what_cannot_be_watched_is_refused_at_once() {
    let shop = Shop::open();
    let ask = |parent: &str, after_sequence| WatchEntriesRequest {
        parent: parent.into(),
        after_sequence,
    };
    let status = shop
        .jobs()
        .watch_entries(ask("jobs/none", 0))
        .await
        .expect_err("refused");
    Refusal::of(&status).is(Code::NotFound, reason::RESOURCE_NOT_FOUND);
    let status = shop
        .jobs()
        .watch_entries(ask("nonsense", -1))
        .await
        .expect_err("refused");
    Refusal::of(&status).names(&["parent", "after_sequence"]);
}

#[tokio::test]
async fn the_hash_of_an_entry_rests_on_all_before_it() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let entries = job.entries().await;
    let hashes: Vec<&str> = entries.iter().map(|entry| entry.hash.as_str()).collect();
    for hash in &hashes {
        assert!(
            hash.len() == 64 && hash.bytes().all(|b| b.is_ascii_hexdigit()),
            "{hash}"
        );
    }
    assert_ne!(hashes[0], hashes[1]);
    assert_eq!(job.sheet().await.chain_head, hashes[1]);
}

/// Memory of the server, in KiB.
fn memory(shop: &Shop) -> i64 {
    let status = std::fs::read_to_string(format!("/proc/{}/status", shop.server.id()));
    let status = status.expect("the server runs");
    let line = status.lines().find(|line| line.starts_with("VmRSS:"));
    let words = line.and_then(|line| line.split_whitespace().nth(1));
    words.and_then(|kib| kib.parse().ok()).expect("a number")
}

#[tokio::test]
async fn watches_that_are_hung_up_while_nothing_is_written_leave_nothing_behind() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let open_and_hang_up = async |count| {
        for _ in 0..count {
            let mut stream = watch(&shop, &job.name, 1).await;
            assert_eq!(take(&mut stream, 1).await.len(), 1);
        }
    };
    // What is needed once is taken by the first of them.
    open_and_hang_up(300).await;
    let before = memory(&shop);
    open_and_hang_up(1_500).await;
    let grown = memory(&shop) - before;
    assert!(grown < 1_500 * 3, "{grown} KiB more for 1,500 watches");
    let mut stream = watch(&shop, &job.name, 2).await;
    job.joint("plate").await;
    assert_eq!(take(&mut stream, 1).await[0].kind, "joint-added");
}
