//! The ledger: what was asked and what was acknowledged, kept outside of the process under test.

use crate::ask::{Answer, Ask};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use tokio::sync::watch;
use tonic::Status;

/// One request, written down before it is sent.
#[derive(Clone, Debug)]
pub(crate) struct Record {
    /// Who asked; each asks one thing after the other.
    pub(crate) lane: usize,
    pub(crate) ask: Ask,
    /// Whether all of it was sent; what was not must not be kept.
    pub(crate) whole: bool,
    /// The first answer; nothing while there is none.
    pub(crate) answer: Option<Answer>,
}

/// All requests of a round, in the order they were sent.
#[derive(Debug)]
pub(crate) struct Ledger {
    records: Mutex<Vec<Record>>,
    acknowledged: watch::Sender<usize>,
    going_down: AtomicBool,
    cut_off: Mutex<Vec<Status>>,
}

impl Ledger {
    pub(crate) fn new() -> Self {
        Self {
            records: Mutex::default(),
            acknowledged: watch::Sender::new(0),
            going_down: AtomicBool::new(false),
            cut_off: Mutex::default(),
        }
    }

    /// The same requests, as if none had been acknowledged.
    pub(crate) fn without_answers(&self) -> Self {
        let ledger = Self::new();
        for record in self.records() {
            ledger.sent(record.lane, record.ask);
        }
        ledger
    }

    /// Writes down what is about to be sent, and gives its place.
    pub(crate) fn sent(&self, lane: usize, ask: Ask) -> usize {
        self.write_down(lane, ask, true)
    }

    /// Writes down what is about to be sent and broken off.
    pub(crate) fn broken_off(&self, lane: usize, ask: Ask) {
        self.write_down(lane, ask, false);
    }

    fn write_down(&self, lane: usize, ask: Ask, whole: bool) -> usize {
        let mut records = self.records.lock().expect("no lane panicked");
        records.push(Record {
            lane,
            ask,
            whole,
            answer: None,
        });
        records.len() - 1
    }

    /// Writes down an acknowledgement.
    pub(crate) fn acknowledged(&self, place: usize, answer: Answer) {
        let mut records = self.records.lock().expect("no lane panicked");
        let before = records[place].answer.replace(answer);
        assert_eq!(before, None, "it is answered once");
        drop(records);
        self.acknowledged.send_modify(|count| *count += 1);
    }

    /// From here on calls may be cut off.
    pub(crate) fn goes_down(&self) {
        self.going_down.store(true, Ordering::SeqCst);
    }

    /// A call was cut off. That may only be once the server is going down.
    pub(crate) fn cut_off(&self, ask: &Ask, status: &Status) {
        assert!(
            self.going_down.load(Ordering::SeqCst),
            "{ask:?} was cut off by a running server: {status:?}"
        );
        let mut cut_off = self.cut_off.lock().expect("no lane panicked");
        cut_off.push(status.clone());
    }

    /// What those who were cut off were told.
    pub(crate) fn cut_off_with(&self) -> Vec<Status> {
        self.cut_off.lock().expect("no lane panicked").clone()
    }

    /// How many are acknowledged.
    pub(crate) fn acknowledged_count(&self) -> usize {
        *self.acknowledged.borrow()
    }

    /// Waits until so many are acknowledged.
    pub(crate) async fn reaches(&self, count: usize) {
        let mut watched = self.acknowledged.subscribe();
        let reached = watched.wait_for(|now| *now >= count).await;
        reached.expect("the ledger is here");
    }

    /// How many of a kind are sent and not answered.
    pub(crate) fn in_flight(&self, kind: impl Fn(&Ask) -> bool) -> usize {
        let records = self.records.lock().expect("no lane panicked");
        let waits = |r: &&Record| r.whole && r.answer.is_none() && kind(&r.ask);
        records.iter().filter(waits).count()
    }

    /// Everything in it.
    pub(crate) fn records(&self) -> Vec<Record> {
        self.records.lock().expect("no lane panicked").clone()
    }
}
