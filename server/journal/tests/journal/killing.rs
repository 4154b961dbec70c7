//! Killing: the process ends at each place in the writer; what was acknowledged is there, nothing is there by half.

use crate::blobs::{holds, kept, photo};
use crate::child::{child_of, command};
use crate::support::{Hand, Shop, book, job, lay_out, log_alike, order};
use clampbook_book::fact::PhotoOf;
use clampbook_journal::{Barrier, BarrierPoint, Options, Order, Store};
use std::fs::File;
use std::path::Path;
use std::process::Stdio;
use std::time::{Duration, Instant};

#[tokio::test]
async fn a_kill_at_any_place_leaves_a_request_whole_or_absent() {
    const TEST: &str = "killing::a_kill_at_any_place_leaves_a_request_whole_or_absent";
    if let Some(path) = child_of(TEST) {
        hold(&path, order("hub", log_alike("drum"))).await;
    }
    for point in BarrierPoint::ALL {
        let shop = Shop::new();
        kill_at(&shop, TEST, point);
        let store = shop.open();
        let last = if is_committed(point) { 7 } else { 3 };
        assert_eq!(last_entry(&store).await, last, "killed {}", point.name());
        assert_eq!(store.verify().await.expect("readable").first_break, None);
        store.stop().await;
    }
}

#[tokio::test]
async fn a_kill_at_any_place_leaves_a_photo_with_its_content_or_neither() {
    const TEST: &str = "killing::a_kill_at_any_place_leaves_a_photo_with_its_content_or_neither";
    if let Some(path) = child_of(TEST) {
        hold(&path, photo("hub", PhotoOf::Job, 1)).await;
    }
    for point in BarrierPoint::ALL {
        let shop = Shop::new();
        kill_at(&shop, TEST, point);
        let store = shop.open();
        let (is_there, name) = (is_committed(point), point.name());
        let last = if is_there { 4 } else { 3 };
        assert_eq!(last_entry(&store).await, last, "killed {name}");
        assert_eq!(holds(&store, 1).await, is_there, "killed {name}");
        assert_eq!(kept(&shop), i64::from(is_there), "killed {name}");
        assert_eq!(store.verify().await.expect("readable").first_break, None);
        store.stop().await;
    }
}

/// The child's part: lays out a job and gives an order that never gets past the barrier.
async fn hold(path: &Path, order: Order) {
    let point = std::env::var("POINT").expect("the parent says where");
    let folder = path.parent().expect("the journal is in a folder");
    let barrier: Barrier = format!("{point}={}", folder.display())
        .parse()
        .expect("a barrier");
    let hand = Hand::default();
    hand.set(1);
    let mut options = Options::new(path, book(), hand.clock());
    options.barrier = Some(barrier.clone());
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 4).await;
    File::create(&barrier.armed).expect("the barrier is armed");
    let answer = store.commit(order).await;
    panic!("nothing gets past the barrier: {answer:?}");
}

/// Runs the test as a child and kills it at the barrier.
fn kill_at(shop: &Shop, test: &str, point: BarrierPoint) {
    let mut child = command(shop, test, "")
        .env("POINT", point.name())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the child runs");
    let reached = shop.folder().join("reached");
    let deadline = Instant::now() + Duration::from_secs(60);
    while !reached.exists() {
        assert!(Instant::now() < deadline, "{} is not reached", point.name());
        let ended = child.try_wait().expect("the child can be asked");
        assert_eq!(ended, None, "the child ended before {}", point.name());
        std::thread::sleep(Duration::from_millis(2));
    }
    child.kill().expect("the child can be killed");
    child.wait().expect("the child ends");
}

const fn is_committed(point: BarrierPoint) -> bool {
    matches!(
        point,
        BarrierPoint::AfterCommit | BarrierPoint::BeforeAnswer
    )
}

async fn last_entry(store: &Store) -> u32 {
    let hub = store.job(&job("hub")).await.expect("readable");
    hub.expect("it exists").last
}
