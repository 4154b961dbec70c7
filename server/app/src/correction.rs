//! Corrections of entries.

use super::{Call, Change, Error};
use clampbook_book::command::{Command, Correction};
use clampbook_book::ids::JobId;
use clampbook_book::job::etag;
use clampbook_book::rules::{self, Flag};
use clampbook_journal::StoredEntry;

/// An entry that was corrected.
#[derive(Clone, Debug)]
pub struct CorrectedEntry {
    /// Its job.
    pub job: JobId,
    /// The entry that corrects it.
    pub entry: StoredEntry,
    /// Open flags of the joint that was touched and around it, or those that follow from the whole job.
    pub flags: Vec<Flag>,
    /// Etag of the job.
    pub etag: String,
}

impl Call<'_> {
    /// Corrects an entry of a job.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn correct_entry(&self, change: Change<Correction>) -> Result<CorrectedEntry, Error> {
        let written = self.write(change, Command::Correct).await?;
        let entry = written.first()?.clone();
        let (job, world) = (&written.job, self.world());
        let number = entry.entry.number;
        let touched = job.joints.iter().find(|joint| joint.touched == number);
        let flags = match touched {
            Some(joint) => {
                let mut flags =
                    rules::joint_flags(joint, &world.asked(), written.job.torque_unit());
                flags.extend(rules::flags_around(
                    job,
                    &joint.fact.assembly,
                    &world.asked(),
                ));
                flags
            }
            None => rules::job_flags(job, &world.asked()),
        };
        Ok(CorrectedEntry {
            job: job.id.clone(),
            etag: etag(number),
            entry,
            flags,
        })
    }
}
