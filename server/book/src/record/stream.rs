//! Streams: what the entries of the journal are about. One for each job, and one for the shop itself.

use crate::record::ids::JobId;
use std::fmt;

/// What an entry is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stream {
    /// A job.
    Job(JobId),
    /// The shop: its own lubrications and specifications.
    Shop,
}

/// The name as stored: `jobs/{job}` or `shop`.
impl fmt::Display for Stream {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Job(id) => write!(f, "jobs/{id}"),
            Self::Shop => f.write_str("shop"),
        }
    }
}
