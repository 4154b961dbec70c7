//! Entries of the journal: by pages, and as they are written. Nobody is buffered for and nobody dropped.

use super::{App, Call, Error};
use clampbook_book::ids::EntryNumber;
use clampbook_book::stream::Stream;
use clampbook_journal::StoredEntry;
use std::future::Future;
use std::pin::pin;

/// Entries read at once while catching up.
const PAGE: u32 = 256;

/// Somebody who watches the journal.
pub struct Watch {
    app: App,
    stream: Option<Stream>,
    after: i64,
}

impl Call<'_> {
    /// Entries of a job or of the shop after a number, oldest first.
    ///
    /// # Errors
    /// Not found.
    pub async fn entries(
        &self,
        stream: Stream,
        after: EntryNumber,
        limit: u32,
    ) -> Result<Vec<StoredEntry>, Error> {
        self.exists(&stream).await?;
        Ok(self.app.store.entries(stream, after, limit).await?)
    }

    /// Watches a job, the shop, or all there is, from after a place in the journal.
    ///
    /// # Errors
    /// Not found.
    pub async fn watch(&self, stream: Option<Stream>, after: i64) -> Result<Watch, Error> {
        if let Some(stream) = &stream {
            self.exists(stream).await?;
        }
        Ok(Watch {
            app: self.app.clone(),
            stream,
            after,
        })
    }

    /// Whether there is such a job; the shop is always there.
    async fn exists(&self, stream: &Stream) -> Result<(), Error> {
        match stream {
            Stream::Job(id) => self.find(id).await.map(drop),
            Stream::Shop => Ok(()),
        }
    }
}

impl Watch {
    /// Hands every entry to `deliver`, in order, as they are written, until the service stops or nobody listens any more:
    /// `deliver` says so, or `gone` comes. Reads pages after the reader's place, woken by commits that concern it.
    ///
    /// # Errors
    /// Not ready, when the service stops; broken, when the journal cannot be read.
    pub async fn run<D, F>(
        self,
        mut deliver: D,
        gone: impl Future<Output = ()>,
    ) -> Result<(), Error>
    where
        D: FnMut(StoredEntry) -> F,
        F: Future<Output = bool>,
    {
        let mut gone = pin!(gone);
        let Self { app, stream, after } = self;
        let mut written = app.store.last_seq(stream.as_ref());
        let mut cursor = after;
        loop {
            let upto = *written.borrow_and_update();
            let page = app.store.entries_after(cursor, stream.clone(), PAGE);
            let page = page.await?;
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
                () = &mut gone => return Ok(()),
                () = app.stopping.cancelled() => return Err(Error::stopping()),
                changed = written.changed() => if changed.is_err() { return Err(Error::stopping()) },
            }
        }
    }
}
