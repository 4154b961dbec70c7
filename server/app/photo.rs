//! Photos: written with the entry that names them, read back as they were.

use super::job::{Change, Recorded};
use super::{App, Caller, Error, Operation};
use clampbook_book::fact::Fact;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::stream::Stream;
use clampbook_store::{Blob, StoredEntry};
use std::sync::Arc;

/// A photo as it was added, and its content.
#[derive(Debug)]
pub(crate) struct Kept {
    /// The entry that added it.
    pub(crate) entry: StoredEntry,
    /// Its content.
    pub(crate) content: Arc<[u8]>,
}

impl App {
    /// Adds a photo with its content.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub(crate) async fn add_photo(
        &self,
        caller: &Caller,
        change: Change,
        content: Blob,
    ) -> Result<Recorded, Error> {
        self.write_with(caller, Operation::AddPhoto, change, Some(content))
            .await
    }

    /// The photo that an entry added, withdrawn since or not.
    ///
    /// # Errors
    /// Not found; broken, when its content is not what was written.
    pub(crate) async fn photo(
        &self,
        caller: &Caller,
        job: &JobId,
        entry: EntryNumber,
    ) -> Result<Kept, Error> {
        caller.may(Operation::GetPhoto)?;
        let missing = || Error::not_found(format!("jobs/{job}/entries/{entry}, as a photo,"));
        let Some(before) = entry.checked_sub(1) else {
            return Err(missing());
        };
        let stream = Stream::Job(job.clone());
        self.exists(&stream).await?;
        let found = self.store.entries(stream, before, 1).await?;
        let entry = found.into_iter().next().ok_or_else(missing)?;
        let Fact::PhotoAdded(added) = &entry.entry.fact else {
            return Err(missing());
        };
        let hash = added.hash;
        let content = self.store.blob(hash).await?;
        let content =
            content.ok_or_else(|| Error::broken(&format!("content {hash} is missing")))?;
        Ok(Kept { entry, content })
    }

    /// Hashes a content, away from the async threads.
    ///
    /// # Errors
    /// Broken.
    pub(crate) async fn hashed(&self, content: Vec<u8>) -> Result<Blob, Error> {
        super::blocking(move || Blob::new(content.into())).await
    }
}
