//! Contents that entries name: there with the entry or not at all, each once, and looked at.

use crate::support::{
    Gate, Shop, give, is_writer, job, lay_out, let_all_queue_up, log_removal, open_job, order,
    tamper_with,
};
use clampbook_book::command::{Command, Correction, PhotoDescribed, Restated};
use clampbook_book::fact::{PhotoAdded, PhotoOf};
use clampbook_book::ids::AssemblyId;
use clampbook_book::job::etag;
use clampbook_book::words::MediaType;
use clampbook_journal::{Blob, CommitError, Order, ReadError, Store};
use std::fs;
use std::sync::{Arc, Mutex, OnceLock};
use tokio::sync::watch::Receiver;

/// The store does not ask what a content is; the book's hash of it is what counts.
fn content(number: u8) -> Arc<[u8]> {
    vec![number; 10_000].into()
}

pub(crate) fn photo(job_id: &str, of: PhotoOf, number: u8) -> Order {
    let blob = Blob::new(content(number));
    let added = PhotoAdded {
        of,
        hash: blob.hash(),
        size_bytes: 10_000,
        media_type: MediaType::Png,
        caption: String::new(),
    };
    Order {
        blob: Some(blob),
        ..order(job_id, Command::AddPhoto(added))
    }
}

pub(crate) fn kept(shop: &Shop) -> i64 {
    let conn = shop.outsider();
    conn.query_row("SELECT count(*) FROM blobs", [], |row| row.get(0))
        .expect("a count")
}

pub(crate) async fn holds(store: &Store, number: u8) -> bool {
    let hash = Blob::new(content(number)).hash();
    let found = store.blob(hash).await.expect("it can be read");
    assert!(
        found
            .as_ref()
            .is_none_or(|found| **found == *content(number))
    );
    found.is_some()
}

#[tokio::test]
async fn a_content_is_kept_with_its_entry_once_and_outlives_a_restart() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    let first = photo("hub", PhotoOf::Job, 1);
    for order in [
        first.clone(),
        photo("hub", PhotoOf::Job, 1),
        photo("hub", PhotoOf::Job, 2),
    ] {
        store.commit(order).await.expect("it is written");
    }
    let again = store.commit(first).await.expect("the first answer");
    assert!(again.replayed);
    assert_eq!(kept(&shop), 2);
    store.stop().await;
    let store = shop.open();
    assert!(holds(&store, 1).await && holds(&store, 2).await && !holds(&store, 3).await);
    let hub = store
        .job(&job("hub"))
        .await
        .expect("readable")
        .expect("it is there");
    assert_eq!(hub.photos.len(), 3);
    store.stop().await;
}

#[tokio::test]
async fn other_words_about_a_photo_outlive_a_restart_and_bring_no_content() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    let added = store.commit(photo("hub", PhotoOf::Job, 1)).await;
    let entry = added.expect("it is written").entries[0].entry.number;
    let described = PhotoDescribed {
        of: Some(PhotoOf::Assembly(
            AssemblyId::new("left-hub").expect("a slug"),
        )),
        caption: "seen from below".into(),
    };
    let correction = Correction {
        entry,
        with: Some(Restated::Photo(described)),
        reason: "it was another".into(),
        etag: etag(entry),
    };
    let command = Command::Correct(correction);
    let corrected = store.commit(order("hub", command)).await;
    let stands = corrected.expect("it is written").job.expect("the job");
    let said = &stands.photos.get(entry).expect("it stands").fact;
    assert_eq!(said.caption, "seen from below");
    assert_eq!(said.hash, Blob::new(content(1)).hash());
    store.stop().await;
    let store = shop.open();
    let again = store.job(&job("hub")).await.expect("readable");
    assert_eq!(again.expect("it is there"), stands);
    assert_eq!(kept(&shop), 1);
    let found = store.verify().await.expect("readable");
    assert_eq!(found.first_break, None);
    store.stop().await;
}

#[tokio::test]
async fn what_is_refused_leaves_no_content() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    let nowhere = PhotoOf::Assembly(AssemblyId::new("cellar").expect("a slug"));
    let refused = store.commit(photo("hub", nowhere, 1)).await;
    assert!(
        matches!(refused, Err(CommitError::Refused(_))),
        "{refused:?}"
    );
    let ghost = store.commit(photo("ghost", PhotoOf::Job, 1)).await;
    assert!(matches!(ghost, Err(CommitError::Refused(_))), "{ghost:?}");
    let removal = order("hub", log_removal("drum", 1));
    let reused = Order {
        request: removal.request,
        ..photo("hub", PhotoOf::Job, 1)
    };
    store.commit(removal).await.expect("it is written");
    assert_eq!(
        store.commit(reused).await.err(),
        Some(CommitError::RequestReused)
    );
    assert_eq!(kept(&shop), 0);
    store.stop().await;
}

