//! A change that somebody wants written, and what the journal answers, read once for all nouns.

use super::{Call, Error, Operation};
use clampbook_book::command::{Command, ShopCommand};
use clampbook_book::entry::{Moment, Said};
use clampbook_book::fact::{
    AssemblyAdded, CounterpartAnswered, Decided, Fact, JointAdded, Marked, NotRefitted,
    PartArrived, PartFound, PartWanted, PhotoAdded, Refitted, Removed, Tightened,
};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::{Job, etag};
use clampbook_book::judge::{Asked, Context, decide, judge};
use clampbook_book::shop::Shop;
use clampbook_journal::{Blob, CommitError, Fingerprint, Order, Receipt, StoredEntry, Work};
use std::sync::Arc;
use uuid::{NoContext, Timestamp, Uuid};

/// A change of a job.
#[derive(Clone, Debug)]
pub struct Change<W> {
    /// Job it is about.
    pub job: JobId,
    /// What is wanted.
    pub what: W,
    /// How it was sent.
    pub sending: Sending,
}

impl<W> Change<W> {
    /// A change that is said now and not sent again.
    #[must_use]
    pub fn new(job: JobId, what: W) -> Self {
        Self {
            job,
            what,
            sending: Sending::default(),
        }
    }
}

/// A change of what the shop keeps.
#[derive(Clone, Debug)]
pub struct ShopChange<W> {
    /// What is wanted.
    pub what: W,
    /// How it was sent.
    pub sending: Sending,
}

/// How a change was sent, which makes it safe to send again.
#[derive(Clone, Debug, Default)]
pub struct Sending {
    /// The caller's id for it; one is made when there is none.
    pub request: Option<Uuid>,
    /// Of the request's content.
    pub fingerprint: Fingerprint,
    /// When it was said, if earlier than now.
    pub said: Option<Moment>,
}

/// A fact as the journal has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded<F> {
    /// Job it is about.
    pub job: JobId,
    /// Its entry.
    pub entry: EntryNumber,
    /// Who said it and when.
    pub said: Said,
    /// What was said.
    pub fact: F,
}

impl<F> Recorded<F> {
    /// Etag of what it is about, as it is after this entry.
    #[must_use]
    pub fn etag(&self) -> String {
        etag(self.entry)
    }
}

/// A kind of fact that a request about a job writes.
pub(crate) trait Written: Clone {
    /// The fact, if it is of this kind.
    fn of(fact: &Fact) -> Option<&Self>;
}

macro_rules! written {
    ($($kind:ident)+) => {
        $(impl Written for $kind {
            fn of(fact: &Fact) -> Option<&Self> {
                match fact {
                    Fact::$kind(fact) => Some(fact),
                    _ => None,
                }
            }
        })+
    };
}

written! {
    AssemblyAdded JointAdded Marked Removed Decided Refitted Tightened NotRefitted PartFound CounterpartAnswered PartWanted
    PartArrived PhotoAdded
}

/// What was written about a job.
pub(crate) struct OfJob {
    pub(crate) entries: Vec<StoredEntry>,
    /// The job after them.
    pub(crate) job: Arc<Job>,
}

impl OfJob {
    pub(crate) fn first(&self) -> Result<&StoredEntry, Error> {
        self.entries
            .first()
            .ok_or_else(|| Error::broken(&"a request was answered without an entry"))
    }

    /// The one fact that the request wrote.
    pub(crate) fn only<F: Written>(&self) -> Result<Recorded<F>, Error> {
        self.read(self.first()?)
    }

    /// All facts that the request wrote.
    pub(crate) fn all<F: Written>(&self) -> Result<Vec<Recorded<F>>, Error> {
        self.entries
            .iter()
            .map(|stored| self.read(stored))
            .collect()
    }

    fn read<F: Written>(&self, stored: &StoredEntry) -> Result<Recorded<F>, Error> {
        let entry = &stored.entry;
        // Only what was kept under the same id may be of another kind, where nothing but the id could be compared.
        let fact = F::of(&entry.fact).ok_or(CommitError::RequestReused)?;
        Ok(Recorded {
            job: self.job.id.clone(),
            entry: entry.number,
            said: entry.said.clone(),
            fact: fact.clone(),
        })
    }
}

impl Call<'_> {
    /// Writes a change of a job.
    pub(crate) async fn write<W>(
        &self,
        change: Change<W>,
        command: impl FnOnce(W) -> Command,
    ) -> Result<OfJob, Error> {
        self.write_with(change, command, None).await
    }

    /// Writes a change of a job together with a content that it names.
    pub(crate) async fn write_with<W>(
        &self,
        change: Change<W>,
        command: impl FnOnce(W) -> Command,
        blob: Option<Blob>,
    ) -> Result<OfJob, Error> {
        let work = Work::Job(change.job, command(change.what));
        let receipt = self.order(work, change.sending, blob).await?;
        let job = receipt
            .job
            .ok_or_else(|| Error::broken(&"a job's request was answered without its job"))?;
        Ok(OfJob {
            entries: receipt.entries,
            job,
        })
    }

    /// Writes a change of what the shop keeps.
    pub(crate) async fn write_shop<W>(
        &self,
        change: ShopChange<W>,
        command: impl FnOnce(W) -> ShopCommand,
    ) -> Result<Receipt, Error> {
        let work = Work::Shop(command(change.what));
        self.order(work, change.sending, None).await
    }

    /// Gives the store an order: what the caller was let in for, and nothing else.
    async fn order(
        &self,
        work: Work,
        sending: Sending,
        blob: Option<Blob>,
    ) -> Result<Receipt, Error> {
        let (let_in, wanted) = (self.operation, Operation::of(&work));
        if let_in != wanted {
            let (let_in, wanted) = (let_in.name(), wanted.name());
            return Err(Error::broken(&format!("{let_in} was to do {wanted}")));
        }
        let order = Order {
            work,
            request: sending.request.unwrap_or_else(|| fresh_id(self.app.now())),
            fingerprint: sending.fingerprint,
            caller: self.caller.who.clone(),
            said: sending.said,
            blob,
        };
        Ok(self.app.store.commit(order).await?)
    }

    /// What a change of a job would write.
    pub(crate) async fn judge<W>(
        &self,
        change: Change<W>,
        command: impl FnOnce(W) -> Command,
    ) -> Result<Vec<Fact>, Error> {
        let job = self.find(&change.job).await?;
        let shop = self.shop();
        let context = self.context(&change.sending, &shop);
        Ok(decide(&job, &command(change.what), &context)?)
    }

    /// What a change of what the shop keeps would write.
    pub(crate) fn judge_shop<W>(
        &self,
        change: ShopChange<W>,
        command: impl FnOnce(W) -> ShopCommand,
    ) -> Result<Vec<Fact>, Error> {
        let shop = self.shop();
        let context = self.context(&change.sending, &shop);
        Ok(judge(Asked::OfShop(&command(change.what)), &context)?)
    }

    fn context<'s>(&'s self, sending: &Sending, shop: &'s Shop) -> Context<'s> {
        let now = self.app.now();
        Context {
            by: shop.speaker(&self.caller.who),
            now,
            said: sending.said.unwrap_or(now),
            shop,
        }
    }
}

/// A request id that was never used. It begins with the time, so that the ids of an afternoon lie together in the journal.
fn fresh_id(now: Moment) -> Uuid {
    let micros = now.0.max(0).unsigned_abs();
    let nanos = u32::try_from(micros % 1_000_000 * 1_000).unwrap_or_default();
    Uuid::new_v7(Timestamp::from_unix(NoContext, micros / 1_000_000, nanos))
}
