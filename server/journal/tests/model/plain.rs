//! The model: what the store promises, in lists and maps, without a file, a thread or a cache.

use crate::support::book;
use clampbook_book::command::Command;
use clampbook_book::entry::{Entry, Moment, Said};
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::judge::{Asked, Context};
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use clampbook_journal::{CommitError, Decider, Fingerprint, Order, Work};
use std::collections::BTreeMap;
use std::ops::Range;
use uuid::Uuid;

/// Position whose removal the judgement panics at.
pub(crate) const PANICS_AT: u16 = 13;

/// The book's judgement with a bug in it.
pub(crate) fn buggy_book() -> Decider {
    let judge = book();
    Box::new(move |asked, context| match asked {
        Asked::OfJob(_, Command::LogRemoval(removed)) if removed.position == PANICS_AT => {
            panic!("the bug that the test put here")
        }
        _ => judge(asked, context),
    })
}

/// What is expected of an order.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Expected {
    /// These entries with their places in the file, made by an earlier sending or not.
    Written {
        replayed: bool,
        entries: Vec<(i64, Entry)>,
        job: Option<Box<Job>>,
        shop: Box<Shop>,
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
    /// Every accepted request: fingerprint, stream, and which entries it made.
    pub(crate) requests: BTreeMap<Uuid, (Fingerprint, Stream, Range<usize>)>,
    /// The shop before anything is said about it.
    no_shop: Shop,
}

impl Plain {
    pub(crate) fn new() -> Self {
        Self {
            judge: book(),
            entries: Vec::new(),
            requests: BTreeMap::new(),
            no_shop: Shop::new(),
        }
    }

    /// The job as all its entries add up, from the first.
    pub(crate) fn job(&self, id: &JobId) -> Job {
        let mut job = Job::new(id.clone());
        for (_, entry) in self.of(&Stream::Job(id.clone())) {
            job.apply(entry);
        }
        job
    }

    /// The shop as all its entries add up, from the first.
    pub(crate) fn shop(&self) -> Shop {
        let mut shop = self.no_shop.clone();
        for (_, entry) in self.of(&Stream::Shop) {
            shop.apply(entry);
        }
        shop
    }

    /// Entries of a stream with their places in the file.
    pub(crate) fn of(&self, stream: &Stream) -> impl Iterator<Item = (i64, &Entry)> {
        let all = (1..).zip(self.entries.iter().map(|(entry, _)| entry));
        all.filter(move |(_, entry)| entry.stream == *stream)
    }

    /// Jobs, the one written last first.
    pub(crate) fn jobs(&self) -> Vec<JobId> {
        let mut ids: Vec<JobId> = Vec::new();
        for (entry, _) in self.entries.iter().rev() {
            if let Stream::Job(id) = &entry.stream
                && !ids.contains(id)
            {
                ids.push(id.clone());
            }
        }
        ids
    }

    /// Takes an order at a time and says what is to be expected. Nothing is written with an earlier time than what is there.
    pub(crate) fn take(&mut self, order: &Order, clock: Moment) -> Expected {
        let last = self.entries.last();
        let now = last.map_or(clock, |(last, _)| last.said.written.max(clock));
        let stream = order.work.stream();
        if let Some((fingerprint, first, made)) = self.requests.get(&order.request) {
            if *fingerprint != order.fingerprint || *first != stream {
                return Expected::Error(CommitError::RequestReused);
            }
            return Expected::Written {
                replayed: true,
                entries: self.made(made),
                job: self.state(&stream),
                shop: Box::new(self.shop()),
            };
        }
        if matches!(&order.work, Work::Job(_, Command::LogRemoval(removed)) if removed.position == PANICS_AT)
        {
            return Expected::Panic;
        }
        let said = order.said.unwrap_or(now);
        let shop = self.shop();
        let context = Context {
            by: shop.speaker(&order.caller),
            said,
            now,
            shop: &shop,
        };
        let (judged, last) = match &order.work {
            Work::Job(id, command) => {
                let job = self.job(id);
                (
                    (self.judge)(Asked::OfJob(&job, command), &context),
                    job.last,
                )
            }
            Work::Shop(command) => ((self.judge)(Asked::OfShop(command), &context), shop.last),
        };
        let facts = match judged {
            Ok(facts) => facts,
            Err(refusal) => return Expected::Error(CommitError::Refused(refusal)),
        };
        let first = self.entries.len();
        for (fact, number) in facts.into_iter().zip(last + 1..) {
            let entry = Entry {
                stream: stream.clone(),
                number,
                said: Said {
                    by: context.by.clone(),
                    device: order.caller.device.clone(),
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
            .insert(order.request, (order.fingerprint, stream.clone(), made));
        Expected::Written {
            replayed: false,
            entries,
            job: self.state(&stream),
            shop: Box::new(self.shop()),
        }
    }

    fn state(&self, stream: &Stream) -> Option<Box<Job>> {
        match stream {
            Stream::Job(id) => Some(Box::new(self.job(id))),
            Stream::Shop => None,
        }
    }

    fn made(&self, range: &Range<usize>) -> Vec<(i64, Entry)> {
        (range.start as i64 + 1..)
            .zip(&self.entries[range.clone()])
            .map(|(seq, (entry, _))| (seq, entry.clone()))
            .collect()
    }
}
