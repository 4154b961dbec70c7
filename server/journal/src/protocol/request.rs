//! Orders and receipts, and what is remembered of every order that was written.

use crate::blob::Blob;
use crate::error::RowError;
use crate::judge::Draft;
use crate::row::{StoredEntry, entries, select_entries};
use clampbook_book::command::{Command, ShopCommand};
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, OptionalExtension, Statement, params};
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
#[derive(Debug)]
pub(crate) struct Seen {
    stream: String,
    fingerprint: [u8; 32],
    /// Requests from before versions were written down have none.
    version: Option<u32>,
    first_seq: i64,
    entry_count: i64,
}

impl Seen {
    /// The order with this request id, if there was one.
    pub(crate) fn find(conn: &Connection, request: &Uuid) -> Result<Option<Self>, RowError> {
        Ok(conn
            .prepare_cached(
                "SELECT s.name, r.fingerprint, r.fingerprint_version, r.first_seq, r.entry_count \
                 FROM requests r JOIN streams s ON s.key = r.stream WHERE r.id = ?1",
            )?
            .query_row([request.as_bytes()], |row| {
                Ok(Self {
                    stream: row.get(0)?,
                    fingerprint: row.get(1)?,
                    version: row.get(2)?,
                    first_seq: row.get(3)?,
                    entry_count: row.get(4)?,
                })
            })
            .optional()?)
    }

    /// Whether an order with its id may be the same. Fingerprints made in two ways tell nothing; then the id alone decides.
    pub(crate) fn may_be(&self, order: &Order) -> bool {
        let comparable = self.version == Some(order.fingerprint.version);
        self.stream == order.work.stream().to_string()
            && (!comparable || self.fingerprint == order.fingerprint.hash)
    }

    /// The entries it made.
    pub(crate) fn entries(&self, conn: &Connection) -> Result<Vec<StoredEntry>, RowError> {
        entries(
            conn,
            select_entries!("WHERE e.seq >= ?1 AND e.seq < ?2 ORDER BY e.seq"),
            params![self.first_seq, self.first_seq + self.entry_count],
        )
    }
}

/// How an order is remembered.
pub(crate) const REMEMBER: &str = "INSERT INTO requests (id, fingerprint, fingerprint_version, stream, first_seq, entry_count) \
     VALUES (?1, ?2, ?3, ?4, ?5, ?6) \
     ON CONFLICT (id) DO NOTHING";

/// Remembers an order and gives its key; nothing when its request id is there already.
pub(crate) fn remember(
    conn: &Connection,
    statement: &mut Statement<'_>,
    order: &Order,
    stream: i64,
    first_seq: i64,
    entry_count: usize,
) -> Result<Option<i64>, RowError> {
    let written = statement.execute(params![
        order.request.as_bytes(),
        order.fingerprint.hash,
        order.fingerprint.version,
        stream,
        first_seq,
        entry_count as i64
    ])?;
    Ok((written == 1).then(|| conn.last_insert_rowid()))
}
