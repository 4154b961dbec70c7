//! A journal in a temporary folder, judged by the book's own rules, and the words to fill it with.
//!
//! When a [`Shop`] is dropped its file must be whole: integrity, references, the chain.

#![allow(dead_code, reason = "each test binary uses its own part")]

mod commands;

use clampbook_book::command::{Command, ShopCommand};
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::judge::judge;
use clampbook_book::stream::Stream;
use clampbook_journal::{
    Clock, CommitError, Decider, Fingerprint, Options, Order, Receipt, Store, Work, verify_file,
};
use rusqlite::Connection;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicI64, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use tempfile::TempDir;
use tokio::task::JoinHandle;
use uuid::Uuid;

pub(crate) use commands::*;

/// A clock that stands still until it is moved.
#[derive(Clone, Default)]
pub(crate) struct Hand(Arc<AtomicI64>);

impl Hand {
    pub(crate) fn set(&self, micros: i64) {
        self.0.store(micros, Ordering::SeqCst);
    }

    pub(crate) fn now(&self) -> Moment {
        Moment(self.0.load(Ordering::SeqCst))
    }

    pub(crate) fn clock(&self) -> Clock {
        let hand = self.clone();
        Arc::new(move || hand.now())
    }
}

/// The book's own judgement.
pub(crate) fn book() -> Decider {
    Box::new(judge)
}

/// A gate that the writer waits at while it is shut, before it takes an order, so that orders gather behind it.
#[derive(Clone, Default)]
pub(crate) struct Gate(Arc<(Mutex<Passage>, Condvar)>);

#[derive(Default)]
struct Passage {
    shut: bool,
    waiting: bool,
}

impl Gate {
    pub(crate) fn shut(&self) {
        self.passage().shut = true;
    }

    pub(crate) fn open(&self) {
        self.passage().shut = false;
        self.0.1.notify_all();
    }

    /// The writer stands before it.
    pub(crate) async fn reached(&self) {
        while !self.passage().waiting {
            tokio::time::sleep(Duration::from_millis(1)).await;
        }
    }

    fn passage(&self) -> MutexGuard<'_, Passage> {
        self.0.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn pass(&self) {
        let mut passage = self.passage();
        passage.waiting = true;
        let mut through = (self.0.1)
            .wait_while(passage, |passage| passage.shut)
            .unwrap_or_else(PoisonError::into_inner);
        through.waiting = false;
    }

    /// A clock that the writer finds behind this gate; whoever else looks at it need not wait.
    pub(crate) fn before(&self, clock: Clock) -> Clock {
        let gate = self.clone();
        Arc::new(move || {
            if is_writer() {
                gate.pass();
            }
            clock()
        })
    }
}

/// Whether this is the thread that writes the journal.
pub(crate) fn is_writer() -> bool {
    std::thread::current().name() == Some("store-writer")
}

/// Gives an order in a task of its own.
pub(crate) fn give(store: &Store, order: Order) -> JoinHandle<Result<Receipt, CommitError>> {
    let store = store.clone();
    tokio::spawn(async move { store.commit(order).await })
}

/// Lets every task that can run on this one thread run, in the order they were spawned.
pub(crate) async fn let_all_queue_up() {
    for _ in 0..3 {
        tokio::task::yield_now().await;
    }
}

/// A journal in a temporary folder.
pub(crate) struct Shop {
    pub(crate) hand: Hand,
    folder: TempDir,
}

impl Shop {
    pub(crate) fn new() -> Self {
        let hand = Hand::default();
        hand.set(1_790_000_000_000_000);
        Self {
            hand,
            folder: TempDir::new().expect("a temporary folder"),
        }
    }

    /// A shop with a journal that was written by the program of an older schema.
    pub(crate) fn of_schema(number: i64) -> Self {
        let shop = Self::new();
        let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/fixtures");
        let fixture = fixtures.join(format!("schema_{number}.clampbook.db"));
        std::fs::copy(fixture, shop.path()).expect("it can be copied");
        shop
    }

    pub(crate) fn folder(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn path(&self) -> PathBuf {
        self.folder().join("shop.clampbook")
    }

    pub(crate) fn options(&self) -> Options {
        Options::new(self.path(), book(), self.hand.clock())
    }

    pub(crate) fn open(&self) -> Store {
        Store::open(self.options()).expect("the journal opens")
    }

    /// A connection of somebody who does not know the rules.
    pub(crate) fn outsider(&self) -> Connection {
        Connection::open(self.path()).expect("the file opens")
    }
}

impl Drop for Shop {
    fn drop(&mut self) {
        if std::thread::panicking() || !self.path().exists() {
            return;
        }
        let conn = self.outsider();
        let integrity: String = conn
            .query_row("PRAGMA integrity_check", [], |row| row.get(0))
            .expect("integrity can be checked");
        assert_eq!(integrity, "ok");
        let loose: i64 = conn
            .query_row("SELECT count(*) FROM pragma_foreign_key_check", [], |r| {
                r.get(0)
            })
            .expect("references can be checked");
        assert_eq!(loose, 0, "every reference must lead somewhere");
        let found = verify_file(&self.path()).expect("the chain can be read");
        assert_eq!(found.first_break, None);
    }
}

/// Does as somebody does who knows how to get past the triggers, and puts them back.
pub(crate) fn tamper_with(conn: &Connection, sql: &str) {
    let triggers: Vec<(String, String)> = conn
        .prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
        .and_then(|mut all| {
            all.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect()
        })
        .expect("the triggers can be read");
    let lift: String = triggers
        .iter()
        .map(|(name, _)| format!("DROP TRIGGER {name};"))
        .collect();
    let put_back: String = triggers.iter().map(|(_, sql)| format!("{sql};")).collect();
    conn.execute_batch(&format!(
        "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; {lift} {sql}; {put_back}"
    ))
    .expect("an outsider can do anything");
}

pub(crate) fn job(id: &str) -> JobId {
    JobId::new(id).expect("a slug")
}

/// A job's stream.
pub(crate) fn of(id: &str) -> Stream {
    Stream::Job(job(id))
}

/// An order with a request of its own; same request and same command give the same fingerprint.
pub(crate) fn order(job_id: &str, command: Command) -> Order {
    order_for(Work::Job(job(job_id), command))
}

/// The same, about the shop.
pub(crate) fn shop_order(command: ShopCommand) -> Order {
    order_for(Work::Shop(command))
}

fn order_for(work: Work) -> Order {
    Order {
        request: Uuid::new_v4(),
        fingerprint: fingerprint(&work),
        caller: Caller {
            person: "Ada".into(),
            device: "bench tablet".into(),
        },
        said: None,
        blob: None,
        work,
    }
}

pub(crate) fn fingerprint(work: &Work) -> Fingerprint {
    Fingerprint {
        version: 1,
        hash: *blake3::hash(format!("{work:?}").as_bytes()).as_bytes(),
    }
}

/// The job right after a request about it.
pub(crate) fn after(receipt: &Receipt) -> &Arc<Job> {
    receipt.job.as_ref().expect("it was about a job")
}

/// A job with one assembly and one joint, `drum`.
pub(crate) async fn lay_out(store: &Store, job_id: &str, positions: usize) -> Vec<Receipt> {
    let mut receipts = Vec::new();
    for command in [open_job(), add_assembly(), add_joint("drum", positions)] {
        let receipt = store.commit(order(job_id, command)).await;
        receipts.push(receipt.expect("the job is laid out"));
    }
    receipts
}
