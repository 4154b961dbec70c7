//! An order that was judged on the shop as it was before somebody else changed it is judged again.

use crate::support::{
    Gate, Shop, add_pasted_joint, create_paste, give, lay_out, let_all_queue_up, log_refit,
    log_removal, order, revise_paste, shop_order, tighten,
};
use clampbook_book::fact::Fact;
use clampbook_book::job::etag;
use clampbook_book::words::Step;
use clampbook_store::Store;

#[tokio::test]
async fn a_tightening_keeps_what_the_shop_says_when_it_is_written() {
    let shop = Shop::new();
    let gate = Gate::default();
    let mut options = shop.options();
    options.clock = gate.before(options.clock);
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 4).await;
    for said in [
        shop_order(create_paste("bench-paste", 0.15)),
        order("hub", add_pasted_joint("pasted", "paste of bench-paste")),
        order("hub", log_removal("pasted", 1)),
        order("hub", log_refit("pasted", 1)),
    ] {
        store.commit(said).await.expect("it is written");
    }

    gate.shut();
    let revision = shop_order(revise_paste("bench-paste", 0.17, etag(1)));
    let revised = give(&store, revision);
    let tightened = order("hub", tighten("pasted", 1, Step::Final));
    let tightened = give(&store, tightened);
    let_all_queue_up().await;
    gate.open();
    revised.await.expect("the task ends").expect("it is kept");
    let receipt = tightened.await.expect("the task ends").expect("it is in");
    let Fact::Tightened(fact) = &receipt.entries[0].entry.fact else {
        panic!("not a tightening");
    };
    let wanted = fact.torque.wanted.as_ref().expect("a torque");
    assert_eq!(wanted.nut_factor.to_bits(), 0.17_f64.to_bits());
    store.stop().await;
}
