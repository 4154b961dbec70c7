//! Writing to and reading from the record of jobs.

use super::{App, Caller, Error, Operation, blocking};
use clampbook_book::command::Command;
use clampbook_book::entry::Moment;
use clampbook_book::ids::{AssemblyId, EntryNumber, JobId, JointId, PositionNumber};
use clampbook_book::job::{Job, Joint};
use clampbook_book::rules::{self, Flag, Rule};
use clampbook_store::{JobPage, JobsAfter, Order, Receipt, StoredEntry};
use std::sync::Arc;
use uuid::Uuid;

/// A change somebody wants written, with what makes it safe to send again.
#[derive(Debug)]
pub(crate) struct Change {
    /// Job it is about.
    pub(crate) job: JobId,
    /// What is wanted.
    pub(crate) command: Command,
    /// The caller's id for it; the server makes one when there is none.
    pub(crate) request: Option<Uuid>,
    /// Hash of the request's content.
    pub(crate) fingerprint: [u8; 32],
    /// When it was said, if earlier than now.
    pub(crate) said: Option<Moment>,
}

impl App {
    /// Writes a change.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub(crate) async fn write(
        &self,
        caller: &Caller,
        operation: Operation,
        change: Change,
    ) -> Result<Receipt, Error> {
        caller.may(operation)?;
        let receipt = self
            .store
            .commit(Order {
                job: change.job,
                request: change.request.unwrap_or_else(Uuid::now_v7),
                fingerprint: change.fingerprint,
                caller: caller.who.clone(),
                said: change.said,
                command: change.command,
            })
            .await?;
        Ok(receipt)
    }

    /// Judges a change without writing it.
    ///
    /// # Errors
    /// Every refusal of the book.
    pub(crate) async fn check(
        &self,
        caller: &Caller,
        operation: Operation,
        change: &Change,
    ) -> Result<usize, Error> {
        caller.may(operation)?;
        let job = self.find(&change.job).await?;
        let now = self.now();
        let context = clampbook_book::decide::Context {
            now,
            said: change.said.unwrap_or(now),
            catalogue: &self.catalogue,
        };
        Ok(clampbook_book::decide::decide(&job, &change.command, &context)?.len())
    }

    /// The job as it stands.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn job(
        &self,
        caller: &Caller,
        operation: Operation,
        id: &JobId,
    ) -> Result<Arc<Job>, Error> {
        caller.may(operation)?;
        self.find(id).await
    }

    pub(super) async fn find(&self, id: &JobId) -> Result<Arc<Job>, Error> {
        self.store
            .job(id)
            .await?
            .ok_or_else(|| Error::not_found(format!("jobs/{id}")))
    }

    /// Summaries of jobs, the last written first.
    ///
    /// # Errors
    /// When the journal cannot be read.
    pub(crate) async fn jobs(
        &self,
        caller: &Caller,
        after: Option<JobsAfter>,
        limit: u32,
    ) -> Result<JobPage, Error> {
        caller.may(Operation::ListJobs)?;
        Ok(self.store.jobs(after, limit).await?)
    }

    /// Entries of a job after a number, oldest first.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn entries(
        &self,
        caller: &Caller,
        id: &JobId,
        after: EntryNumber,
        limit: u32,
    ) -> Result<Vec<StoredEntry>, Error> {
        caller.may(Operation::ListEntries)?;
        self.find(id).await?;
        Ok(self.store.entries(id, after, limit).await?)
    }

    /// Open flags of a whole job.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn flags(&self, caller: &Caller, id: &JobId) -> Result<Vec<Flag>, Error> {
        caller.may(Operation::ListFlags)?;
        let job = self.find(id).await?;
        let catalogue = Arc::clone(&self.catalogue);
        blocking(move || rules::flags(&job, &catalogue)).await
    }

    /// Open flags of one joint.
    pub(crate) fn joint_flags(&self, joint: &Joint) -> Vec<Flag> {
        rules::joint_flags(joint, &self.catalogue)
    }

    /// Open flags of one position and of its whole joint.
    pub(crate) fn position_flags(&self, joint: &Joint, position: PositionNumber) -> Vec<Flag> {
        rules::position_flags(joint, position, &self.catalogue)
    }

    /// Open flags on whole assemblies.
    pub(crate) fn assembly_flags(&self, job: &Job) -> Vec<Flag> {
        rules::assembly_flags(job)
    }

    /// Open flags on an assembly as a whole and on its other side.
    pub(crate) fn flags_around(&self, job: &Job, assembly: &AssemblyId) -> Vec<Flag> {
        rules::flags_around(job, assembly)
    }

    /// The rules that raise flags.
    ///
    /// # Errors
    /// When the caller may not read them.
    pub(crate) fn rules(&self, caller: &Caller) -> Result<&'static [&'static Rule], Error> {
        caller.may(Operation::ListRules)?;
        Ok(&rules::ALL)
    }

    /// One rule.
    ///
    /// # Errors
    /// Not found.
    pub(crate) fn rule(&self, caller: &Caller, id: &str) -> Result<&'static Rule, Error> {
        caller.may(Operation::GetRule)?;
        rules::rule(id).ok_or_else(|| Error::not_found(format!("rules/{id}")))
    }
}

/// A joint of a job.
///
/// # Errors
/// Not found.
pub(crate) fn joint_of<'j>(job: &'j Job, id: &JointId) -> Result<&'j Joint, Error> {
    job.joint(id)
        .ok_or_else(|| Error::not_found(format!("jobs/{}/joints/{id}", job.id)))
}
