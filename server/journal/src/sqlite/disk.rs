//! What the disk says: whether there is room, and what a failed write means.

use crate::sqlite::condition::Condition;
use crate::sqlite::error::RowError;
use rusqlite::{ErrorCode, ffi};
use std::path::Path;

/// A disk with less than this is full: the index of the write-ahead log alone grows by 32 KiB at a time.
const LEAST_FREE: u64 = 1 << 20;

/// Bytes that are free for us on the disk of a file.
pub(crate) fn free_bytes(path: &Path) -> std::io::Result<u64> {
    let found = rustix::fs::statvfs(folder(path))?;
    Ok(found.f_bavail.saturating_mul(found.f_frsize))
}

/// The folder of a file.
pub(crate) fn folder(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// What a failure says about the disk of this journal; nothing when it says nothing.
pub(crate) fn condition(fault: &RowError, journal: &Path) -> Option<Condition> {
    let RowError::Sqlite(error) = fault else {
        return None;
    };
    match error.sqlite_error_code()? {
        ErrorCode::DiskFull => Some(Condition::Full),
        ErrorCode::SystemIoFailure if is_full(journal) => Some(Condition::Full),
        ErrorCode::SystemIoFailure | ErrorCode::ReadOnly => {
            Some(Condition::Failing(error.to_string()))
        }
        _ => None,
    }
}

/// Whether the disk of a file is full.
pub(crate) fn is_full(path: &Path) -> bool {
    free_bytes(path).is_ok_and(|free| free < LEAST_FREE)
}

/// Whether a failed commit failed because the disk did not take what it was given: what is on it is then unknown.
pub(crate) fn is_failed_sync(error: &rusqlite::Error) -> bool {
    is_one(
        error,
        &[ffi::SQLITE_IOERR_FSYNC, ffi::SQLITE_IOERR_DIR_FSYNC],
    )
}

/// Whether a commit failed before the last page of its transaction was in the write-ahead log, so that no recovery can find
/// it whole.
pub(crate) fn is_cut_off(error: &rusqlite::Error) -> bool {
    is_one(error, &[ffi::SQLITE_FULL, ffi::SQLITE_IOERR_WRITE])
}

fn is_one(error: &rusqlite::Error, codes: &[i32]) -> bool {
    error
        .sqlite_error()
        .is_some_and(|e| codes.contains(&e.extended_code))
}
