//! Watching the journal: pages after the reader's cursor, woken by every commit; nobody is buffered for and nobody dropped.

use super::{App, Caller, Error, Operation};
use clampbook_book::stream::Stream;
use clampbook_store::StoredEntry;
use std::future::Future;

/// Entries read at once while catching up.
const PAGE: u32 = 256;

impl App {
    /// Hands every entry after `after` to `deliver`, in order, as they are written, until the server stops or
    /// `deliver` says that nobody listens any more.
    ///
    /// # Errors
    /// Not ready, when the server stops; broken, when the journal cannot be read.
    pub async fn watch<D, F>(
        &self,
        caller: &Caller,
        stream: Option<Stream>,
        after: i64,
        mut deliver: D,
    ) -> Result<(), Error>
    where
        D: FnMut(StoredEntry) -> F,
        F: Future<Output = bool>,
    {
        caller.may(Operation::WatchEntries)?;
        let mut written = self.store.last_seq();
        let mut cursor = after;
        loop {
            let upto = *written.borrow_and_update();
            let page = self
                .store
                .entries_after(cursor, stream.clone(), PAGE)
                .await?;
            let more = page.len() == PAGE as usize;
            for stored in page {
                cursor = stored.seq;
                if !deliver(stored).await {
                    return Ok(());
                }
            }
            if more {
                continue;
            }
            cursor = cursor.max(upto);
            tokio::select! {
                () = self.stopping.cancelled() => return Err(Error::stopping()),
                changed = written.changed() => if changed.is_err() { return Err(Error::stopping()) },
            }
        }
    }
}
