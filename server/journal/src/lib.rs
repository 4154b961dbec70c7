//! The journal: an append-only record of what was said, in one SQLite file.
//!
//! Two parts. `protocol/` is what holds wherever a journal is kept: orders, judging them, drafts, entries and their chain.
//! `sqlite/` is everything that knows SQL or files: [`Store::open`] and the settings, the one writer thread, the readers,
//! verification, backup. What a fact means is the book's; the function that judges a
//! command is given in [`Options`]. No gRPC, no engine.

#[cfg(test)]
mod conformance;
mod protocol;
mod sqlite;

pub use protocol::blob::Blob;
pub use protocol::chain::Head;
pub use protocol::entry::StoredEntry;
pub use protocol::error::{CommitError, ReadError};
pub use protocol::judge::{Clock, Decider};
pub use protocol::request::{Fingerprint, Order, Receipt, Work};
pub use sqlite::backup::{Backup, backup_file};
pub use sqlite::backups::{backup_of, backups_in, remove_oldest};
pub use sqlite::barrier::{Barrier, BarrierPoint};
pub use sqlite::condition::Condition;
pub use sqlite::doctor::{Finding, examine_file};
pub use sqlite::error::{BackupError, OpenError, RestoreError};
pub use sqlite::expected::Expected;
pub use sqlite::export::{Checked, ExportError, check_export, export_file, import_file};
pub use sqlite::options::Options;
pub use sqlite::rebuild::rebuild_file;
pub use sqlite::restore::{Restored, restore_file};
pub use sqlite::store::Store;
pub use sqlite::summary::{JobPage, JobSummary, JobsAfter};
pub use sqlite::verify::{Break, Verification, verify_against, verify_file};
