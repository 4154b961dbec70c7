//! What the writer shares with the readers: the states of jobs as committed, and how far the journal reaches.

use crate::error::Fault;
use crate::load::Known;
use clampbook_book::ids::JobId;
use lru::LruCache;
use std::num::NonZeroUsize;
use std::sync::{Mutex, MutexGuard, PoisonError};
use tokio::sync::watch;

/// Committed states and the last place in the file.
#[derive(Debug)]
pub(crate) struct Shared {
    jobs: Mutex<LruCache<JobId, Known>>,
    last_seq: watch::Sender<i64>,
}

impl Shared {
    pub(crate) fn new(jobs: NonZeroUsize, last_seq: i64) -> Self {
        Self {
            jobs: Mutex::new(LruCache::new(jobs)),
            last_seq: watch::Sender::new(last_seq),
        }
    }

    pub(crate) fn get(&self, job: &JobId) -> Option<Known> {
        self.lock().get(job).cloned()
    }

    /// The writer's: these are the states now, and the journal reaches to `last_seq`. States first, so that whoever is
    /// woken by the number finds them.
    pub(crate) fn publish(&self, jobs: impl IntoIterator<Item = (JobId, Known)>, last_seq: i64) {
        let mut cache = self.lock();
        for (id, known) in jobs {
            cache.put(id, known);
        }
        drop(cache);
        self.last_seq.send_replace(last_seq);
    }

    /// The writer's: what is committed is not known any more.
    pub(crate) fn forget(&self) {
        self.lock().clear();
    }

    /// A reader's: takes a state it has folded, unless there is one or it may be out of date by now.
    ///
    /// The check runs under the lock. The writer commits, then waits for the lock to publish; so a state that is
    /// the newest while the lock is held is the newest that anybody has published.
    pub(crate) fn offer(
        &self,
        known: Known,
        is_newest: impl FnOnce(&Known) -> Result<bool, Fault>,
    ) -> Result<Known, Fault> {
        let mut cache = self.lock();
        if let Some(there) = cache.get(&known.job.id) {
            return Ok(there.clone());
        }
        if is_newest(&known)? {
            cache.put(known.job.id.clone(), known.clone());
        }
        Ok(known)
    }

    pub(crate) fn watch(&self) -> watch::Receiver<i64> {
        self.last_seq.subscribe()
    }

    fn lock(&self) -> MutexGuard<'_, LruCache<JobId, Known>> {
        // Every change is a single put, so a panic elsewhere leaves nothing half done.
        self.jobs.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
