//! What the writer shares with the readers: the states of jobs and of the shop as committed, and how far the journal
//! reaches.

use crate::protocol::entry::StoredEntry;
use crate::sqlite::condition::Condition;
use crate::sqlite::error::RowError;
use crate::sqlite::load::Known;
use crate::sqlite::tail::Tail;
use crate::sqlite::wake::Wakes;
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use lru::LruCache;
use std::num::NonZeroUsize;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock};
use tokio::sync::watch;

/// Committed states and the last place in the file.
#[derive(Debug)]
pub(crate) struct Shared {
    jobs: Mutex<LruCache<JobId, Known<Job>>>,
    /// Always there, because every calculation asks for it; locked for as long as a pointer is copied.
    shop: RwLock<Arc<Shop>>,
    tail: RwLock<Tail>,
    wakes: Wakes,
    condition: watch::Sender<Condition>,
}

impl Shared {
    pub(crate) fn new(jobs: NonZeroUsize, shop: Arc<Shop>, last_seq: i64) -> Self {
        Self {
            jobs: Mutex::new(LruCache::new(jobs)),
            shop: RwLock::new(shop),
            tail: RwLock::default(),
            wakes: Wakes::new(last_seq),
            condition: watch::Sender::new(Condition::Sound),
        }
    }

    pub(crate) fn get(&self, job: &JobId) -> Option<Known<Job>> {
        self.lock().get(job).cloned()
    }

    pub(crate) fn shop(&self) -> Arc<Shop> {
        let shop = self.shop.read().unwrap_or_else(PoisonError::into_inner);
        Arc::clone(&shop)
    }

    /// The writer's: these are the states now, these entries were committed, and the journal reaches to `last_seq`. States and
    /// entries first, so that anyone who is woken by the number finds them.
    pub(crate) fn publish(
        &self,
        jobs: impl IntoIterator<Item = (JobId, Known<Job>)>,
        shop: Arc<Shop>,
        committed: Vec<StoredEntry>,
        last_seq: i64,
    ) {
        *self.shop.write().unwrap_or_else(PoisonError::into_inner) = shop;
        let mut cache = self.lock();
        for (id, known) in jobs {
            cache.put(id, known);
        }
        drop(cache);
        let touched = committed.clone();
        let mut tail = self.tail.write().unwrap_or_else(PoisonError::into_inner);
        tail.take(committed, last_seq);
        drop(tail);
        self.wakes.wake(&touched, last_seq);
    }

    /// Entries after a place in the file, if they are among the last ones.
    pub(crate) fn after(
        &self,
        seq: i64,
        stream: Option<&Stream>,
        limit: u32,
    ) -> Option<Vec<StoredEntry>> {
        let tail = self.tail.read().unwrap_or_else(PoisonError::into_inner);
        tail.after(seq, stream, usize::try_from(limit).unwrap_or(usize::MAX))
    }

    /// Nothing is given from memory any more.
    pub(crate) fn close(&self) {
        let mut tail = self.tail.write().unwrap_or_else(PoisonError::into_inner);
        tail.clear();
    }

    /// The writer's: what is committed of jobs is not known any more.
    pub(crate) fn forget(&self) {
        self.lock().clear();
    }

    /// A reader's: takes a state it has folded, unless there is one or it may be out of date by now.
    ///
    /// The check runs under the lock. The writer commits, then waits for the lock to publish; so a state that is
    /// the newest while the lock is held is the newest that anybody has published.
    pub(crate) fn offer(
        &self,
        known: Known<Job>,
        is_newest: impl FnOnce(&Known<Job>) -> Result<bool, RowError>,
    ) -> Result<Known<Job>, RowError> {
        let mut cache = self.lock();
        if let Some(there) = cache.get(&known.state.id) {
            return Ok(there.clone());
        }
        if is_newest(&known)? {
            cache.put(known.state.id.clone(), known.clone());
        }
        Ok(known)
    }

    /// The writer's: so it is with the file now.
    pub(crate) fn is_in(&self, now: Condition) {
        self.condition.send_if_modified(|before| {
            let changed = *before != now && !before.is_final();
            if changed {
                match &now {
                    Condition::Sound => tracing::info!("{now}"),
                    other => tracing::error!(cause = %other, "the journal cannot be written"),
                }
                *before = now;
            }
            changed
        });
    }

    /// How it is with the file.
    pub(crate) fn condition(&self) -> watch::Receiver<Condition> {
        self.condition.subscribe()
    }

    /// The last place in the file, as it grows by entries of a stream, or by any.
    pub(crate) fn wait(&self, stream: Option<&Stream>) -> watch::Receiver<i64> {
        self.wakes.wait(stream)
    }

    fn lock(&self) -> MutexGuard<'_, LruCache<JobId, Known<Job>>> {
        // Every change is a single put, so a panic elsewhere leaves nothing half done.
        self.jobs.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::Shared;
    use crate::sqlite::load::Known;
    use clampbook_book::ids::JobId;
    use clampbook_book::job::Job;
    use clampbook_book::shop::Shop;
    use std::num::NonZeroUsize;
    use std::sync::Arc;

    fn known(last: u32) -> Known<Job> {
        let mut job = Job::new(hub());
        job.last = last;
        Known {
            stream: 1,
            seq: i64::from(last),
            state: Arc::new(job),
        }
    }

    fn hub() -> JobId {
        JobId::new("hub").expect("a slug")
    }

    fn cached(shared: &Shared) -> Option<u32> {
        shared.get(&hub()).map(|known| known.state.last)
    }

    #[test]
    fn a_reader_never_puts_an_old_state_where_the_writer_looks() {
        let shop = Arc::new(Shop::new());
        let shared = Shared::new(NonZeroUsize::MIN, shop.clone(), 0);
        let old = shared.offer(known(4), |_| Ok(false)).expect("it is read");
        assert_eq!((old.state.last, cached(&shared)), (4, None));

        shared.offer(known(5), |_| Ok(true)).expect("it is read");
        assert_eq!(cached(&shared), Some(5));

        shared.publish([(hub(), known(6))], shop, Vec::new(), 6);
        let newer = shared.offer(known(5), |_| Ok(true)).expect("it is read");
        assert_eq!((newer.state.last, cached(&shared)), (6, Some(6)));
        assert_eq!(*shared.wait(None).borrow(), 6);

        shared.forget();
        assert_eq!(cached(&shared), None);
    }
}
