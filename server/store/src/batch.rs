//! A batch: several orders judged and written in one transaction, each on top of those before it.
//!
//! Refused orders leave no trace. Nothing here is seen by anybody before the transaction is committed.

use crate::barrier::{Barrier, BarrierPoint};
use crate::body;
use crate::cache::Shared;
use crate::chain::{Head, Link};
use crate::error::{CommitError, Fault};
use crate::load::{Known, load};
use crate::open::{Clock, Decider};
use crate::request::{Order, Receipt, Seen, remember};
use crate::row::{StoredEntry, stream_name};
use crate::summary;
use clampbook_book::entry::{Entry, Moment, Said};
use clampbook_book::fact::Fact;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use rusqlite::{Connection, params};
use std::collections::HashMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use uuid::Uuid;

/// The answer to one order.
pub(crate) type Answer = Result<Receipt, CommitError>;

/// What the writer judges with.
pub(crate) struct Judge {
    pub(crate) decider: Decider,
    pub(crate) clock: Clock,
    pub(crate) barrier: Option<Barrier>,
}

impl Judge {
    pub(crate) fn pass(&self, point: BarrierPoint) {
        if let Some(barrier) = &self.barrier {
            barrier.pass(point);
        }
    }

    fn judge(
        &self,
        job: &Job,
        order: &Order,
        now: Moment,
        said: Moment,
    ) -> Result<Vec<Fact>, CommitError> {
        let decided = catch_unwind(AssertUnwindSafe(|| {
            (self.decider)(job, &order.command, now, said)
        }));
        match decided {
            Ok(Ok(facts)) => Ok(facts),
            Ok(Err(refusal)) => Err(CommitError::Refused(refusal)),
            Err(panic) => {
                let incident = Uuid::new_v4();
                let said = panic
                    .downcast_ref::<String>()
                    .map(String::as_str)
                    .or_else(|| panic.downcast_ref::<&str>().copied())
                    .unwrap_or("no message");
                tracing::error!(%incident, job = %job.id, request = %order.request, panic = said, "judging a request panicked");
                Err(CommitError::Panicked { incident })
            }
        }
    }
}

/// What is to be published once it is committed.
pub(crate) struct Written {
    pub(crate) jobs: HashMap<JobId, Known>,
    pub(crate) head: Head,
}

/// Orders written in one transaction that is not committed yet.
pub(crate) struct Batch<'w> {
    conn: &'w Connection,
    judge: &'w Judge,
    shared: &'w Shared,
    head: Head,
    touched: HashMap<JobId, Known>,
}

impl<'w> Batch<'w> {
    pub(crate) fn new(
        conn: &'w Connection,
        judge: &'w Judge,
        shared: &'w Shared,
        head: Head,
    ) -> Self {
        Self {
            conn,
            judge,
            shared,
            head,
            touched: HashMap::new(),
        }
    }

    /// Takes one order. A fault ends the whole batch; a refusal is the order's own affair.
    pub(crate) fn take(&mut self, order: &Order) -> Result<Answer, Fault> {
        let before = self.known(&order.job)?;
        let job = before
            .as_ref()
            .map_or_else(|| Arc::new(Job::new(order.job.clone())), |k| k.job.clone());
        let written = (self.judge.clock)();
        let said = Said {
            caller: order.caller.clone(),
            said: order.said.unwrap_or(written),
            written,
        };
        let storable = self
            .judge
            .judge(&job, order, written, said.said)
            .and_then(|facts| storable(&job, &said, facts));
        let name = stream_name(&order.job);
        // A request that was written before gets its first answer, whatever would be said of it now. One that is not
        // refused need not be looked up: its id is unique, and writing it again fails.
        let (facts, before) = match (storable, before) {
            (Ok(facts), Some(known)) => (facts, known),
            (storable, _) => match (Seen::find(self.conn, &order.request)?, storable) {
                (Some(seen), _) => return self.again(order, &seen),
                (None, Err(error)) => return Ok(Err(error)),
                (None, Ok(facts)) => (facts, self.new_stream(&name, job)?),
            },
        };
        let first_seq = self.head.seq + 1;
        match remember(self.conn, order, before.stream, first_seq, facts.len())? {
            Some(request) => self.write(order, (request, &name), &before, &said, facts),
            None => {
                let seen = Seen::find(self.conn, &order.request)?.ok_or_else(|| {
                    Fault::Damaged(format!("request {} is there and is not", order.request))
                })?;
                self.again(order, &seen)
            }
        }
    }

