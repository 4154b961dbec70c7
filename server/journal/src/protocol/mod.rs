//! The protocol of the journal, whatever it is kept in: orders and what a retry is compared by, judging and drafts, the
//! formats of entries and their chain. No SQL, no file.

pub(crate) mod blob;
pub(crate) mod body;
pub(crate) mod chain;
pub(crate) mod entry;
pub(crate) mod error;
pub(crate) mod judge;
pub(crate) mod request;
pub(crate) mod speaker;
pub(crate) mod state;
