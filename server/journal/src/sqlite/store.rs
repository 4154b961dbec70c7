//! The store as its users see it: a handle that can be cloned and used from any task.

use crate::protocol::chain::Head;
use crate::protocol::entry::StoredEntry;
use crate::protocol::error::{CommitError, ReadError};
use crate::protocol::judge::Judge;
use crate::protocol::request::{Given, Order, Receipt};
use crate::sqlite::backup::{Backup, backup_file};
use crate::sqlite::blob;
use crate::sqlite::cache::Shared;
use crate::sqlite::condition::Condition;
use crate::sqlite::error::{BackupError, OpenError};
use crate::sqlite::load::{last_number, load};
use crate::sqlite::open::opened;
use crate::sqlite::options::Options;
use crate::sqlite::queue::{Task, Ticket};
use crate::sqlite::read::{Readers, entries_after, entries_of};
use crate::sqlite::summary::{self, JobPage, JobsAfter};
use crate::sqlite::verify::{self, Verification};
use crate::sqlite::writer;
use clampbook_book::fact::ContentHash;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::{SyncSender, TrySendError};
use tokio::sync::{oneshot, watch};
use tokio::task::spawn_blocking;

/// An open journal.
#[derive(Clone)]
pub struct Store {
    queue: SyncSender<Task>,
    shared: Arc<Shared>,
    judge: Arc<Judge>,
    readers: Arc<Readers>,
}

impl std::fmt::Debug for Store {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Store")
            .field("path", self.readers.path())
            .finish_non_exhaustive()
    }
}

impl Store {
    /// Opens the journal, creates it or brings it to the latest schema, and starts its writer.
    ///
    /// # Errors
    /// The file is in use, not ours, newer than this program, damaged, or cannot be used.
    pub fn open(options: Options) -> Result<Self, OpenError> {
        let opened = opened(&options)?;
        let (path, place) = (opened.path.clone(), opened.place.clone());
        let shared = opened.shared.clone();
        let judge = Arc::new(Judge {
            decider: options.decider,
            clock: options.clock,
        });
        let queue = writer::start(options.queue, judge.clone(), options.barrier, opened).map_err(
            |error| OpenError::File {
                path: path.clone(),
                detail: format!("its writer cannot be started: {error}"),
            },
        )?;
        Ok(Self {
            queue,
            shared,
            judge,
            readers: Arc::new(Readers::new(path, place)),
        })
    }

    /// Judges an order and writes what follows from it. Answers after it is on the disk.
    ///
    /// # Errors
    /// Nothing was written, except for [`CommitError::OutcomeUnknown`].
    pub async fn commit(&self, order: Order) -> Result<Receipt, CommitError> {
        let (answer, answered) = oneshot::channel();
        let ahead = self.judge.ahead(&order, |id| {
            Some((self.shared.get(id)?.state, self.shared.shop()))
        });
        let given = Box::new(Given { order, ahead });
        self.queue
            .try_send(Task::Commit(Ticket { given, answer }))
            .map_err(|error| match error {
                TrySendError::Full(_) => CommitError::Full,
                TrySendError::Disconnected(_) => CommitError::Stopped,
            })?;
        // An order that the writer leaves unanswered was still in the queue when it stopped.
        let (answer, _given) = answered.await.map_err(|_| CommitError::Stopped)?;
        answer
    }

    /// The state of a job as committed; nothing when nothing was ever written about it.
    ///
    /// # Errors
    /// The journal cannot be read.
    pub async fn job(&self, id: &JobId) -> Result<Option<Arc<Job>>, ReadError> {
        let known = match self.shared.get(id) {
            Some(known) => Some(known),
            None => {
                let (id, shared) = (id.clone(), self.shared.clone());
                self.readers
                    .read(move |conn| {
                        load(conn, &Stream::Job(id.clone()), || Job::new(id))?
                            .map(|known| {
                                shared.offer(known, |known| {
                                    Ok(last_number(conn, known.stream)? == known.state.last)
                                })
                            })
                            .transpose()
                    })
                    .await?
            }
        };
        Ok(known.map(|k| k.state).filter(|job| job.last > 0))
    }

    /// The state of the shop as committed.
    #[must_use]
    pub fn shop(&self) -> Arc<Shop> {
        self.shared.shop()
    }

