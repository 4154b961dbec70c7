//! What was judged of jobs lately, kept so that all pages of a list rest on one judgement.
//!
//! A judgement follows from the job, the shop and the rules alone, so it holds as long as neither says more. The pages of an
//! older one are still given while it is kept: somebody who leafs through a long list is not cut off by each new entry.

use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use clampbook_book::rules::Flag;
use clampbook_book::shop::Shop;
use lru::LruCache;
use std::num::NonZeroUsize;
use std::sync::{Arc, Mutex, PoisonError};

/// How many judgements are kept.
const KEPT: NonZeroUsize = NonZeroUsize::new(8).expect("not zero");

/// How far job and shop had come when something was judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct JudgedAt {
    /// Number of the job's last entry.
    pub job: EntryNumber,
    /// Number of the shop's last entry.
    pub shop: EntryNumber,
}

impl JudgedAt {
    pub(crate) fn of(job: &Job, shop: &Shop) -> Self {
        Self {
            job: job.last,
            shop: shop.last,
        }
    }
}

/// Open flags of a job.
#[derive(Clone, Debug)]
pub struct JudgedFlags {
    /// When they were judged.
    pub at: JudgedAt,
    /// The flags, stops first.
    pub flags: Arc<Vec<Flag>>,
}

/// Of which job something was judged, and when.
type Judgement = (JobId, JudgedAt);

/// Flags that were judged lately.
#[derive(Debug)]
pub(crate) struct Judged(Mutex<LruCache<Judgement, Arc<Vec<Flag>>>>);

impl Default for Judged {
    fn default() -> Self {
        Self(Mutex::new(LruCache::new(KEPT)))
    }
}

impl Judged {
    pub(crate) fn get(&self, job: &JobId, at: JudgedAt) -> Option<JudgedFlags> {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let flags = kept.get(&(job.clone(), at)).map(Arc::clone)?;
        Some(JudgedFlags { at, flags })
    }

    pub(crate) fn keep(&self, job: &JobId, judged: &JudgedFlags) {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.put((job.clone(), judged.at), Arc::clone(&judged.flags));
    }
}