    fn new_stream(&self, name: &str, job: Arc<Job>) -> Result<Known, Fault> {
        let stream = self
            .conn
            .prepare_cached("INSERT INTO streams (name) VALUES (?1)")?
            .insert([name])?;
        Ok(Known {
            stream,
            seq: 0,
            job,
        })
    }

    /// Writes the list that follows from the entries.
    pub(crate) fn finish(self) -> Result<Written, Fault> {
        for known in self.touched.values().filter(|known| known.job.last > 0) {
            summary::write(self.conn, known)?;
        }
        Ok(Written {
            jobs: self.touched,
            head: self.head,
        })
    }

    /// The first answer again.
    fn again(&self, order: &Order, seen: &Seen) -> Result<Answer, Fault> {
        if seen.fingerprint != order.fingerprint || seen.stream != stream_name(&order.job) {
            return Ok(Err(CommitError::RequestReused));
        }
        let known = self
            .known(&order.job)?
            .ok_or_else(|| Fault::Damaged(format!("request {} has no job", order.request)))?;
        Ok(Ok(Receipt {
            replayed: true,
            entries: seen.entries(self.conn)?,
            job: known.job,
        }))
    }

    /// The job as it is after the orders before.
    fn known(&self, id: &JobId) -> Result<Option<Known>, Fault> {
        match self
            .touched
            .get(id)
            .cloned()
            .or_else(|| self.shared.get(id))
        {
            Some(known) => Ok(Some(known)),
            None => load(self.conn, id),
        }
    }

    fn write(
        &mut self,
        order: &Order,
        (request, name): (i64, &str),
        before: &Known,
        said: &Said,
        facts: Vec<(Fact, String)>,
    ) -> Result<Answer, Fault> {
        let mut insert = self.conn.prepare_cached(
            "INSERT INTO entries (seq, stream, n, said, written, person, device, kind, body, request, hash) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
        )?;
        let mut next = Job::clone(&before.job);
        let mut entries = Vec::with_capacity(facts.len());
        for (fact, body) in facts {
            let link = Link {
                stream: name,
                number: next.last + 1,
                said: said.said,
                written: said.written,
                person: &said.caller.person,
                device: &said.caller.device,
                kind: fact.kind(),
                request: &order.request,
                fingerprint: &order.fingerprint,
                body: &body,
            };
            self.head = self.head.then(&link);
            insert.execute(params![
                self.head.seq,
                before.stream,
                link.number,
                link.said.0,
                link.written.0,
                link.person,
                link.device,
                link.kind,
                link.body,
                request,
                self.head.hash
            ])?;
            let entry = Arc::new(Entry {
                seq: self.head.seq,
                job: order.job.clone(),
                number: link.number,
                said: said.clone(),
                fact,
            });
            next.apply(&entry);
            entries.push(StoredEntry {
                entry,
                request: order.request,
                hash: self.head.hash,
                body: body.into(),
            });
            self.judge.pass(BarrierPoint::AfterInsert);
        }
        let job = Arc::new(next);
        let known = Known {
            stream: before.stream,
            seq: entries
                .last()
                .map_or(before.seq, |e: &StoredEntry| e.entry.seq),
            job: job.clone(),
        };
        self.touched.insert(order.job.clone(), known);
        Ok(Ok(Receipt {
            replayed: false,
            entries,
            job,
        }))
    }
}

/// The facts with their bodies, if all of them can be stored so that they are read the same for ever.
fn storable(job: &Job, said: &Said, facts: Vec<Fact>) -> Result<Vec<(Fact, String)>, CommitError> {
    let broken = |detail| CommitError::Broken { detail };
    if said.caller.person.is_empty() {
        return Err(broken("the caller has no name".into()));
    }
    let room = EntryNumber::MAX - job.last;
    if facts.len() as u64 > u64::from(room) {
        return Err(broken(format!("job {} is full", job.id)));
    }
    facts
        .into_iter()
        .map(|fact| {
            let body = body::encode(&fact).map_err(broken)?;
            Ok((fact, body))
        })
        .collect()
}
