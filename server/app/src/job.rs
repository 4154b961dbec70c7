//! Jobs.

use super::{Call, Change, Error, names};
use clampbook_book::command::Command;
use clampbook_book::fact::JobOpened;
use clampbook_book::ids::{AssemblyId, JobId};
use clampbook_book::job::Job;
use clampbook_journal::{JobPage, JobsAfter};
use std::sync::Arc;

impl Call<'_> {
    /// Opens a job.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn open_job(&self, change: Change<JobOpened>) -> Result<Arc<Job>, Error> {
        Ok(self.write(change, Command::OpenJob).await?.job)
    }

    /// The job as it stands.
    ///
    /// # Errors
    /// Not found.
    pub async fn job(&self, id: &JobId) -> Result<Arc<Job>, Error> {
        self.find(id).await
    }

    /// Summaries of jobs, the last written first.
    ///
    /// # Errors
    /// When the journal cannot be read.
    pub async fn jobs(&self, after: Option<JobsAfter>, limit: u32) -> Result<JobPage, Error> {
        Ok(self.app.store.jobs(after, limit).await?)
    }

    pub(crate) async fn find(&self, id: &JobId) -> Result<Arc<Job>, Error> {
        let found = self.app.store.job(id).await?;
        found.ok_or_else(|| Error::not_found(names::job(id)))
    }

    /// The job as it stands, if it has the assembly.
    pub(crate) async fn find_with(
        &self,
        id: &JobId,
        assembly: Option<&AssemblyId>,
    ) -> Result<Arc<Job>, Error> {
        let job = self.find(id).await?;
        match assembly {
            Some(assembly) if job.assembly(assembly).is_none() => {
                Err(Error::not_found(names::assembly(id, assembly)))
            }
            _ => Ok(job),
        }
    }
}
