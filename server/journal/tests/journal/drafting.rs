//! Drafting: who judges an order, and that a judgement that was overtaken does not count.

use crate::support::{
    Gate, Shop, after, create_paste, give, is_writer, job, lay_out, let_all_queue_up, log_removal,
    order, shop_order,
};
use clampbook_book::judge::judge;
use clampbook_journal::{Options, Store};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering::SeqCst};

/// A journal, and how often its writer judged.
fn counted(shop: &Shop, gate: &Gate) -> (Store, Arc<AtomicUsize>) {
    let count = Arc::new(AtomicUsize::new(0));
    let mut options: Options = shop.options();
    options.clock = gate.before(options.clock);
    let judged = count.clone();
    options.decider = Box::new(move |asked, context| {
        if is_writer() {
            judged.fetch_add(1, SeqCst);
        }
        judge(asked, context)
    });
    (Store::open(options).expect("the journal opens"), count)
}

#[tokio::test]
async fn a_judgement_that_waited_too_long_does_not_count() {
    let shop = Shop::new();
    let gate = Gate::default();
    let (store, judged) = counted(&shop, &gate);
    lay_out(&store, "hub", 4).await;
    let ahead = shop.hand.now().0;
    for (position, now, times, expected) in [
        (1, ahead + 1_000_000, 0, ahead),
        (2, ahead + 2_000_001, 1, ahead + 2_000_001),
        (3, 5, 0, ahead + 2_000_001),
        (4, ahead, 1, ahead + 2_000_001),
    ] {
        gate.shut();
        judged.store(0, SeqCst);
        let waiting = give(&store, order("hub", log_removal("drum", position)));
        let_all_queue_up().await;
        shop.hand.set(now);
        gate.open();
        let receipt = waiting.await.expect("the task ends").expect("written");
        let written = receipt.entries[0].entry.said.written.0;
        assert_eq!(judged.load(SeqCst), times, "position {position}");
        assert_eq!(written, expected, "position {position}");
        assert_eq!(after(&receipt).updated.0, expected, "position {position}");
    }
    store.stop().await;
}

#[tokio::test]
async fn the_writer_judges_only_what_was_overtaken_or_refused() {
    let shop = Shop::new();
    let gate = Gate::default();
    let (store, judged) = counted(&shop, &gate);
    lay_out(&store, "hub", 4).await;
    lay_out(&store, "other", 4).await;

    judged.store(0, SeqCst);
    for removal in [
        order("hub", log_removal("drum", 1)),
        order("hub", log_removal("drum", 2)),
    ] {
        store.commit(removal).await.expect("it is written");
    }
    assert_eq!(judged.load(SeqCst), 0, "nothing came in between");
    let again = store.commit(order("hub", log_removal("drum", 2))).await;
    again.expect_err("it is out already");
    assert_eq!(judged.load(SeqCst), 1, "a refusal is the writer's");

    gate.shut();
    judged.store(0, SeqCst);
    let orders = [("hub", 3), ("other", 3), ("hub", 3), ("hub", 4)];
    let waiting =
        orders.map(|(job, position)| give(&store, order(job, log_removal("drum", position))));
    let_all_queue_up().await;
    gate.open();
    let mut last = Vec::new();
    for answer in waiting {
        let answer = answer.await.expect("the task ends");
        last.push(answer.ok().map(|receipt| after(&receipt).last));
    }
    assert_eq!(last, [Some(6), Some(4), None, Some(7)]);
    assert_eq!(
        judged.load(SeqCst),
        2,
        "the last two of the hub were overtaken"
    );
    let hub = store
        .job(&job("hub"))
        .await
        .expect("readable")
        .expect("it exists");
    assert_eq!(hub.last, 7);
    store.stop().await;
}

#[tokio::test]
async fn what_was_judged_on_an_older_shop_is_judged_again() {
    let shop = Shop::new();
    let gate = Gate::default();
    let (store, judged) = counted(&shop, &gate);
    lay_out(&store, "hub", 4).await;

    // The shop's own orders are always the writer's; the removal was judged while there was no paste.
    gate.shut();
    judged.store(0, SeqCst);
    let revised = give(&store, shop_order(create_paste("bench-paste", 0.13)));
    let removed = give(&store, order("hub", log_removal("drum", 1)));
    let_all_queue_up().await;
    gate.open();
    for answer in [revised, removed] {
        answer.await.expect("the task ends").expect("written");
    }
    assert_eq!(judged.load(SeqCst), 2, "the shop was another one");

    judged.store(0, SeqCst);
    let removal = order("hub", log_removal("drum", 2));
    store.commit(removal).await.expect("written");
    assert_eq!(judged.load(SeqCst), 0, "the shop is as it was");
    store.stop().await;
}
