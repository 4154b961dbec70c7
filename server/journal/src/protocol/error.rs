//! What can go wrong with an order or a reader, in the words of those who call the journal.

use clampbook_book::refusal::Refusal;
use uuid::Uuid;

/// Why an order was not written, or is not known to be.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CommitError {
    /// The record does not allow it; nothing was written.
    #[error("{0}")]
    Refused(Refusal),
    /// The request id was used before for something else; nothing was written.
    #[error("the request id was used before for another request")]
    RequestReused,
    /// Too many orders wait; nothing was written.
    #[error("too many requests are waiting to be written")]
    Full,
    /// There is no room left for the file to grow; nothing was written.
    #[error("nothing was written: the disk is full")]
    NoSpace,
    /// The file is not where it was opened; nothing was written, nor will be before a new start.
    #[error("nothing was written: {detail}")]
    Lost {
        /// What became of it.
        detail: String,
    },
    /// Judging the order failed; nothing was written.
    #[error("judging the request failed, incident {incident}")]
    Panicked {
        /// Finds the log line.
        incident: Uuid,
    },
    /// The commit failed; a retry with the same request id finds out.
    #[error("it is not known whether the request was written; retry with the same request id")]
    OutcomeUnknown,
    /// The journal cannot be written; nothing was.
    #[error("the journal cannot be written: {detail}")]
    Broken {
        /// What went wrong.
        detail: String,
    },
    /// The store is stopped; nothing was written.
    #[error("the store is stopped")]
    Stopped,
}

/// Why something could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// What is stored makes no sense.
    #[error("the journal is damaged: {detail}")]
    Damaged {
        /// Where and how.
        detail: String,
    },
    /// The file is not where it was opened.
    #[error("the journal is not there: {detail}")]
    Lost {
        /// What became of it.
        detail: String,
    },
    /// The file cannot be read.
    #[error("the journal cannot be read: {detail}")]
    Broken {
        /// What went wrong.
        detail: String,
    },
    /// The store is stopped.
    #[error("the store is stopped")]
    Stopped,
}
