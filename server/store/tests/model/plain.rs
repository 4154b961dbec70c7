//! The model: what the store promises, in lists and maps, without a file, a thread or a cache.

use crate::support::book;
use clampbook_book::command::Command;
use clampbook_book::entry::{Entry, Moment, Said};
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_store::{CommitError, Decider, Order};
use std::collections::BTreeMap;
use std::ops::Range;
use uuid::Uuid;

/// Position whose removal the judgement panics at.
pub(crate) const PANICS_AT: u16 = 13;

/// The book's judgement with a bug in it.
pub(crate) fn buggy_book() -> Decider {
    let judge = book();
    Box::new(move |job, command, now, said| match command {
        Command::LogRemoval(removed) if removed.position == PANICS_AT => {
            panic!("the bug that the test put here")
        }
        _ => judge(job, command, now, said),
    })
}

/// What is expected of an order.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Expected {
    /// These entries, made by an earlier sending or not.
    Written {
        replayed: bool,
        entries: Vec<Entry>,
        job: Box<Job>,
    },
    /// Nothing, with this error.
    Error(CommitError),
    /// Nothing, because of a panic.
    Panic,
}

/// A journal in memory.
pub(crate) struct Plain {
    judge: Decider,
    /// Every entry in the order of the file, with its request.
    pub(crate) entries: Vec<(Entry, Uuid)>,
    /// Every accepted request: fingerprint, job, and which entries it made.
    pub(crate) requests: BTreeMap<Uuid, ([u8; 32], JobId, Range<usize>)>,
}

impl Plain {
    pub(crate) fn new() -> Self {
        Self {
            judge: book(),
            entries: Vec::new(),
            requests: BTreeMap::new(),
        }
    }

    /// The job as all its entries add up, from the first.
    pub(crate) fn job(&self, id: &JobId) -> Job {
        let mut job = Job::new(id.clone());
        for (entry, _) in self.entries.iter().filter(|(entry, _)| entry.job == *id) {
            job.apply(entry);
        }
        job
    }

    /// Jobs, the one written last first.
    pub(crate) fn jobs(&self) -> Vec<JobId> {
        let mut ids: Vec<JobId> = Vec::new();
        for (entry, _) in self.entries.iter().rev() {
            if !ids.contains(&entry.job) {
                ids.push(entry.job.clone());
            }
        }
        ids
    }

    /// Takes an order at a time and says what is to be expected.
    pub(crate) fn take(&mut self, order: &Order, now: Moment) -> Expected {
        if let Some((fingerprint, job, made)) = self.requests.get(&order.request) {
            if *fingerprint != order.fingerprint || *job != order.job {
                return Expected::Error(CommitError::RequestReused);
            }
            return Expected::Written {
                replayed: true,
                entries: self.made(made),
                job: Box::new(self.job(job)),
            };
        }
        if matches!(&order.command, Command::LogRemoval(removed) if removed.position == PANICS_AT) {
            return Expected::Panic;
        }
        let said = order.said.unwrap_or(now);
        let before = self.job(&order.job);
        let facts = match (self.judge)(&before, &order.command, now, said) {
            Ok(facts) => facts,
            Err(refusal) => return Expected::Error(CommitError::Refused(refusal)),
        };
        let first = self.entries.len();
        for (fact, number) in facts.into_iter().zip(before.last + 1..) {
            let entry = Entry {
                seq: self.entries.len() as i64 + 1,
                job: order.job.clone(),
                number,
                said: Said {
                    caller: order.caller.clone(),
                    said,
                    written: now,
                },
                fact,
            };
            self.entries.push((entry, order.request));
        }
        let made = first..self.entries.len();
        let entries = self.made(&made);
        self.requests
            .insert(order.request, (order.fingerprint, order.job.clone(), made));
        Expected::Written {
            replayed: false,
            entries,
            job: Box::new(self.job(&order.job)),
        }
    }

    fn made(&self, range: &Range<usize>) -> Vec<Entry> {
        self.entries[range.clone()]
            .iter()
            .map(|(entry, _)| entry.clone())
            .collect()
    }
}
