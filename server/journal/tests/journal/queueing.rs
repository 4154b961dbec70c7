//! Queueing: orders that wait together, orders nobody waits for any more, and too many of them.

use crate::support::{
    Gate, Shop, after, give, job, lay_out, let_all_queue_up, log_removal, order, withdraw,
};
use clampbook_journal::{CommitError, Store};

#[tokio::test]
async fn a_refused_order_does_not_disturb_its_group() {
    let shop = Shop::new();
    let gate = Gate::default();
    let store = gated(&shop, &gate);
    lay_out(&store, "hub", 8).await;

    gate.shut();
    let twice = order("hub", log_removal("drum", 2));
    let orders = [
        order("hub", log_removal("drum", 1)),
        twice.clone(),
        order("hub", log_removal("drum", 1)),
        order("hub", log_removal("drum", 99)),
        twice,
        order("ghost", log_removal("drum", 1)),
        order("hub", withdraw(1, "\"0\"".into())),
        order("hub", log_removal("drum", 3)),
    ];
    let waiting: Vec<_> = orders
        .into_iter()
        .map(|order| give(&store, order))
        .collect();
    let_all_queue_up().await;
    gate.open();
    let mut numbers = Vec::new();
    for answer in waiting {
        let answer = answer.await.expect("the task ends");
        numbers.push(
            answer
                .ok()
                .map(|r| (r.replayed, r.entries[0].entry.number, after(&r).last)),
        );
    }
    let expected = [
        Some((false, 4, 4)),
        Some((false, 5, 5)),
        None,
        None,
        Some((true, 5, 5)),
        None,
        None,
        Some((false, 6, 6)),
    ];
    assert_eq!(numbers, expected);
    assert_eq!(store.job(&job("ghost")).await.expect("readable"), None);
    store.stop().await;
}

#[tokio::test]
async fn an_order_whose_caller_hangs_up_is_still_written() {
    let shop = Shop::new();
    let gate = Gate::default();
    let store = gated(&shop, &gate);
    lay_out(&store, "hub", 2).await;
    let removal = order("hub", log_removal("drum", 1));
    gate.shut();
    let sender = give(&store, removal.clone());
    let_all_queue_up().await;
    sender.abort();
    assert!(sender.await.expect_err("it was cut off").is_cancelled());
    gate.open();
    let receipt = store.commit(removal).await.expect("it was written");
    assert!(receipt.replayed);
    store.stop().await;
}

#[tokio::test]
async fn a_queue_that_is_full_says_so_and_takes_nothing() {
    let shop = Shop::new();
    let gate = Gate::default();
    let mut options = shop.options();
    options.queue = 3;
    options.clock = gate.before(options.clock);
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 20).await;

    gate.shut();
    let waiting: Vec<_> = (1..=12)
        .map(|position| give(&store, order("hub", log_removal("drum", position))))
        .collect();
    let_all_queue_up().await;
    gate.open();
    let (mut written, mut full) = (0, 0);
    for answer in waiting {
        match answer.await.expect("the task ends") {
            Ok(_) => written += 1,
            Err(CommitError::Full) => full += 1,
            Err(other) => panic!("{other}"),
        }
    }
    assert_eq!(written + full, 12);
    // Three in the queue, and those the writer had in hand when it came to the gate.
    assert!((3..=7).contains(&written), "{written} written");
    assert_eq!(*store.last_seq(None).borrow(), 3 + written);
    store.stop().await;
}

fn gated(shop: &Shop, gate: &Gate) -> Store {
    let mut options = shop.options();
    options.clock = gate.before(options.clock);
    Store::open(options).expect("the journal opens")
}
