//! An order that was judged on the shop as it was before somebody else changed it is judged again.

use crate::support::{
    Gate, Shop, add_pasted_joint, create_paste, create_person, give, job, lay_out,
    let_all_queue_up, log_refit, log_removal, order, revise_paste, revise_person, shop_order,
    tighten,
};
use clampbook_book::fact::Fact;
use clampbook_book::ids::PersonId;
use clampbook_book::job::etag;
use clampbook_book::words::{Known, Step};
use clampbook_journal::Store;

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

#[tokio::test]
async fn an_entry_has_the_name_that_its_person_has_when_it_is_written() {
    let shop = Shop::new();
    let gate = Gate::default();
    let mut options = shop.options();
    options.clock = gate.before(options.clock);
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 1).await;
    let stated = shop_order(create_person("ada", "Ada Holm"));
    store.commit(stated).await.expect("it is written");

    gate.shut();
    let renamed = shop_order(revise_person("ada", "Ada Lund", etag(1)));
    let renamed = give(&store, renamed);
    let removed = order("hub", log_removal("drum", 1));
    let again = removed.clone();
    let removed = give(&store, removed);
    let_all_queue_up().await;
    gate.open();
    renamed.await.expect("the task ends").expect("it is kept");
    let receipt = removed.await.expect("the task ends").expect("it is in");
    let by = &receipt.entries[0].entry.said.by;
    let person = by.person.as_ref().map(PersonId::as_str);
    assert_eq!(
        (person, &*by.name, by.known),
        (Some("ada"), "Ada Lund", Known::Named)
    );

    let renamed = shop_order(revise_person("ada", "Ada", etag(2)));
    store.commit(renamed).await.expect("it is kept");
    let again = store.commit(again).await.expect("its first answer");
    assert_eq!(again.entries, receipt.entries);
    let job = store.job(&job("hub")).await.expect("readable");
    let job = job.expect("the job");
    let removal = job.positions().next().and_then(|p| p.records.last());
    assert_eq!(removal.map(|record| &record.said.by), Some(by));
    store.stop().await;
}
