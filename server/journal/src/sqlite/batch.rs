//! A batch: several orders judged and written in one transaction, each on top of those before it.
//!
//! Refused orders leave no trace. Nothing here is seen by anybody before the transaction is committed.

use crate::protocol::chain::{self, FORMAT, Link};
use crate::protocol::entry::StoredEntry;
use crate::protocol::error::CommitError;
use crate::protocol::judge::{Draft, Judge};
use crate::protocol::request::{Given, Order, Receipt, Seen, Work};
use crate::sqlite::at::At;
use crate::sqlite::barrier::{self, Barrier, BarrierPoint};
use crate::sqlite::blob;
use crate::sqlite::cache::Shared;
use crate::sqlite::error::RowError;
use crate::sqlite::load::{Known, load};
use crate::sqlite::requests::{self, REMEMBER, remember};
use crate::sqlite::summary;
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::judge::Asked;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use rusqlite::{CachedStatement, Connection, params};
use std::collections::HashMap;
use std::sync::Arc;

/// The answer to one order.
pub(crate) type Answer = Result<Receipt, CommitError>;

/// What is to be published once it is committed.
pub(crate) struct Written {
    pub(crate) jobs: HashMap<JobId, Known<Job>>,
    pub(crate) entries: Vec<StoredEntry>,
    pub(crate) at: At,
}

/// Orders written in one transaction that is not committed yet.
pub(crate) struct Batch<'w> {
    conn: &'w Connection,
    judge: &'w Judge,
    barrier: Option<&'w Barrier>,
    shared: &'w Shared,
    at: At,
    /// The shop before anything is written about it.
    no_shop: &'w Arc<Shop>,
    touched: HashMap<JobId, Known<Job>>,
    written: Vec<StoredEntry>,
    remember: CachedStatement<'w>,
    insert: CachedStatement<'w>,
}

/// How an entry is written.
pub(crate) const INSERT: &str = "INSERT INTO entries (seq, stream, n, said, written, person, device, kind, body, request, hash, \
     format, known, person_id) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)";

/// An order that was written, now or before, and the state after it.
struct Done<S> {
    replayed: bool,
    entries: Vec<StoredEntry>,
    known: Known<S>,
}

impl<'w> Batch<'w> {
    pub(crate) fn new(
        conn: &'w Connection,
        judge: &'w Judge,
        barrier: Option<&'w Barrier>,
        shared: &'w Shared,
        at: At,
        no_shop: &'w Arc<Shop>,
    ) -> Result<Self, RowError> {
        Ok(Self {
            conn,
            judge,
            barrier,
            shared,
            at,
            no_shop,
            touched: HashMap::new(),
            written: Vec::new(),
            remember: conn.prepare_cached(REMEMBER)?,
            insert: conn.prepare_cached(INSERT)?,
        })
    }

    /// Takes one order. A fault ends the whole batch; a refusal is the order's own affair.
    pub(crate) fn take(&mut self, given: &Given) -> Result<Answer, RowError> {
        let Given { order, ahead } = given;
        let now = self.at.now((self.judge.clock)());
        let shop = self.at.shop(self.no_shop);
        match &order.work {
            Work::Job(id, command) => {
                let before = self.known(id)?;
                let on = before
                    .as_ref()
                    .map_or_else(|| Arc::new(Job::new(id.clone())), |k| k.state.clone());
                let done = match ahead {
                    Some(draft) if draft.holds(&on, &shop, now) => {
                        let later = draft.not_before(order, self.at.written);
                        self.settle(order, before, Ok(later.as_ref().unwrap_or(draft)))?
                    }
                    _ => {
                        let asked = Asked::OfJob(&on, command);
                        let draft = self.judge.judge(order, &on, asked, &shop, now);
                        self.settle(order, before, draft.as_ref())?
                    }
                };
                Ok(done.map(|done| {
                    let job = done.known.state.clone();
                    if !done.replayed {
                        self.touched.insert(id.clone(), done.known);
                    }
                    Receipt {
                        replayed: done.replayed,
                        entries: done.entries,
                        job: Some(job),
                        shop,
                    }
                }))
            }
            Work::Shop(command) => {
                let asked = Asked::OfShop(command);
                let draft = self.judge.judge(order, &shop, asked, &shop, now);
                let done = self.settle(order, self.at.shop.clone(), draft.as_ref())?;
                Ok(done.map(|done| {
                    let shop = done.known.state.clone();
                    self.at.shop = Some(done.known);
                    Receipt {
                        replayed: done.replayed,
                        entries: done.entries,
                        job: None,
                        shop,
                    }
                }))
            }
        }
    }

