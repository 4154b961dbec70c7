//! The backends under the suite, each with a clock that is set by hand.

use super::memory::Memory;
use crate::protocol::chain::Head;
use crate::protocol::entry::StoredEntry;
use crate::protocol::error::CommitError;
use crate::protocol::judge::{Clock, Judge};
use crate::protocol::request::{Fingerprint, Order, Receipt, Work};
use crate::sqlite::options::Options;
use crate::sqlite::store::Store;
use clampbook_book::command::{Command, ShopCommand};
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::fact::{AssemblyAdded, JobOpened, PersonStated};
use clampbook_book::ids::{AssemblyId, JobId, PersonId};
use clampbook_book::judge::judge;
use clampbook_book::stream::Stream;
use clampbook_book::words::PersonRole;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering::SeqCst};
use tempfile::TempDir;
use tokio::task::spawn_blocking;
use uuid::Uuid;

/// A handle on a journal, as the suite uses it.
pub(super) trait Backend: Sized {
    /// Another handle on the same journal.
    fn another(&self) -> Self;
    /// The same journal opened again.
    async fn restarted(self) -> Self;
    async fn commit(&self, order: Order) -> Result<Receipt, CommitError>;
    async fn read(&self, after: i64, stream: Option<&Stream>) -> Vec<StoredEntry>;
    async fn head(&self) -> Head;
    fn set_clock(&self, micros: i64);
}

#[derive(Clone)]
struct Hand(Arc<AtomicI64>);

impl Hand {
    fn new() -> Self {
        Self(Arc::new(AtomicI64::new(1_000_000)))
    }

    fn clock(&self) -> Clock {
        let hand = self.0.clone();
        Arc::new(move || Moment(hand.load(SeqCst)))
    }
}

pub(super) struct InMemory {
    pub(super) handle: Arc<Memory>,
    hand: Hand,
}

impl InMemory {
    pub(super) fn new() -> Self {
        let hand = Hand::new();
        let handle = Memory::new(Judge {
            decider: Box::new(judge),
            clock: hand.clock(),
        });
        Self {
            handle: Arc::new(handle),
            hand,
        }
    }
}

impl Backend for InMemory {
    fn another(&self) -> Self {
        Self {
            handle: Arc::new(self.handle.another()),
            hand: self.hand.clone(),
        }
    }

    async fn restarted(self) -> Self {
        self.another()
    }

    async fn commit(&self, order: Order) -> Result<Receipt, CommitError> {
        let handle = self.handle.clone();
        let committed = spawn_blocking(move || handle.commit(&order));
        committed.await.expect("it ends")
    }

    async fn read(&self, after: i64, stream: Option<&Stream>) -> Vec<StoredEntry> {
        self.handle.read(after, stream)
    }

    async fn head(&self) -> Head {
        self.handle.head()
    }

    fn set_clock(&self, micros: i64) {
        self.hand.0.store(micros, SeqCst);
    }
}

pub(super) struct InSqlite {
    store: Store,
    hand: Hand,
    folder: Arc<TempDir>,
}

impl InSqlite {
    pub(super) fn new() -> Self {
        let folder = Arc::new(TempDir::new().expect("a temporary folder"));
        Self::open(folder, Hand::new())
    }

    fn open(folder: Arc<TempDir>, hand: Hand) -> Self {
        let path = folder.path().join("shop.clampbook");
        let options = Options::new(path, Box::new(judge), hand.clock());
        Self {
            store: Store::open(options).expect("the journal opens"),
            hand,
            folder,
        }
    }
}

impl Backend for InSqlite {
    fn another(&self) -> Self {
        Self {
            store: self.store.clone(),
            hand: self.hand.clone(),
            folder: self.folder.clone(),
        }
    }

    async fn restarted(self) -> Self {
        self.store.stop().await;
        Self::open(self.folder, self.hand)
    }

    async fn commit(&self, order: Order) -> Result<Receipt, CommitError> {
        self.store.commit(order).await
    }

    async fn read(&self, after: i64, stream: Option<&Stream>) -> Vec<StoredEntry> {
        let read = self.store.entries_after(after, stream.cloned(), 1_000);
        read.await.expect("it can be read")
    }

    async fn head(&self) -> Head {
        self.store.head().await.expect("it can be read")
    }

    fn set_clock(&self, micros: i64) {
        self.hand.0.store(micros, SeqCst);
    }
}

/// Opens a job.
pub(super) fn order(job: &JobId, machine: &str) -> Order {
    let opened = JobOpened {
        display_name: machine.into(),
        machine: machine.into(),
        torque_unit: None,
    };
    order_for(Work::Job(job.clone(), Command::OpenJob(opened)))
}

/// Adds an assembly to a job.
pub(super) fn assembly(job: &JobId, id: &str) -> Order {
    let added = AssemblyAdded {
        assembly: AssemblyId::new(id).expect("a slug"),
        display_name: id.into(),
        counterpart: None,
    };
    order_for(Work::Job(job.clone(), Command::AddAssembly(added)))
}

/// Enters a person; a caller of their name is that person from then on.
pub(super) fn shop_order(person: &str) -> Order {
    order_for(Work::Shop(ShopCommand::CreatePerson(PersonStated {
        person: PersonId::new(person).expect("a slug"),
        name: person.into(),
        roles: vec![PersonRole::Mechanic],
    })))
}

fn order_for(work: Work) -> Order {
    Order {
        request: Uuid::new_v4(),
        fingerprint: Fingerprint {
            version: 1,
            hash: *blake3::hash(format!("{work:?}").as_bytes()).as_bytes(),
        },
        caller: Caller {
            person: "Ada".into(),
            device: "bench tablet".into(),
        },
        said: None,
        blob: None,
        work,
    }
}
