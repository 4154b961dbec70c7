//! The journal: an append-only record of what was said, in one SQLite file.
//!
//! Here lives everything that knows SQL: [`Store::open`] and the settings, the one writer thread that decides and writes,
//! the readers, the hash chain and its verification, backup. What a fact means is the book's; the function that judges a
//! command is given in [`Options`]. No gRPC, no engine.

mod at;
mod backup;
mod backups;
mod barrier;
mod batch;
mod blob;
mod body;
mod cache;
mod chain;
mod claim;
mod condition;
mod disk;
mod doctor;
mod error;
mod examine;
mod expected;
mod judge;
mod load;
mod migrate;
mod open;
mod options;
mod partial;
mod place;
mod queue;
mod read;
mod rebuild;
mod request;
mod restore;
mod row;
mod schema;
mod settings;
mod speaker;
mod store;
mod summary;
mod verify;
mod writer;

pub use backup::{Backup, backup_file};
pub use backups::{backup_of, backups_in, remove_oldest};
pub use barrier::{Barrier, BarrierPoint};
pub use blob::Blob;
pub use chain::Head;
pub use condition::Condition;
pub use doctor::{Finding, examine_file};
pub use error::{BackupError, CommitError, OpenError, ReadError, RestoreError};
pub use expected::Expected;
pub use options::{Clock, Decider, Options};
pub use rebuild::rebuild_file;
pub use request::{Fingerprint, Order, Receipt, Work};
pub use restore::{Restored, restore_file};
pub use row::StoredEntry;
pub use store::Store;
pub use summary::{JobPage, JobSummary, JobsAfter};
pub use verify::{Break, Verification, verify_against, verify_file};
