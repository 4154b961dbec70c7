//! Writing to and reading from the record of jobs.

use super::{App, Caller, Error, Operation, blocking};
use clampbook_book::command::Command;
use clampbook_book::entry::Moment;
use clampbook_book::ids::{AssemblyId, EntryNumber, JobId, JointId, PositionNumber};
use clampbook_book::job::{Job, Joint};
use clampbook_book::rules::{self, Flag, Rule};
use clampbook_book::stream::Stream;
use clampbook_store::{Blob, JobPage, JobsAfter, Order, Receipt, StoredEntry, Work};
use std::sync::Arc;
use uuid::Uuid;

/// A change of a job that somebody wants written.
#[derive(Debug)]
pub(crate) struct Change {
    /// Job it is about.
    pub(crate) job: JobId,
    /// What is wanted.
    pub(crate) command: Command,
    /// How it was sent.
    pub(crate) sending: Sending,
}

/// How a change was sent, which makes it safe to send again.
#[derive(Debug)]
pub(crate) struct Sending {
    /// The caller's id for it; the server makes one when there is none.
    pub(crate) request: Option<Uuid>,
    /// Hash of the request's content.
    pub(crate) fingerprint: [u8; 32],
    /// When it was said, if earlier than now.
    pub(crate) said: Option<Moment>,
}

/// What was written about a job.
#[derive(Debug)]
pub(crate) struct Recorded {
    /// The entries.
    pub(crate) entries: Vec<StoredEntry>,
    /// The job after them.
    pub(crate) job: Arc<Job>,
}

impl App {
    /// Writes a change of a job.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub(crate) async fn write(
        &self,
        caller: &Caller,
        operation: Operation,
        change: Change,
    ) -> Result<Recorded, Error> {
        self.write_with(caller, operation, change, None).await
    }

    /// Writes a change of a job together with a content that it names.
    pub(super) async fn write_with(
        &self,
        caller: &Caller,
        operation: Operation,
        change: Change,
        blob: Option<Blob>,
    ) -> Result<Recorded, Error> {
        let work = Work::Job(change.job, change.command);
        let receipt = self
            .order(caller, operation, work, change.sending, blob)
            .await?;
        let job = receipt
            .job
            .ok_or_else(|| Error::broken(&"a job's request was answered without its job"))?;
        Ok(Recorded {
            entries: receipt.entries,
            job,
        })
    }

    /// Gives the store an order.
    pub(super) async fn order(
        &self,
        caller: &Caller,
        operation: Operation,
        work: Work,
        sending: Sending,
        blob: Option<Blob>,
    ) -> Result<Receipt, Error> {
        caller.may(operation)?;
        let order = Order {
            work,
            request: sending.request.unwrap_or_else(Uuid::now_v7),
            fingerprint: sending.fingerprint,
            caller: caller.who.clone(),
            said: sending.said,
            blob,
        };
        Ok(self.store.commit(order).await?)
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
            said: change.sending.said.unwrap_or(now),
            shop: &self.store.shop(),
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

    /// Whether there is such a job; the shop is always there.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn exists(&self, stream: &Stream) -> Result<(), Error> {
        match stream {
            Stream::Job(id) => self.find(id).await.map(drop),
            Stream::Shop => Ok(()),
        }
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

    /// Entries of a job or of the shop after a number, oldest first.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn entries(
        &self,
        caller: &Caller,
        stream: Stream,
        after: EntryNumber,
        limit: u32,
    ) -> Result<Vec<StoredEntry>, Error> {
        caller.may(Operation::ListEntries)?;
        self.exists(&stream).await?;
        Ok(self.store.entries(stream, after, limit).await?)
    }

    /// Open flags of a whole job.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn flags(&self, caller: &Caller, id: &JobId) -> Result<Vec<Flag>, Error> {
        caller.may(Operation::ListFlags)?;
        let job = self.find(id).await?;
        let shop = self.store.shop();
        blocking(move || rules::flags(&job, &shop)).await
    }

    /// Open flags of one joint.
    pub(crate) fn joint_flags(&self, job: &Job, joint: &Joint) -> Vec<Flag> {
        rules::joint_flags(joint, &self.store.shop(), job.torque_unit())
    }

    /// Open flags of one position and of its whole joint.
    pub(crate) fn position_flags(
        &self,
        job: &Job,
        joint: &Joint,
        position: PositionNumber,
    ) -> Vec<Flag> {
        rules::position_flags(joint, position, &self.store.shop(), job.torque_unit())
    }

    /// Open flags of one position, of its whole joint, and those that follow from the whole job there.
    pub(crate) fn flags_at(&self, job: &Job, joint: &Joint, position: PositionNumber) -> Vec<Flag> {
        rules::flags_at(job, joint, position, &self.store.shop())
    }

    /// Open flags that follow from the whole job: on assemblies, and on joints that wait for parts.
    pub(crate) fn job_flags(&self, job: &Job) -> Vec<Flag> {
        rules::job_flags(job, &self.store.shop())
    }

    /// Open flags on an assembly as a whole and on its other side.
    pub(crate) fn flags_around(&self, job: &Job, assembly: &AssemblyId) -> Vec<Flag> {
        rules::flags_around(job, assembly, &self.store.shop())
    }

    /// The rules that raise flags.
    ///
    /// # Errors
    /// When the caller may not read them.
    pub(crate) fn rules(&self, caller: &Caller) -> Result<&'static [&'static Rule], Error> {
        caller.may(Operation::ListRules)?;
        Ok(rules::ALL)
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
