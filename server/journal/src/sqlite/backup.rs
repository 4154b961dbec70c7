//! Backup: a sound copy of the journal while it is written to.

use crate::protocol::chain::Head;
use crate::protocol::error::ReadError;
use crate::sqlite::error::{BackupError, RowError};
use crate::sqlite::partial::Partial;
use crate::sqlite::{disk, examine, migrate, open, verify};
use rusqlite::{Connection, ffi};
use std::path::{Path, PathBuf};
use std::{fs, io};

/// A backup that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Backup {
    /// The file.
    pub path: PathBuf,
    /// Its size.
    pub bytes: u64,
    /// The last entry in it.
    pub head: Head,
}

/// Copies the journal at `source`, which may be in use, to `target`, which must not exist.
///
/// The copy is one moment of the journal. It is written under another name in the same folder, checked, brought to the
/// disk and only then given its name.
///
/// # Errors
/// There is something at `target`, the copy is not sound, or a file cannot be used; nothing is left behind then.
pub fn backup_file(source: &Path, target: &Path) -> Result<Backup, BackupError> {
    if fs::symlink_metadata(target).is_ok() {
        return Err(BackupError::exists(target));
    }
    backup_to(source, target)?.settle()
}

/// A verified copy that has no name yet.
pub(crate) struct Copied {
    partial: Partial,
    target: PathBuf,
    head: Head,
}

/// Copies and verifies the journal at `source`, to be given the name `target`.
pub(crate) fn backup_to(source: &Path, target: &Path) -> Result<Copied, BackupError> {
    let partial = Partial::of(target).map_err(|error| BackupError::target(target, error))?;
    let head = copy(source, &partial)?;
    Ok(Copied {
        partial,
        target: target.to_owned(),
        head,
    })
}

impl Copied {
    /// Brings the copy to the disk and gives it its name.
    pub(crate) fn settle(self) -> Result<Backup, BackupError> {
        let Self {
            partial,
            target,
            head,
        } = self;
        let settled = partial.settle();
        let bytes = settled.map_err(|error| BackupError::target(&target, error))?;
        Ok(Backup {
            path: target,
            bytes,
            head,
        })
    }
}

fn copy(source: &Path, partial: &Partial) -> Result<Head, BackupError> {
    let path = partial.path();
    let text = path.to_str().ok_or_else(|| {
        let error = io::Error::new(io::ErrorKind::InvalidInput, "the name is not UTF-8");
        BackupError::target(path, error)
    })?;
    let journal = open::reader(source)?;
    open::identify(source, &journal)?;
    journal
        .execute("VACUUM INTO ?1", [text])
        .map_err(|error| copying(error, path))?;
    let copy = open::reader(path)?;
    check(path, &copy)?;
    Ok(verify::head(&copy).map_err(ReadError::from)?)
}

/// Whether it was the copy that could not be written, or the journal that could not be read.
fn copying(error: rusqlite::Error, copy: &Path) -> BackupError {
    let full = || BackupError::target(copy, io::ErrorKind::StorageFull.into());
    match error.sqlite_error().map(|e| e.extended_code) {
        Some(ffi::SQLITE_FULL) => full(),
        Some(ffi::SQLITE_IOERR_WRITE) if disk::is_full(copy) => full(),
        Some(
            ffi::SQLITE_IOERR_WRITE
            | ffi::SQLITE_IOERR_FSYNC
            | ffi::SQLITE_IOERR_TRUNCATE
            | ffi::SQLITE_CANTOPEN,
        ) => BackupError::target(copy, io::Error::other(error)),
        _ => read(error),
    }
}

/// Whether everything in the copy is whole. Of an older journal only the database is looked at: it is read as it will be
/// when it is brought to today's schema.
fn check(path: &Path, copy: &Connection) -> Result<(), BackupError> {
    let schema = open::identify(path, copy)?.schema;
    let faults = if schema == migrate::latest() {
        let found = verify::complete(copy, schema).map_err(ReadError::from)?;
        let broken = found.first_break.map(|broken| broken.to_string());
        broken.into_iter().chain(found.faults).collect()
    } else {
        examine::database(copy).map_err(ReadError::from)?
    };
    if faults.is_empty() {
        return Ok(());
    }
    Err(BackupError::Unsound {
        detail: faults.join("; "),
    })
}

fn read(error: rusqlite::Error) -> BackupError {
    BackupError::Read(RowError::Sqlite(error).into())
}
