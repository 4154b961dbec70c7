//! Killing: the process ends at each place in the writer; what was acknowledged is there, nothing is there by half.

use crate::child::{child_of, command};
use crate::support::{Hand, Shop, book, job, lay_out, log_alike, order};
use clampbook_store::{Barrier, BarrierPoint, Options, Store};
use std::fs::File;
use std::process::Stdio;
use std::time::{Duration, Instant};

#[tokio::test]
async fn a_kill_at_any_place_leaves_a_request_whole_or_absent() {
    const TEST: &str = "killing::a_kill_at_any_place_leaves_a_request_whole_or_absent";
    if let Some(path) = child_of(TEST) {
        let point = std::env::var("POINT").expect("the parent says where");
        let folder = path.parent().expect("the journal is in a folder");
        let barrier: Barrier = format!("{point}={}", folder.display())
            .parse()
            .expect("a barrier");
        let hand = Hand::default();
        hand.set(1);
        let mut options = Options::new(&path, book(), hand.clock());
        options.barrier = Some(barrier.clone());
        let store = Store::open(options).expect("the journal opens");
        lay_out(&store, "hub", 4).await;
        File::create(&barrier.armed).expect("the barrier is armed");
        let answer = store.commit(order("hub", log_alike("drum"))).await;
        panic!("nothing gets past the barrier: {answer:?}");
    }
    for point in BarrierPoint::ALL {
        let shop = Shop::new();
        let mut child = command(&shop, TEST, "")
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

        let store = shop.open();
        let read = store
            .job(&job("hub"))
            .await
            .expect("readable")
            .expect("it exists");
        let committed = matches!(
            point,
            BarrierPoint::AfterCommit | BarrierPoint::BeforeAnswer
        );
        assert_eq!(
            read.last,
            if committed { 7 } else { 3 },
            "killed {}",
            point.name()
        );
        assert_eq!(store.verify().await.expect("readable").first_break, None);
        store.stop().await;
    }
}
