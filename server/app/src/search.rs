//! Searching across jobs, a bounded number at a time.

use super::{Call, Error, blocking};
use clampbook_book::job::Job;
use clampbook_book::search::{self, Hit, Wanted};
use clampbook_journal::JobsAfter;
use std::sync::Arc;

/// Most jobs looked through for one page.
const JOBS: usize = 200;

/// Where a search goes on: before which job of the list, and after how many of its hits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct From {
    /// The place in the list of jobs.
    pub jobs: JobsAfter,
    /// Hits of the next job that were told already.
    pub told: usize,
}

/// A page of what was found.
pub struct Found {
    /// The hits with their jobs.
    pub hits: Vec<(Arc<Job>, Hit)>,
    /// Where the next page begins; nothing at the end.
    pub next: Option<From>,
}

impl Call<'_> {
    /// Searches on from a place; from the job written last when there is none.
    ///
    /// # Errors
    /// When the journal cannot be read.
    pub async fn search(
        &self,
        wanted: &Arc<Wanted>,
        from: Option<From>,
        size: usize,
    ) -> Result<Found, Error> {
        let first = From {
            jobs: JobsAfter {
                as_of: *self.app.store.last_seq(None).borrow(),
                place: i64::MAX,
            },
            told: 0,
        };
        let mut at = from.unwrap_or(first);
        let mut hits = Vec::new();
        for _ in 0..JOBS {
            let page = self.app.store.jobs(Some(at.jobs), 1).await?;
            let Some(summary) = page.jobs.first() else {
                return Ok(Found { hits, next: None });
            };
            if wanted.is_machine(&summary.display_name, &summary.machine) {
                let job = self.find(&summary.id).await?;
                let of_job = self.hits(&job, wanted).await?;
                let room = size - hits.len();
                let more = of_job.len().saturating_sub(at.told) > room;
                let new = of_job.into_iter().skip(at.told).take(room);
                hits.extend(new.map(|hit| (Arc::clone(&job), hit)));
                if more {
                    at.told += room;
                    return Ok(Found {
                        hits,
                        next: Some(at),
                    });
                }
            }
            match page.next {
                Some(jobs) => at = From { jobs, told: 0 },
                None => return Ok(Found { hits, next: None }),
            }
        }
        Ok(Found {
            hits,
            next: Some(at),
        })
    }

    async fn hits(&self, job: &Arc<Job>, wanted: &Arc<Wanted>) -> Result<Vec<Hit>, Error> {
        let (job, wanted, world) = (Arc::clone(job), Arc::clone(wanted), self.world());
        blocking(move || search::hits(&job, &wanted, &world.asked())).await
    }
}