    /// Writes what was judged, or finds that it was written before.
    fn settle<S>(
        &mut self,
        order: &Order,
        before: Option<Known<S>>,
        judged: Result<&Draft<S>, &CommitError>,
    ) -> Result<Result<Done<S>, CommitError>, RowError> {
        // A request that was written before gets its first answer, whatever would be said of it now. One that is not
        // refused need not be looked up: its id is unique, and writing it again fails.
        let (draft, before) = match (judged, before) {
            (Ok(draft), Some(known)) => (draft, known),
            (judged, before) => match (requests::find(self.conn, &order.request)?, judged) {
                (Some(seen), _) => return self.again(order, before, &seen),
                (None, Err(error)) => return Ok(Err(error.clone())),
                (None, Ok(draft)) => (draft, self.new_stream(draft)?),
            },
        };
        let remembered = remember(
            self.conn,
            &mut self.remember,
            order,
            before.stream,
            self.at.head.seq + 1,
            draft.entries.len(),
        )?;
        match remembered {
            Some(request) => self.write(order, request, &before, draft).map(Ok),
            None => {
                let seen = requests::find(self.conn, &order.request)?.ok_or_else(|| {
                    RowError::Damaged(format!("request {} is there and is not", order.request))
                })?;
                self.again(order, Some(before), &seen)
            }
        }
    }

    fn new_stream<S>(&self, draft: &Draft<S>) -> Result<Known<S>, RowError> {
        let stream = self
            .conn
            .prepare_cached("INSERT INTO streams (name) VALUES (?1)")?
            .insert([&draft.stream])?;
        Ok(Known {
            stream,
            seq: 0,
            state: draft.on.clone(),
        })
    }

    /// Writes the list that follows from the entries.
    pub(crate) fn finish(self) -> Result<Written, RowError> {
        let mut line = self.conn.prepare_cached(summary::WRITE)?;
        for known in self.touched.values().filter(|known| known.state.last > 0) {
            summary::write(&mut line, known)?;
        }
        Ok(Written {
            jobs: self.touched,
            entries: self.written,
            at: self.at,
        })
    }

    /// The first answer again.
    fn again<S>(
        &self,
        order: &Order,
        known: Option<Known<S>>,
        seen: &Seen,
    ) -> Result<Result<Done<S>, CommitError>, RowError> {
        if !seen.may_be(order) {
            return Ok(Err(CommitError::RequestReused));
        }
        let known = known
            .ok_or_else(|| RowError::Damaged(format!("request {} has no stream", order.request)))?;
        Ok(Ok(Done {
            replayed: true,
            entries: requests::made(seen, self.conn)?,
            known,
        }))
    }

    /// The job as it is after the orders before.
    fn known(&self, id: &JobId) -> Result<Option<Known<Job>>, RowError> {
        match self
            .touched
            .get(id)
            .cloned()
            .or_else(|| self.shared.get(id))
        {
            Some(known) => Ok(Some(known)),
            None => load(self.conn, &Stream::Job(id.clone()), || Job::new(id.clone())),
        }
    }

    fn write<S>(
        &mut self,
        order: &Order,
        request: i64,
        before: &Known<S>,
        draft: &Draft<S>,
    ) -> Result<Done<S>, RowError> {
        let mut entries = Vec::with_capacity(draft.entries.len());
        for (entry, body) in &draft.entries {
            let known = chain::Known::of(&entry.said.by, order.fingerprint.version);
            let link = Link::of(order, &draft.stream, entry, body, known);
            self.at.head = self.at.head.then(&link);
            self.at.written = link.written;
            self.insert.execute(params![
                self.at.head.seq,
                before.stream,
                link.number,
                link.said.0,
                link.written.0,
                link.name,
                link.device,
                link.kind,
                link.body,
                request,
                self.at.head.hash,
                FORMAT,
                known.how,
                known.person
            ])?;
            entries.push(StoredEntry {
                seq: self.at.head.seq,
                entry: entry.clone(),
                request: order.request,
                hash: self.at.head.hash,
                body: body.clone(),
            });
            barrier::pass(self.barrier, BarrierPoint::AfterInsert);
        }
        self.written.extend_from_slice(&entries);
        if let Some(blob) = &order.blob {
            blob::keep(self.conn, blob)?;
        }
        Ok(Done {
            replayed: false,
            known: Known {
                stream: before.stream,
                seq: entries.last().map_or(before.seq, |stored| stored.seq),
                state: draft.next.clone(),
            },
            entries,
        })
    }
}
