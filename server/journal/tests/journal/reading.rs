//! Reading: pages of entries, states of jobs, and the number that wakes those who watch.

use crate::support::{
    Shop, add_joint, after, create_paste, decide_on, job, lay_out, log_alike, log_removal, of,
    order, shop_order,
};
use clampbook_book::stream::Stream;
use clampbook_journal::Store;

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
    let numbers = |entries: Vec<clampbook_journal::StoredEntry>| {
        entries
            .iter()
            .map(|e| (e.entry.stream.to_string(), e.entry.number, e.seq))
            .collect::<Vec<_>>()
    };
    let hub = |n, seq| ("jobs/hub".to_owned(), n, seq);
    let found = store.entries(of("hub"), 2, 3).await.expect("readable");
    assert_eq!(numbers(found), [hub(3, 3), hub(4, 7), hub(5, 8)]);
    let found = store
        .entries_after(3, Some(of("hub")), 2)
        .await
        .expect("readable");
    assert_eq!(numbers(found), [hub(4, 7), hub(5, 8)]);
    let found = store.entries_after(5, None, 2).await.expect("readable");
    assert_eq!(numbers(found), [("jobs/axle".to_owned(), 3, 6), hub(4, 7)]);
    for nothing in [
        store.entries(of("hub"), 7, 10).await,
        store.entries(of("ghost"), 0, 10).await,
        store.entries_after(10, None, 10).await,
        store.entries_after(0, Some(of("ghost")), 10).await,
        store.entries_after(0, None, 0).await,
    ] {
        assert_eq!(nothing.expect("readable"), []);
    }
    store.stop().await;
}

/// Three streams are written in turns, a few entries a page, and the file is opened again in the middle.
#[tokio::test]
async fn going_on_from_the_last_entry_read_loses_none_over_many_pages() {
    let shop = Shop::new();
    let mut store = shop.open();
    for id in ["hub", "axle"] {
        lay_out(&store, id, 9).await;
    }
    for position in 1..=9 {
        for id in ["hub", "axle"] {
            let removal = order(id, log_removal("drum", position));
            store.commit(removal).await.expect("it is written");
        }
        let paste = create_paste(&format!("paste-{position}"), 0.13);
        store
            .commit(shop_order(paste))
            .await
            .expect("it is written");
    }
    let streams = [
        (None, 33),
        (Some(of("hub")), 12),
        (Some(of("axle")), 12),
        (Some(Stream::Shop), 9),
    ];
    for (stream, count) in streams {
        let whole = store.entries_after(0, stream.clone(), 100).await;
        let whole: Vec<i64> = whole.expect("readable").iter().map(|e| e.seq).collect();
        assert_eq!(whole.len(), count, "{stream:?}");
        for limit in [1, 2, 3, 4, 5] {
            let (mut seen, mut pages) = (Vec::new(), 0);
            loop {
                let cursor = seen.last().copied().unwrap_or(0);
                let page = store.entries_after(cursor, stream.clone(), limit).await;
                let page = page.expect("readable");
                if page.is_empty() {
                    break;
                }
                seen.extend(page.iter().map(|e| e.seq));
                pages += 1;
                if limit == 3 && pages == 2 {
                    store.stop().await;
                    store = shop.open();
                }
            }
            assert!(limit > 4 || pages > 2, "{pages} pages");
            assert_eq!(seen, whole, "{stream:?} by {limit}");
            let Some(stream) = &stream else { continue };
            let mut numbers = Vec::new();
            while numbers.len() < count {
                let after = numbers.last().copied().unwrap_or(0);
                let page = store.entries(stream.clone(), after, limit).await;
                let page = page.expect("readable");
                assert!(!page.is_empty(), "{stream} ends after {after}");
                numbers.extend(page.iter().map(|e| e.entry.number));
            }
            assert!(numbers.iter().copied().eq(1..=count as u32), "{numbers:?}");
        }
    }
    store.stop().await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn whoever_watches_sees_every_entry_in_order() {
    const JOBS: u16 = 4;
    const POSITIONS: u16 = 25;
    let shop = Shop::new();
    let mut options = shop.options();
    // So few that those who read fold jobs all the time while they are written.
    options.cached_jobs = 2;
    let store = Store::open(options).expect("the journal opens");
    let total = i64::from(JOBS) * (3 + i64::from(POSITIONS));
    let watcher = tokio::spawn({
        let store = store.clone();
        async move {
            let mut last_seq = store.last_seq(None);
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
                    seen.extend(page.iter().map(|e| e.seq));
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
                        read.last >= after(&receipt).last,
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
            let etag = after(&receipt).joints[0].positions[usize::from(position) - 1].etag();
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
                Some(after(&decided))
            );
        }
    }
    store
        .commit(order("a", add_joint("cover", 2)))
        .await
        .expect("it is written");
    store.stop().await;
}

#[tokio::test]
async fn those_who_wait_are_woken_by_what_concerns_them() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 4).await;
    lay_out(&store, "axle", 4).await;
    let mut hub = store.last_seq(Some(&of("hub")));
    let mut all = store.last_seq(None);
    assert_eq!((*hub.borrow(), *all.borrow()), (6, 6));
    let removal = order("axle", log_removal("drum", 1));
    store.commit(removal).await.expect("it is written");
    assert!(!hub.has_changed().expect("it runs"), "another job's");
    assert!(all.has_changed().expect("it runs"));
    let removal = order("hub", log_removal("drum", 1));
    store.commit(removal).await.expect("it is written");
    hub.changed().await.expect("it runs");
    all.changed().await.expect("it runs");
    assert_eq!((*hub.borrow(), *all.borrow()), (8, 8));
    store.stop().await;
}
