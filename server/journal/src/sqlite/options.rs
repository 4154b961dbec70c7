//! How a journal is opened.

use crate::protocol::judge::{Clock, Decider};
use crate::sqlite::barrier::Barrier;
use std::fmt;
use std::path::PathBuf;

/// How to open a journal.
pub struct Options {
    /// The file; created when there is none.
    pub path: PathBuf,
    /// Judges commands.
    pub decider: Decider,
    /// Tells the time.
    pub clock: Clock,
    /// Holds the writer in kill tests.
    pub barrier: Option<Barrier>,
    /// Most orders that wait for the writer.
    pub queue: usize,
    /// Most jobs whose state is kept in memory.
    pub cached_jobs: usize,
    /// Most pages of 4 KiB the file may grow to; nothing for as far as the disk goes.
    pub most_pages: Option<u32>,
}

impl Options {
    /// Ordinary options: 256 orders wait, 256 jobs are kept in memory, the file may grow.
    pub fn new(path: impl Into<PathBuf>, decider: Decider, clock: Clock) -> Self {
        Self {
            path: path.into(),
            decider,
            clock,
            barrier: None,
            queue: 256,
            cached_jobs: 256,
            most_pages: None,
        }
    }
}

impl fmt::Debug for Options {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Options")
            .field("path", &self.path)
            .field("barrier", &self.barrier)
            .field("queue", &self.queue)
            .field("cached_jobs", &self.cached_jobs)
            .field("most_pages", &self.most_pages)
            .finish_non_exhaustive()
    }
}
