//! Entries of the journal, and the watch.

use crate::Validator;
use crate::page::{Sizes, token};
use crate::request::{self, hex};
use crate::status::status;
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, StoredEntry, names};
use clampbook_book::ids::EntryNumber;
use clampbook_book::spoken;
use tokio::sync::mpsc;
use tokio_stream::wrappers::ReceiverStream;
use tonic::Status;

pub(crate) const ENTRIES: Sizes = Sizes {
    default: 100,
    most: 1_000,
};

/// Entries on their way to a watcher; it fetches more from the journal when it has taken these.
const UNDER_WAY: usize = 16;

/// Entries as they are written.
pub(crate) type Watched = ReceiverStream<Result<wire::Entry, Status>>;

/// Entries of a job or of the shop.
pub(crate) async fn list(
    call: Call<'_>,
    request: wire::ListEntriesRequest,
) -> Result<wire::ListEntriesResponse, Error> {
    let mut check = Validator::default();
    let stream = check.stream_name("parent", &request.parent);
    let list = format!("ListEntries {}", request.parent);
    let page =
        check.numbered_page::<EntryNumber>(&list, request.page_size, &request.page_token, ENTRIES);
    let (stream, (size, after)) = check.finish(stream.zip(page))?;
    let limit = u32::try_from(size).unwrap_or(u32::MAX - 1) + 1;
    let mut found = call.entries(stream, after.unwrap_or(0), limit).await?;
    let more = found.len() > size;
    found.truncate(size);
    let next = found.last().filter(|_| more);
    Ok(wire::ListEntriesResponse {
        next_page_token: next
            .map(|last| token(&list, &last.entry.number.to_string()))
            .unwrap_or_default(),
        entries: found.iter().map(entry).collect(),
    })
}

/// Entries as they are written.
pub(crate) async fn watch(
    call: Call<'_>,
    request: wire::WatchEntriesRequest,
) -> Result<Watched, Error> {
    let mut check = Validator::default();
    let stream = if request.parent.is_empty() {
        None
    } else {
        check.stream_name("parent", &request.parent)
    };
    if request.after_sequence < 0 {
        check.wrong("after_sequence", "is negative; allowed are 0 and above");
    }
    check.finish(Some(()))?;
    let watch = call.watch(stream, request.after_sequence).await?;
    let (sender, receiver) = mpsc::channel(UNDER_WAY);
    tokio::spawn(async move {
        let sending = &sender;
        let deliver = |stored| async move { sending.send(Ok(entry(&stored))).await.is_ok() };
        // Without this, somebody who hung up while nothing is written would be waited for until the server stops.
        let gone = sender.closed();
        if let Err(error) = watch.run(deliver, gone).await {
            // Nobody listens when this fails, which ends the watch as well.
            let _ = sender.send(Err(status(&error))).await;
        }
    });
    Ok(ReceiverStream::new(receiver))
}

/// An entry of the journal.
pub(crate) fn entry(stored: &StoredEntry) -> wire::Entry {
    let entry = &stored.entry;
    wire::Entry {
        name: names::entry_of(&entry.stream, entry.number),
        sequence: stored.seq,
        kind: entry.fact.kind().into(),
        body: stored.body.to_string(),
        said: Some(request::said(&entry.said)),
        request_id: stored.request.to_string(),
        hash: hex(&stored.hash),
        text: spoken::fact(&entry.fact),
    }
}
