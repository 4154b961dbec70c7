//! The writer: one thread that owns the one writing connection, takes waiting orders in groups and answers them.

use crate::protocol::entry::StoredEntry;
use crate::protocol::error::CommitError;
use crate::protocol::judge::Judge;
use crate::sqlite::at::At;
use crate::sqlite::barrier::{self, Barrier, BarrierPoint};
use crate::sqlite::batch::{Answer, Batch, Written};
use crate::sqlite::cache::Shared;
use crate::sqlite::claim::Claim;
use crate::sqlite::condition::Condition;
use crate::sqlite::disk;
use crate::sqlite::error::RowError;
use crate::sqlite::load::Known;
use crate::sqlite::open::Opened;
use crate::sqlite::place::Place;
use crate::sqlite::queue::{Task, Ticket, gather, has_room};
use crate::sqlite::{migrate, summary, verify};
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use rusqlite::{Connection, TransactionBehavior};
use std::path::PathBuf;
use std::process::abort;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, sync_channel};
use std::thread;
use std::time::Duration;

/// How long a group waits for others when the one before had several: a caller who was just answered asks again at once, and a
/// sync shared by many costs each caller less than the wait.
const GATHERING: Duration = Duration::from_micros(50);

/// How long nothing may come before the write-ahead log is put into the file, and how often an idle journal is looked for in
/// its place.
const IDLE: Duration = Duration::from_secs(2);

/// Starts the writer and gives its queue.
pub(crate) fn start(
    queue: usize,
    judge: Arc<Judge>,
    barrier: Option<Barrier>,
    opened: Opened,
) -> std::io::Result<SyncSender<Task>> {
    let (queue, tasks) = sync_channel(queue);
    let writer = Writer {
        conn: opened.conn,
        path: opened.path,
        place: opened.place,
        at: Some(opened.at),
        no_shop: opened.no_shop,
        shared: opened.shared,
        judge,
        barrier,
        unmerged: true,
        _claim: opened.claim,
    };
    thread::Builder::new()
        .name("store-writer".into())
        .spawn(move || {
            let _guard = PanicIsFatal;
            writer.run(&tasks);
        })?;
    Ok(queue)
}

/// Ends the process when the writer panics. That is not a decision about one order, so what is in memory cannot be
/// trusted any more; and nobody may be told that nothing was written, which a dropped answer would mean.
struct PanicIsFatal;

impl Drop for PanicIsFatal {
    fn drop(&mut self) {
        if thread::panicking() {
            tracing::error!("the writer of the journal panicked, the process ends");
            abort();
        }
    }
}

struct Writer {
    conn: Connection,
    path: PathBuf,
    place: Arc<Place>,
    /// The last entry and the shop; nothing while it is not known whether a commit went through.
    at: Option<At>,
    no_shop: Arc<Shop>,
    shared: Arc<Shared>,
    judge: Arc<Judge>,
    barrier: Option<Barrier>,
    /// Whether the write-ahead log may hold something that is not in the file yet.
    unmerged: bool,
    _claim: Claim,
}

/// Why orders were not written.
enum Unwritten {
    /// Something went wrong; nothing was written.
    Fault(RowError),
    /// Whether they were is not known.
    Unknown,
}

impl<E: Into<RowError>> From<E> for Unwritten {
    fn from(error: E) -> Self {
        Self::Fault(error.into())
    }
}

impl Writer {
    fn run(mut self, tasks: &Receiver<Task>) {
        let mut put_back = None;
        let mut crowded = false;
        loop {
            let Some(task) = put_back.take().or_else(|| self.wait(tasks)) else {
                self.merge_log();
                return;
            };
            match task {
                Task::Commit(first) => {
                    let mut group = vec![first];
                    put_back = gather(&mut group, tasks);
                    if crowded && put_back.is_none() && has_room(&group) {
                        thread::sleep(GATHERING);
                        put_back = gather(&mut group, tasks);
                    }
                    crowded = group.len() > 1;
                    self.commit(group);
                }
                Task::Rebuild(answer) => {
                    let _ = answer.send(self.rebuild());
                }
                Task::Stop(answer) => {
                    self.merge_log();
                    drop(self);
                    let _ = answer.send(());
                    return;
                }
            }
        }
    }

    /// The next task; nothing when nobody can ask for anything any more.
    fn wait(&mut self, tasks: &Receiver<Task>) -> Option<Task> {
        loop {
            match tasks.recv_timeout(IDLE) {
                Err(RecvTimeoutError::Timeout) => self.rest(),
                other => return other.ok(),
            }
        }
    }

    /// What is done while nothing comes.
    fn rest(&mut self) {
        if self.in_place().is_err() {
            return;
        }
        let condition = self.shared.condition().borrow().clone();
        if condition != Condition::Sound && self.try_to_write().is_ok() {
            self.unmerged = true;
            self.shared.is_in(Condition::Sound);
        }
        if self.unmerged {
            self.merge_log();
        }
    }

    /// Makes sure that the file is where it was opened.
    fn in_place(&self) -> Result<(), CommitError> {
        self.place.check().map_err(|detail| {
            self.shared.is_in(Condition::Lost(detail.clone()));
            CommitError::Lost { detail }
        })
    }

    /// Writes a page as it is.
    fn try_to_write(&self) -> rusqlite::Result<()> {
        self.conn
            .pragma_update(None, "user_version", migrate::latest())
    }

