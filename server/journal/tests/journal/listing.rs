//! Listing: the jobs, page by page, and what the list says about each.

use crate::support::{
    Shop, add_assembly, lay_out, log_alike, log_refit, log_removal, open_job, order, tighten,
    withdraw,
};
use clampbook_book::standings::Standings;
use clampbook_book::words::Step;
use clampbook_journal::{JobPage, Store};

async fn whole_list(store: &Store, limit: u32) -> Vec<String> {
    let mut ids = Vec::new();
    let mut after = None;
    loop {
        let page = store.jobs(after, limit).await.expect("readable");
        ids.extend(page.jobs.iter().map(|j| j.id.to_string()));
        after = page.next;
        if after.is_none() {
            return ids;
        }
    }
}

#[tokio::test]
async fn the_job_written_last_comes_first() {
    let shop = Shop::new();
    let store = shop.open();
    assert_eq!(
        store.jobs(None, 10).await.expect("readable"),
        JobPage {
            jobs: Vec::new(),
            next: None
        }
    );
    for id in ["a", "b", "c", "d", "e"] {
        store
            .commit(order(id, open_job()))
            .await
            .expect("it is written");
    }
    store
        .commit(order("b", add_assembly()))
        .await
        .expect("it is written");
    for limit in [1, 2, 3, 4, 5, 6] {
        assert_eq!(
            whole_list(&store, limit).await,
            ["b", "e", "d", "c", "a"],
            "{limit} a page"
        );
    }
    store.stop().await;
}

#[tokio::test]
async fn paging_misses_no_job_that_is_written_meanwhile() {
    let shop = Shop::new();
    let store = shop.open();
    for id in ["a", "b", "c", "d"] {
        store
            .commit(order(id, open_job()))
            .await
            .expect("it is written");
    }
    let first = store.jobs(None, 2).await.expect("readable");
    assert_eq!(
        first.jobs.iter().map(|j| j.id.as_str()).collect::<Vec<_>>(),
        ["d", "c"]
    );
    // One that was shown and one that was not move to the top, and a new one comes.
    for (id, command) in [
        ("c", add_assembly()),
        ("a", add_assembly()),
        ("new", open_job()),
    ] {
        store
            .commit(order(id, command))
            .await
            .expect("it is written");
    }
    let second = store.jobs(first.next, 2).await.expect("readable");
    assert_eq!(
        second
            .jobs
            .iter()
            .map(|j| j.id.as_str())
            .collect::<Vec<_>>(),
        ["b", "a"]
    );
    assert_eq!(second.next, None);
    assert_eq!(second.jobs[1].last, 2, "it is shown as it is now");
    assert_eq!(whole_list(&store, 2).await, ["new", "a", "c", "d", "b"]);
    store.stop().await;
}

#[tokio::test]
async fn the_list_counts_positions_by_standing() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 6).await;
    let summary = || async {
        let page = store.jobs(None, 1).await.expect("readable");
        page.jobs.into_iter().next().expect("there is a job")
    };
    assert_eq!(
        summary().await.standings,
        Standings {
            in_place: 6,
            ..Standings::default()
        }
    );
    for position in 1..=4 {
        store
            .commit(order("hub", log_removal("drum", position)))
            .await
            .expect("it is written");
    }
    for said in [
        log_refit("drum", 1),
        log_refit("drum", 2),
        tighten("drum", 1, Step::Final),
        tighten("drum", 2, Step::Snug),
    ] {
        store
            .commit(order("hub", said))
            .await
            .expect("it is written");
    }
    let found = summary().await;
    assert_eq!(
        found.standings,
        Standings {
            in_place: 2,
            empty: 2,
            loose: 1,
            tight: 1,
            left_out: 0,
        }
    );
    assert_eq!(
        (found.display_name.as_str(), found.machine.as_str()),
        ("Orchard tractor", "narrow orchard tractor")
    );
    assert_eq!(
        (found.last, found.opened, found.updated),
        (11, shop.hand.now(), shop.hand.now())
    );
    store
        .commit(order("hub", withdraw(6, "\"11\"".into())))
        .await
        .expect("it is written");
    assert_eq!(
        summary().await.standings,
        Standings {
            in_place: 3,
            empty: 1,
            loose: 1,
            tight: 1,
            left_out: 0,
        }
    );
    store.stop().await;
}

#[tokio::test]
async fn read_models_made_anew_are_what_they_were() {
    let shop = Shop::new();
    let store = shop.open();
    for id in ["a", "b", "c"] {
        lay_out(&store, id, 3).await;
    }
    store
        .commit(order("a", log_alike("drum")))
        .await
        .expect("it is written");
    let before = store.jobs(None, 10).await.expect("readable");
    assert_eq!(before.jobs.len(), 3);
    shop.outsider()
        .execute_batch(
            "UPDATE jobs SET empty = 77 WHERE stream = 1; DELETE FROM jobs WHERE stream = 2",
        )
        .expect("the list is no journal");
    assert_ne!(store.jobs(None, 10).await.expect("readable"), before);
    store
        .rebuild_read_models()
        .await
        .expect("they can be made anew");
    assert_eq!(store.jobs(None, 10).await.expect("readable"), before);
    store.stop().await;
}
