//! The history of a position, read from the journal from the job's first entry on.

use super::joint::joint_of;
use super::{Call, Error, names};
use clampbook_book::history::{About, History};
use clampbook_book::ids::{EntryNumber, JobId, JointId, PositionNumber};
use clampbook_book::stream::Stream;
use clampbook_journal::StoredEntry;

/// Entries read at once.
const PAGE: u32 = 1_000;

impl Call<'_> {
    /// Up to `limit` entries about a position with numbers after `after`, oldest first.
    ///
    /// # Errors
    /// Not found.
    pub async fn position_history(
        &self,
        (job, joint, position): (&JobId, &JointId, PositionNumber),
        after: EntryNumber,
        limit: usize,
    ) -> Result<Vec<(StoredEntry, About)>, Error> {
        let known = self.find(job).await?;
        if joint_of(&known, joint)?.position(position).is_none() {
            return Err(Error::not_found(format!(
                "{} position {position}",
                names::joint(job, joint)
            )));
        }
        let mut history = History::of(joint.clone(), position);
        let mut found = Vec::new();
        let mut last = 0;
        loop {
            let stream = Stream::Job(job.clone());
            let page = self.app.store.entries(stream, last, PAGE).await?;
            let Some(end) = page.last() else {
                return Ok(found);
            };
            last = end.entry.number;
            for stored in page {
                let about = history.follow(&stored.entry);
                let about = about.filter(|_| stored.entry.number > after);
                found.extend(about.map(|about| (stored, about)));
                if found.len() == limit {
                    return Ok(found);
                }
            }
        }
    }
}