    fn commit(&mut self, group: Vec<Ticket>) {
        self.unmerged = true;
        // Dropped before those who wait are.
        let _guard = PanicIsFatal;
        let answers = match self.write(&group) {
            Ok((answers, written)) => {
                self.arrive(written.jobs, written.entries, written.at);
                answers
            }
            Err(error) => {
                self.must_be_idle();
                if error == CommitError::OutcomeUnknown {
                    // The shop is not read from the file again but by the writer. If that fails, the next order tries again.
                    let _ = self.known_place();
                }
                vec![Err(error); group.len()]
            }
        };
        barrier::pass(self.barrier.as_ref(), BarrierPoint::BeforeAnswer);
        for (ticket, answer) in group.into_iter().zip(answers) {
            let _ = ticket.answer.send((answer, ticket.given));
        }
    }

    /// Writes all orders and makes sure that they are in the file that everybody will look for them in.
    fn write(&mut self, group: &[Ticket]) -> Result<(Vec<Answer>, Written), CommitError> {
        self.in_place()?;
        let written = self.transact(group).map_err(|unwritten| match unwritten {
            Unwritten::Fault(fault) => self.refused(fault),
            Unwritten::Unknown => CommitError::OutcomeUnknown,
        })?;
        // What was written into a file that is gone may be found again, with luck.
        self.in_place().map_err(|_| CommitError::OutcomeUnknown)?;
        self.shared.is_in(Condition::Sound);
        Ok(written)
    }

    /// Judges and writes all orders in one transaction.
    fn transact(&mut self, group: &[Ticket]) -> Result<(Vec<Answer>, Written), Unwritten> {
        let at = self.known_place()?;
        let before = at.head;
        let tx = self
            .conn
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        barrier::pass(self.barrier.as_ref(), BarrierPoint::AfterBegin);
        let mut batch = Batch::new(
            &tx,
            &self.judge,
            self.barrier.as_ref(),
            &self.shared,
            at,
            &self.no_shop,
        )?;
        let mut answers = Vec::with_capacity(group.len());
        for ticket in group {
            answers.push(batch.take(&ticket.given)?);
        }
        let written = batch.finish()?;
        barrier::pass(self.barrier.as_ref(), BarrierPoint::BeforeCommit);
        if let Err(error) = tx.commit() {
            tracing::error!(%error, "commit failed");
            if disk::is_failed_sync(&error) {
                // The system may have dropped what it could not write; only reading the file again tells what is left.
                abort();
            }
            match verify::head(&self.conn) {
                Ok(head) if head == before && disk::is_cut_off(&error) => return Err(error.into()),
                Ok(head) if head == written.at.head && head != before => {}
                _ => {
                    self.at = None;
                    self.shared.forget();
                    return Err(Unwritten::Unknown);
                }
            }
        }
        barrier::pass(self.barrier.as_ref(), BarrierPoint::AfterCommit);
        Ok((answers, written))
    }

    /// A fault before anything was written, in the caller's words; everybody who watches hears what it says of the disk.
    fn refused(&self, fault: RowError) -> CommitError {
        let Some(condition) = disk::condition(&fault, &self.path) else {
            return fault.into();
        };
        self.shared.is_in(condition.clone());
        match condition {
            Condition::Full => CommitError::NoSpace,
            other => CommitError::Broken {
                detail: other.to_string(),
            },
        }
    }

    /// Where the journal is, from the file after a commit that may or may not have gone through.
    fn known_place(&mut self) -> Result<At, RowError> {
        if let Some(at) = &self.at {
            return Ok(at.clone());
        }
        let at = At::read(&self.conn, verify::head(&self.conn)?, &self.no_shop)?;
        self.arrive([], Vec::new(), at.clone());
        Ok(at)
    }

    /// Everybody may see now what is committed.
    fn arrive(
        &mut self,
        jobs: impl IntoIterator<Item = (JobId, Known<Job>)>,
        committed: Vec<StoredEntry>,
        at: At,
    ) {
        self.shared
            .publish(jobs, at.shop(&self.no_shop), committed, at.head.seq);
        self.at = Some(at);
    }

    fn rebuild(&mut self) -> Result<(), CommitError> {
        self.in_place()?;
        self.unmerged = true;
        let rebuilt = self
            .conn
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(RowError::from)
            .and_then(|tx| {
                summary::rebuild(&tx)?;
                Ok(tx.commit()?)
            });
        if rebuilt.is_err() {
            self.must_be_idle();
        }
        Ok(rebuilt?)
    }

    /// After a failure: a transaction that cannot be ended would swallow everything that comes.
    fn must_be_idle(&self) {
        if !self.conn.is_autocommit() {
            tracing::error!("a failed transaction cannot be rolled back, the process ends");
            abort();
        }
    }

    /// Puts the write-ahead log into the file and empties it. Readers may prevent that; then it is tried at the next rest.
    fn merge_log(&mut self) {
        if self.in_place().is_err() {
            return;
        }
        let busy = self
            .conn
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0));
        match busy {
            Ok(0_i64) => self.unmerged = false,
            Ok(_) => {}
            Err(error) => {
                tracing::warn!(%error, "the write-ahead log could not be put into the file")
            }
        }
    }
}
