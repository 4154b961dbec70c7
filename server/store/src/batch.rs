//! A batch: several orders judged and written in one transaction, each on top of those before it.
//!
//! Refused orders leave no trace. Nothing here is seen by anybody before the transaction is committed.

use crate::barrier::BarrierPoint;
use crate::blob;
use crate::cache::Shared;
use crate::chain::Link;
use crate::error::{CommitError, Fault};
use crate::judge::{Draft, Judge, Storable};
use crate::load::{Known, State, load};
use crate::open::At;
use crate::request::{Order, REMEMBER, Receipt, Seen, Work, remember};
use crate::row::StoredEntry;
use crate::summary;
use clampbook_book::decide::{Asked, Context};
use clampbook_book::entry::{Entry, Said};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
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
    pub(crate) at: At,
}

/// Orders written in one transaction that is not committed yet.
pub(crate) struct Batch<'w> {
    conn: &'w Connection,
    judge: &'w Judge,
    shared: &'w Shared,
    at: At,
    /// The shop before anything is written about it.
    no_shop: &'w Arc<Shop>,
    touched: HashMap<JobId, Known<Job>>,
    remember: CachedStatement<'w>,
    insert: CachedStatement<'w>,
}

const INSERT: &str = "INSERT INTO entries (seq, stream, n, said, written, person, device, kind, body, request, hash) \
     VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)";

/// An order that was written, now or before, and the state after it.
struct Done<S> {
    replayed: bool,
    entries: Vec<StoredEntry>,
    known: Known<S>,
}

/// What an order is to be written onto.
struct Onto<S> {
    stream: Stream,
    /// The stream, if there is one yet.
    before: Option<Known<S>>,
    state: Arc<S>,
}

impl<'w> Batch<'w> {
    pub(crate) fn new(
        conn: &'w Connection,
        judge: &'w Judge,
        shared: &'w Shared,
        at: At,
        no_shop: &'w Arc<Shop>,
    ) -> Result<Self, Fault> {
        Ok(Self {
            conn,
            judge,
            shared,
            at,
            no_shop,
            touched: HashMap::new(),
            remember: conn.prepare_cached(REMEMBER)?,
            insert: conn.prepare_cached(INSERT)?,
        })
    }

    /// Takes one order. A fault ends the whole batch; a refusal is the order's own affair.
    pub(crate) fn take(&mut self, order: &Order, draft: Option<Draft>) -> Result<Answer, Fault> {
        let written = (self.judge.clock)();
        let said = Said {
            caller: order.caller.clone(),
            said: Judge::said(order, written),
            written,
        };
        let shop = self.at.shop(self.no_shop);
        let context = Context {
            now: written,
            said: said.said,
            shop: &shop,
        };
        match &order.work {
            Work::Job(id, command) => {
                let before = self.known(id)?;
                let state = before
                    .as_ref()
                    .map_or_else(|| Arc::new(Job::new(id.clone())), |k| k.state.clone());
                let judged = match draft.and_then(|draft| draft.on(&state, &shop)) {
                    Some(facts) => Ok(facts),
                    None => self
                        .judge
                        .judge(order, Asked::OfJob(&state, command), &context),
                };
                let onto = Onto {
                    stream: Stream::Job(id.clone()),
                    before,
                    state,
                };
                let done = match self.settle(order, onto, &said, judged)? {
                    Ok(done) => done,
                    Err(error) => return Ok(Err(error)),
                };
                let job = done.known.state.clone();
                if !done.replayed {
                    self.touched.insert(id.clone(), done.known);
                }
                Ok(Ok(Receipt {
                    replayed: done.replayed,
                    entries: done.entries,
                    job: Some(job),
                    shop,
                }))
            }
            Work::Shop(command) => {
                let judged = self.judge.judge(order, Asked::OfShop(command), &context);
                let onto = Onto {
                    stream: Stream::Shop,
                    before: self.at.shop.clone(),
                    state: shop,
                };
                let done = match self.settle(order, onto, &said, judged)? {
                    Ok(done) => done,
                    Err(error) => return Ok(Err(error)),
                };
                let shop = done.known.state.clone();
                self.at.shop = Some(done.known);
                Ok(Ok(Receipt {
                    replayed: done.replayed,
                    entries: done.entries,
                    job: None,
                    shop,
                }))
            }
        }
    }

