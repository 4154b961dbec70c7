//! Photos: written with the entry that names them, read back as they were.

use super::{Call, Change, Error, Recorded, names};
use clampbook_book::command::Command;
use clampbook_book::entry::Said;
use clampbook_book::fact::{Fact, PhotoAdded};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::stream::Stream;
use clampbook_journal::Blob;
use std::sync::Arc;

/// A photo and its content.
#[derive(Debug)]
pub struct KeptPhoto {
    /// Who added it or last said what it shows, and when.
    pub said: Said,
    /// What is said of it.
    pub photo: PhotoAdded,
    /// Its content.
    pub content: Arc<[u8]>,
}

impl Call<'_> {
    /// Adds a photo with its content.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn add_photo(
        &self,
        change: Change<PhotoAdded>,
        content: Blob,
    ) -> Result<Recorded<PhotoAdded>, Error> {
        let written = self.write_with(change, Command::AddPhoto, Some(content));
        written.await?.only()
    }

    /// The photo that an entry added, as it now stands; one that was withdrawn, as it was added.
    ///
    /// # Errors
    /// Not found; broken, when its content is not what was written.
    pub async fn photo(&self, job: &JobId, entry: EntryNumber) -> Result<KeptPhoto, Error> {
        let (said, photo) = match self.find(job).await?.photos.get(entry) {
            Some(there) => (there.said.clone(), there.fact.clone()),
            None => self.photo_as_added(job, entry).await?,
        };
        let content = self.app.store.blob(photo.hash).await?;
        let content =
            content.ok_or_else(|| Error::broken(&format!("content {} is missing", photo.hash)))?;
        Ok(KeptPhoto {
            said,
            photo,
            content,
        })
    }

    async fn photo_as_added(
        &self,
        job: &JobId,
        entry: EntryNumber,
    ) -> Result<(Said, PhotoAdded), Error> {
        let missing = || Error::not_found(format!("{}, as a photo,", names::entry(job, entry)));
        let Some(before) = entry.checked_sub(1) else {
            return Err(missing());
        };
        let stream = Stream::Job(job.clone());
        let found = self.app.store.entries(stream, before, 1).await?;
        let entry = found.into_iter().next().ok_or_else(missing)?.entry;
        match &entry.fact {
            Fact::PhotoAdded(added) => Ok((entry.said.clone(), added.clone())),
            _ => Err(missing()),
        }
    }

    /// Hashes a content, away from the async threads.
    ///
    /// # Errors
    /// Broken.
    pub async fn hashed(&self, content: Vec<u8>) -> Result<Blob, Error> {
        super::blocking(move || Blob::new(content.into())).await
    }
}
