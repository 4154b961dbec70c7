//! Orders and receipts; what is remembered of every order that was written.

use crate::protocol::blob::Blob;
use crate::protocol::entry::StoredEntry;
use crate::protocol::judge::Draft;
use clampbook_book::command::{Command, ShopCommand};
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use std::sync::Arc;
use uuid::Uuid;

/// What somebody wants written.
#[derive(Clone, Debug)]
pub struct Order {
    /// What, and about what.
    pub work: Work,
    /// Identifies the request, so that sending it again is safe.
    pub request: Uuid,
    /// Of the request's content; the same request id with another one is refused.
    pub fingerprint: Fingerprint,
    /// Who speaks.
    pub caller: Caller,
    /// When it was said; nothing for now.
    pub said: Option<Moment>,
    /// Content that the facts to be written name by its hash, to be kept with them.
    pub blob: Option<Blob>,
}

/// Tells whether a request that is sent again is the same one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fingerprint {
    /// Of the way in which it is made.
    pub version: u32,
    /// Hash of what was sent.
    pub hash: [u8; 32],
}

/// An order as it is given to the writer, and what its giver made of it.
#[derive(Debug)]
pub(crate) struct Given {
    pub(crate) order: Order,
    /// Judged ahead; nothing when it is left to the writer.
    pub(crate) ahead: Option<Draft<Job>>,
}

/// What is wanted, and about what.
#[derive(Clone, Debug)]
#[allow(
    clippy::large_enum_variant,
    reason = "an order waits in a box of its own; nearly all are about a job"
)]
pub enum Work {
    /// Something about a job.
    Job(JobId, Command),
    /// Something about the shop.
    Shop(ShopCommand),
}

impl Work {
    /// What it is about.
    #[must_use]
    pub fn stream(&self) -> Stream {
        match self {
            Self::Job(id, _) => Stream::Job(id.clone()),
            Self::Shop(_) => Stream::Shop,
        }
    }
}

/// What was written.
#[derive(Clone, Debug)]
pub struct Receipt {
    /// Whether it was written by an earlier sending of the same request.
    pub replayed: bool,
    /// The entries it made, then or now.
    pub entries: Vec<StoredEntry>,
    /// The job right after this request, if it was about one; for a repeated one, as it is now.
    pub job: Option<Arc<Job>>,
    /// The shop, likewise.
    pub shop: Arc<Shop>,
}

/// An order that was written before.
#[derive(Clone, Debug)]
pub(crate) struct Seen {
    pub(crate) stream: String,
    pub(crate) fingerprint: [u8; 32],
    /// Requests from before versions were written down have none.
    pub(crate) version: Option<u32>,
    pub(crate) first_seq: i64,
    pub(crate) entry_count: i64,
}

impl Seen {
    /// Whether an order with its id may be the same. Fingerprints made in two ways tell nothing; then the id alone decides.
    pub(crate) fn may_be(&self, order: &Order) -> bool {
        let comparable = self.version == Some(order.fingerprint.version);
        self.stream == order.work.stream().to_string()
            && (!comparable || self.fingerprint == order.fingerprint.hash)
    }
}