#[tokio::test]
async fn photos_that_come_together_with_others_are_all_answered() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 20).await;
    let orders = (1..=20_u8).map(|number| match number % 3 {
        0 => photo("hub", PhotoOf::Job, number),
        _ => order("hub", log_removal("drum", number.into())),
    });
    let waiting: Vec<_> = orders.map(|order| give(&store, order)).collect();
    for answer in waiting {
        answer.await.expect("the task ends").expect("it is written");
    }
    assert_eq!(kept(&shop), 6);
    store.stop().await;
}

#[tokio::test]
async fn a_content_changed_behind_our_back_is_neither_given_out_nor_called_whole() {
    let shop = Shop::new();
    let store = shop.open();
    lay_out(&store, "hub", 1).await;
    for number in [1, 2] {
        store
            .commit(photo("hub", PhotoOf::Job, number))
            .await
            .expect("it is written");
    }
    store.stop().await;
    let original = fs::read(shop.path()).expect("the file");
    let cut = "UPDATE blobs SET bytes = substr(bytes, 2) WHERE key = 2";
    tamper_with(&shop.outsider(), cut);
    let store = shop.open();
    assert!(holds(&store, 1).await);
    let hash = Blob::new(content(2)).hash();
    let changed = store.blob(hash).await;
    assert!(
        matches!(changed, Err(ReadError::Damaged { .. })),
        "{changed:?}"
    );
    let found = store.verify().await.expect("readable");
    let broken = found.first_break.expect("it is found");
    assert_eq!((found.entries, found.head.seq, broken.seq), (4, 4, 5));
    assert!(broken.what.contains("is not what was written"), "{broken}");
    store.stop().await;
    fs::write(shop.path(), original).expect("the file can be put back");
}

#[tokio::test]
async fn a_journal_from_before_there_were_contents_takes_them_and_a_copy_of_it_is_kept() {
    let shop = Shop::of_schema(1);
    let before: [u8; 32] = shop
        .outsider()
        .query_row(
            "SELECT hash FROM entries ORDER BY seq DESC LIMIT 1",
            [],
            |row| row.get(0),
        )
        .expect("an entry");
    let store = shop.open();
    assert_eq!(store.head().await.expect("readable").hash, before);
    store
        .commit(photo("orchard-tractor", PhotoOf::Job, 1))
        .await
        .expect("it is written");
    store.stop().await;
    let names = fs::read_dir(shop.folder()).expect("the folder");
    let copies = names.filter(|name| {
        let name = name.as_ref().expect("a name").file_name();
        name.to_string_lossy().contains(".schema-1-")
    });
    assert_eq!(copies.count(), 1);
}

#[tokio::test]
async fn a_content_ends_its_group() {
    let shop = Shop::new();
    let gate = Gate::default();
    // How far the journal reached when the writer took each order: the same within a group.
    let reached = Arc::new(Mutex::new(Vec::new()));
    let last_seq = Arc::new(OnceLock::new());
    let mut options = shop.options();
    options.clock = {
        let (clock, reached, last_seq) = (options.clock, reached.clone(), last_seq.clone());
        gate.before(Arc::new(move || {
            if is_writer()
                && let Some(seq) = last_seq.get().map(|watch: &Receiver<i64>| *watch.borrow())
            {
                reached.lock().expect("nobody panicked").push(seq);
            }
            clock()
        }))
    };
    let store = Store::open(options).expect("the journal opens");
    lay_out(&store, "hub", 4).await;
    last_seq.set(store.last_seq(None)).expect("it is set once");

    for with_content in [true, false] {
        gate.shut();
        let opener = log_removal("drum", if with_content { 1 } else { 3 });
        let mut waiting = vec![give(&store, order("hub", opener))];
        gate.reached().await;
        let middle = match with_content {
            true => photo("hub", PhotoOf::Job, 1),
            false => order("hub", log_removal("drum", 4)),
        };
        let last = order("other", open_job());
        for order in [middle, last] {
            waiting.push(give(&store, order));
        }
        let_all_queue_up().await;
        gate.open();
        for answer in waiting {
            let _ = answer.await.expect("the task ends");
        }
        let reached = std::mem::take(&mut *reached.lock().expect("nobody panicked"));
        let before = reached[0];
        let expected = match with_content {
            true => [before, before + 1, before + 2],
            false => [before, before + 1, before + 1],
        };
        assert_eq!(reached, expected);
    }
    store.stop().await;
}
