//! A journal in memory with several handles: the protocol without a file, which the conformance suite holds SQLite against.
//!
//! Each handle keeps its own view, as a server of its own would, and judges on that. What it appends is taken only if the heads
//! it was judged on still hold; else it reads on and judges again.

use crate::protocol::chain::{Head, Known, Link};
use crate::protocol::entry::StoredEntry;
use crate::protocol::error::CommitError;
use crate::protocol::judge::{Draft, Judge};
use crate::protocol::request::{Order, Receipt, Seen, Work};
use crate::protocol::state::State;
use clampbook_book::entry::Moment;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use clampbook_book::judge::Asked;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use uuid::Uuid;

/// What became of a draft.
#[derive(Debug)]
pub(crate) enum Outcome {
    /// It was written: these entries.
    Written(Vec<StoredEntry>),
    /// Its request was written before.
    Seen(Seen),
    /// Something was said since it was judged.
    Stale,
}

/// What is kept.
#[derive(Default)]
struct Kept {
    entries: Vec<StoredEntry>,
    requests: HashMap<Uuid, Seen>,
    lasts: HashMap<Stream, EntryNumber>,
}

impl Kept {
    fn head(&self) -> Head {
        self.entries.last().map_or(Head::NONE, |last| Head {
            seq: last.seq,
            hash: last.hash,
        })
    }

    fn written(&self) -> Moment {
        let last = self.entries.last();
        last.map_or(Moment(i64::MIN), |last| last.entry.said.written)
    }

    fn last(&self, stream: &Stream) -> EntryNumber {
        self.lasts.get(stream).copied().unwrap_or_default()
    }

    /// Writes a draft if the heads it was judged on still hold.
    fn append<S: State>(&mut self, order: &Order, draft: &Draft<S>) -> Outcome {
        if let Some(seen) = self.requests.get(&order.request) {
            return Outcome::Seen(seen.clone());
        }
        let stream = order.work.stream();
        if draft.heads() != (self.last(&stream), self.last(&Stream::Shop)) {
            return Outcome::Stale;
        }
        let later = draft.not_before(order, self.written());
        let draft = later.as_ref().unwrap_or(draft);
        let before = self.head();
        for (entry, body) in &draft.entries {
            let known = Known::of(&entry.said.by, order.fingerprint.version);
            let link = Link::of(order, &draft.stream, entry, body, known);
            let head = self.head().then(&link);
            self.lasts.insert(stream.clone(), entry.number);
            self.entries.push(StoredEntry {
                seq: head.seq,
                entry: entry.clone(),
                request: order.request,
                hash: head.hash,
                body: body.clone(),
            });
        }
        let seen = Seen {
            stream: stream.to_string(),
            fingerprint: order.fingerprint.hash,
            version: Some(order.fingerprint.version),
            first_seq: before.seq + 1,
            entry_count: draft.entries.len() as i64,
        };
        self.requests.insert(order.request, seen);
        Outcome::Written(self.entries[before.seq as usize..].to_vec())
    }
}

/// What one handle has read.
struct View {
    seq: usize,
    jobs: HashMap<JobId, Arc<Job>>,
    shop: Arc<Shop>,
}

/// A handle.
pub(crate) struct Memory {
    kept: Arc<Mutex<Kept>>,
    judge: Arc<Judge>,
    view: Mutex<View>,
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Memory {
    /// A new journal.
    pub(crate) fn new(judge: Judge) -> Self {
        Self::on(Arc::default(), Arc::new(judge))
    }

    fn on(kept: Arc<Mutex<Kept>>, judge: Arc<Judge>) -> Self {
        let view = Mutex::new(View {
            seq: 0,
            jobs: HashMap::new(),
            shop: Arc::new(Shop::new()),
        });
        Self { kept, judge, view }
    }

    /// Another handle on the same journal, which has read nothing yet.
    pub(crate) fn another(&self) -> Self {
        Self::on(self.kept.clone(), self.judge.clone())
    }

    pub(crate) fn head(&self) -> Head {
        locked(&self.kept).head()
    }

    /// Entries after a place, of one stream or of all.
    pub(crate) fn read(&self, after: i64, stream: Option<&Stream>) -> Vec<StoredEntry> {
        let kept = locked(&self.kept);
        let wanted = |one: &&StoredEntry| {
            one.seq > after && stream.is_none_or(|stream| one.entry.stream == *stream)
        };
        kept.entries.iter().filter(wanted).cloned().collect()
    }

    /// Judges on what this handle has read.
    pub(crate) fn draft_job(&self, order: &Order, id: &JobId) -> Result<Draft<Job>, CommitError> {
        let Work::Job(_, command) = &order.work else {
            unreachable!("it is about a job")
        };
        let view = locked(&self.view);
        let none = || Arc::new(Job::new(id.clone()));
        let on = view.jobs.get(id).cloned().unwrap_or_else(none);
        let now = (self.judge.clock)();
        let asked = Asked::OfJob(&on, command);
        self.judge.judge(order, &on, asked, &view.shop, now)
    }

    /// Appends what was judged; nothing about it is written if it is stale.
    pub(crate) fn append<S: State>(&self, order: &Order, draft: &Draft<S>) -> Outcome {
        locked(&self.kept).append(order, draft)
    }

    /// Reads on; whether there was something new.
    pub(crate) fn catch_up(&self) -> bool {
        let mut view = locked(&self.view);
        let new = self.read(view.seq as i64, None);
        for stored in &new {
            match &stored.entry.stream {
                Stream::Shop => Arc::make_mut(&mut view.shop).apply(&stored.entry),
                Stream::Job(id) => {
                    let job = view.jobs.entry(id.clone());
                    let job = job.or_insert_with(|| Arc::new(Job::new(id.clone())));
                    Arc::make_mut(job).apply(&stored.entry);
                }
            }
            view.seq += 1;
        }
        !new.is_empty()
    }

    /// Judges an order and writes what follows from it, however often others come first.
    pub(crate) fn commit(&self, order: &Order) -> Result<Receipt, CommitError> {
        loop {
            let tried = match &order.work {
                Work::Job(id, _) => {
                    let draft = self.draft_job(order, id);
                    draft.map(|draft| self.append(order, &draft))
                }
                Work::Shop(command) => {
                    let shop = locked(&self.view).shop.clone();
                    let asked = Asked::OfShop(command);
                    let now = (self.judge.clock)();
                    let draft = self.judge.judge(order, &shop, asked, &shop, now);
                    draft.map(|draft| self.append(order, &draft))
                }
            };
            let seen = locked(&self.kept).requests.get(&order.request).cloned();
            let moved = self.catch_up();
            match (tried, seen) {
                (Ok(Outcome::Written(entries)), _) => {
                    return Ok(self.receipt(order, false, entries));
                }
                (Ok(Outcome::Seen(seen)), _) | (Err(_), Some(seen)) => {
                    if !seen.may_be(order) {
                        return Err(CommitError::RequestReused);
                    }
                    let mut made = self.read(seen.first_seq - 1, None);
                    made.truncate(seen.entry_count as usize);
                    return Ok(self.receipt(order, true, made));
                }
                (Err(error), None) if !moved => return Err(error),
                (Ok(Outcome::Stale) | Err(_), _) => {}
            }
        }
    }

    fn receipt(&self, order: &Order, replayed: bool, entries: Vec<StoredEntry>) -> Receipt {
        let view = locked(&self.view);
        let job = match &order.work {
            Work::Job(id, _) => view.jobs.get(id).cloned(),
            Work::Shop(_) => None,
        };
        Receipt {
            replayed,
            entries,
            job,
            shop: view.shop.clone(),
        }
    }
}