    /// Writes what was judged, or finds that it was written before.
    fn settle<S: State>(
        &mut self,
        order: &Order,
        onto: Onto<S>,
        said: &Said,
        judged: Result<Storable, CommitError>,
    ) -> Result<Result<Done<S>, CommitError>, Fault> {
        let name = onto.stream.to_string();
        let storable = judged.and_then(|facts| {
            room_for(&name, onto.state.last(), said, facts.len())?;
            Ok(facts)
        });
        // A request that was written before gets its first answer, whatever would be said of it now. One that is not
        // refused need not be looked up: its id is unique, and writing it again fails.
        let (facts, before) = match (storable, onto.before) {
            (Ok(facts), Some(known)) => (facts, known),
            (storable, before) => match (Seen::find(self.conn, &order.request)?, storable) {
                (Some(seen), _) => return self.again(order, &name, before, &seen),
                (None, Err(error)) => return Ok(Err(error)),
                (None, Ok(facts)) => (facts, self.new_stream(&name, onto.state)?),
            },
        };
        let first_seq = self.at.head.seq + 1;
        let remembered = remember(
            self.conn,
            &mut self.remember,
            order,
            before.stream,
            first_seq,
            facts.len(),
        )?;
        match remembered {
            Some(request) => self
                .write(order, (request, &name, &onto.stream), &before, said, facts)
                .map(Ok),
            None => {
                let seen = Seen::find(self.conn, &order.request)?.ok_or_else(|| {
                    Fault::Damaged(format!("request {} is there and is not", order.request))
                })?;
                self.again(order, &name, Some(before), &seen)
            }
        }
    }

    fn new_stream<S>(&self, name: &str, state: Arc<S>) -> Result<Known<S>, Fault> {
        let stream = self
            .conn
            .prepare_cached("INSERT INTO streams (name) VALUES (?1)")?
            .insert([name])?;
        Ok(Known {
            stream,
            seq: 0,
            state,
        })
    }

    /// Writes the list that follows from the entries.
    pub(crate) fn finish(self) -> Result<Written, Fault> {
        for known in self.touched.values().filter(|known| known.state.last > 0) {
            summary::write(self.conn, known)?;
        }
        Ok(Written {
            jobs: self.touched,
            at: self.at,
        })
    }

    /// The first answer again.
    fn again<S>(
        &self,
        order: &Order,
        name: &str,
        known: Option<Known<S>>,
        seen: &Seen,
    ) -> Result<Result<Done<S>, CommitError>, Fault> {
        if seen.fingerprint != order.fingerprint || seen.stream != name {
            return Ok(Err(CommitError::RequestReused));
        }
        let known = known
            .ok_or_else(|| Fault::Damaged(format!("request {} has no stream", order.request)))?;
        Ok(Ok(Done {
            replayed: true,
            entries: seen.entries(self.conn)?,
            known,
        }))
    }

    /// The job as it is after the orders before.
    fn known(&self, id: &JobId) -> Result<Option<Known<Job>>, Fault> {
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

    fn write<S: State>(
        &mut self,
        order: &Order,
        (request, name, stream): (i64, &str, &Stream),
        before: &Known<S>,
        said: &Said,
        facts: Storable,
    ) -> Result<Done<S>, Fault> {
        let mut next = S::clone(&before.state);
        let mut entries = Vec::with_capacity(facts.len());
        for (fact, body) in facts {
            let link = Link {
                stream: name,
                number: next.last() + 1,
                said: said.said,
                written: said.written,
                person: &said.caller.person,
                device: &said.caller.device,
                kind: fact.kind(),
                request: &order.request,
                fingerprint: &order.fingerprint,
                body: &body,
            };
            self.at.head = self.at.head.then(&link);
            self.insert.execute(params![
                self.at.head.seq,
                before.stream,
                link.number,
                link.said.0,
                link.written.0,
                link.person,
                link.device,
                link.kind,
                link.body,
                request,
                self.at.head.hash
            ])?;
            let entry = Arc::new(Entry {
                seq: self.at.head.seq,
                stream: stream.clone(),
                number: link.number,
                said: said.clone(),
                fact,
            });
            next.apply(&entry);
            entries.push(StoredEntry {
                entry,
                request: order.request,
                hash: self.at.head.hash,
                body: body.into(),
            });
            self.judge.pass(BarrierPoint::AfterInsert);
        }
        if let Some(blob) = &order.blob {
            blob::keep(self.conn, blob)?;
        }
        Ok(Done {
            replayed: false,
            known: Known {
                stream: before.stream,
                seq: entries
                    .last()
                    .map_or(before.seq, |e: &StoredEntry| e.entry.seq),
                state: Arc::new(next),
            },
            entries,
        })
    }
}

/// So many facts can be written of this caller, and numbered.
fn room_for(stream: &str, last: EntryNumber, said: &Said, facts: usize) -> Result<(), CommitError> {
    let broken = |detail| CommitError::Broken { detail };
    if said.caller.person.is_empty() {
        return Err(broken("the caller has no name".into()));
    }
    let room = EntryNumber::MAX - last;
    if facts as u64 > u64::from(room) {
        return Err(broken(format!("{stream} is full")));
    }
    Ok(())
}