    /// A page of the job list, the job written last first.
    ///
    /// # Errors
    /// The journal cannot be read.
    pub async fn jobs(&self, after: Option<JobsAfter>, limit: u32) -> Result<JobPage, ReadError> {
        self.readers
            .read(move |conn| summary::page(conn, after, limit))
            .await
    }

    /// Entries of a stream with numbers after `after`, oldest first.
    ///
    /// # Errors
    /// The journal cannot be read.
    pub async fn entries(
        &self,
        stream: Stream,
        after: EntryNumber,
        limit: u32,
    ) -> Result<Vec<StoredEntry>, ReadError> {
        self.readers
            .read(move |conn| entries_of(conn, &stream, after, limit))
            .await
    }

    /// Entries after a place in the file, of one stream or of all, oldest first.
    ///
    /// # Errors
    /// The journal cannot be read.
    pub async fn entries_after(
        &self,
        seq: i64,
        stream: Option<Stream>,
        limit: u32,
    ) -> Result<Vec<StoredEntry>, ReadError> {
        if let Some(last) = self.shared.after(seq, stream.as_ref(), limit) {
            return Ok(last);
        }
        self.readers
            .read(move |conn| entries_after(conn, seq, stream.as_ref(), limit))
            .await
    }

    /// The content with this hash, if it is kept.
    ///
    /// # Errors
    /// The journal cannot be read, or the content is not what was written.
    pub async fn blob(&self, hash: ContentHash) -> Result<Option<Arc<[u8]>>, ReadError> {
        self.readers.read(move |conn| blob::read(conn, hash)).await
    }

    /// The last place in the file, as it grows by entries of a stream, or by any. Entries up to it can be read.
    #[must_use]
    pub fn last_seq(&self, stream: Option<&Stream>) -> watch::Receiver<i64> {
        self.shared.wait(stream)
    }

    /// Whether the journal can be written, as it changes.
    #[must_use]
    pub fn condition(&self) -> watch::Receiver<Condition> {
        self.shared.condition()
    }

    /// The end of the chain.
    ///
    /// # Errors
    /// The journal cannot be read.
    pub async fn head(&self) -> Result<Head, ReadError> {
        self.readers.read(verify::head).await
    }

    /// Verifies every entry and every content, and that no index hides an entry.
    ///
    /// # Errors
    /// The journal cannot be read. A broken chain is no error but the finding.
    pub async fn verify(&self) -> Result<Verification, ReadError> {
        self.readers.read(verify::whole).await
    }

    /// Compares indexes with tables and the job list with the entries, which takes minutes on a large file; what is wrong, one
    /// line each.
    ///
    /// # Errors
    /// The journal cannot be read, or the store was stopped meanwhile.
    pub async fn examine(&self) -> Result<Vec<String>, ReadError> {
        self.readers.examine().await
    }

    /// Copies the journal to a new file while it is written to.
    ///
    /// # Errors
    /// There is something at `target`, the copy is not sound, or a file cannot be used.
    pub async fn backup(&self, target: &Path) -> Result<Backup, BackupError> {
        self.readers.in_place()?;
        let (source, target) = (self.readers.path().clone(), target.to_owned());
        spawn_blocking(move || backup_file(&source, &target))
            .await
            .map_err(|error| {
                BackupError::Read(ReadError::Broken {
                    detail: error.to_string(),
                })
            })?
    }

    /// Writes the read models again from the entries.
    ///
    /// # Errors
    /// The journal cannot be read or written; the read models are as before.
    pub async fn rebuild_read_models(&self) -> Result<(), CommitError> {
        let (answer, answered) = oneshot::channel();
        self.tell(Task::Rebuild(answer)).await?;
        answered.await.unwrap_or(Err(CommitError::Stopped))
    }

    /// Writes what waits, closes the file and gives it free. Afterwards every call that
    /// needs the file answers that the store is stopped.
    pub async fn stop(&self) {
        self.readers.close().await;
        self.shared.close();
        let (answer, answered) = oneshot::channel();
        if self.tell(Task::Stop(answer)).await.is_ok() {
            // No answer means that the writer was stopped by somebody else in between.
            let _ = answered.await;
        }
    }

    /// Waits for room in the queue.
    async fn tell(&self, task: Task) -> Result<(), CommitError> {
        let queue = self.queue.clone();
        spawn_blocking(move || queue.send(task).map_err(|_| CommitError::Stopped))
            .await
            .unwrap_or(Err(CommitError::Stopped))
    }
}
