//! Reading: pages of entries and jobs, and the number that wakes those who watch.

use crate::support::{
    Shop, add_assembly, add_joint, decide_on, job, lay_out, log_alike, log_refit, log_removal,
    open_job, order, withdraw,
};
use clampbook_book::standings::Standings;
use clampbook_book::words::Tightness;
use clampbook_store::{JobPage, Store};

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
    store
        .commit(order("hub", log_refit("drum", 1, Tightness::Final)))
        .await
        .expect("it is written");
    store
        .commit(order("hub", log_refit("drum", 2, Tightness::Snug)))
        .await
        .expect("it is written");
    let found = summary().await;
    assert_eq!(
        found.standings,
        Standings {
            in_place: 2,
            empty: 2,
            loose: 1,
            tight: 1
        }
    );
    assert_eq!(
        (found.display_name.as_str(), found.machine.as_str()),
        ("Orchard tractor", "narrow orchard tractor")
    );
    assert_eq!(
        (found.last, found.opened, found.updated),
        (9, shop.hand.now(), shop.hand.now())
    );
    store
        .commit(order("hub", withdraw(6, "\"9\"".into())))
        .await
        .expect("it is written");
    assert_eq!(
        summary().await.standings,
        Standings {
            in_place: 3,
            empty: 1,
            loose: 1,
            tight: 1
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

#[tokio::test]
async fn entries_are_read_page_by_page() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 4).await;
    lay_out(&store, "axle", 4).await;
    store
        .commit(order("hub", log_alike("drum")))
        .await
        .expect("it is written");
    let numbers = |entries: Vec<clampbook_store::StoredEntry>| {
        entries
            .iter()
            .map(|e| (e.entry.job.to_string(), e.entry.number, e.entry.seq))
            .collect::<Vec<_>>()
    };
    let hub = |n, seq| ("hub".to_owned(), n, seq);
    let found = store.entries(&job("hub"), 2, 3).await.expect("readable");
    assert_eq!(numbers(found), [hub(3, 3), hub(4, 7), hub(5, 8)]);
    let found = store
        .entries_after(3, Some(&job("hub")), 2)
        .await
        .expect("readable");
    assert_eq!(numbers(found), [hub(4, 7), hub(5, 8)]);
    let found = store.entries_after(5, None, 2).await.expect("readable");
    assert_eq!(numbers(found), [("axle".to_owned(), 3, 6), hub(4, 7)]);
    for nothing in [
        store.entries(&job("hub"), 7, 10).await,
        store.entries(&job("ghost"), 0, 10).await,
        store.entries_after(10, None, 10).await,
        store.entries_after(0, Some(&job("ghost")), 10).await,
        store.entries_after(0, None, 0).await,
    ] {
        assert_eq!(nothing.expect("readable"), []);
    }
    store.stop().await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn whoever_watches_sees_every_entry_in_order() {
    const JOBS: u16 = 4;
    const POSITIONS: u16 = 25;
    let shop = Shop::new();
    let store = shop.open();
    let total = i64::from(JOBS) * (3 + i64::from(POSITIONS));
    let watcher = tokio::spawn({
        let store = store.clone();
        async move {
            let mut last_seq = store.last_seq();
            let mut seen = Vec::new();
            while (seen.len() as i64) < total {
                let reach = *last_seq.borrow_and_update();
                loop {
                    let cursor = seen.last().copied().unwrap_or(0);
                    let page = store
                        .entries_after(cursor, None, 7)
                        .await
                        .expect("readable");
                    if cursor < reach {
                        assert!(!page.is_empty(), "what was announced can be read");
                    }
                    if page.is_empty() {
                        break;
                    }
                    seen.extend(page.iter().map(|e| e.entry.seq));
                }
                if (seen.len() as i64) < total {
                    last_seq.changed().await.expect("the store lives");
                }
            }
            seen
        }
    });
    let writers: Vec<_> = (0..JOBS)
        .map(|number| {
            let store = store.clone();
            tokio::spawn(async move {
                let id = format!("job-{number}");
                lay_out(&store, &id, POSITIONS.into()).await;
                for position in 1..=POSITIONS {
                    let receipt = store
                        .commit(order(&id, log_removal("drum", position)))
                        .await
                        .expect("it is written");
                    let read = store
                        .job(&job(&id))
                        .await
                        .expect("readable")
                        .expect("it exists");
                    assert!(
                        read.last >= receipt.job.last,
                        "one's own writing can be read"
                    );
                }
            })
        })
        .collect();
    for writer in writers {
        writer.await.expect("the writer ends");
    }
    let seen = watcher.await.expect("the watcher ends");
    assert_eq!(seen, (1..=total).collect::<Vec<_>>());
    store.stop().await;
}

#[tokio::test]
async fn jobs_that_do_not_fit_into_memory_are_folded_again() {
    let shop = Shop::new();
    let mut options = shop.options();
    options.cached_jobs = 1;
    let store = Store::open(options).expect("the journal opens");
    for id in ["a", "b"] {
        lay_out(&store, id, 3).await;
    }
    for position in 1..=3 {
        for id in ["a", "b"] {
            let receipt = store
                .commit(order(id, log_removal("drum", position)))
                .await
                .expect("it is written");
            let etag = receipt.job.joints[0].positions[usize::from(position) - 1].etag();
            let other = if id == "a" { "b" } else { "a" };
            store
                .job(&job(other))
                .await
                .expect("readable")
                .expect("it exists");
            let decided = store
                .commit(order(id, decide_on("drum", position, etag)))
                .await
                .expect("the etag is in force");
            assert_eq!(
                store.job(&job(id)).await.expect("readable").as_ref(),
                Some(&decided.job)
            );
        }
    }
    store
        .commit(order("a", add_joint("cover", 2)))
        .await
        .expect("it is written");
    store.stop().await;
}
