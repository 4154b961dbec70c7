//! Backup: a sound copy of the journal while it is written to.

use crate::chain::Head;
use crate::error::{BackupError, ReadError, RowError};
use crate::{open, verify};
use rusqlite::Connection;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use uuid::Uuid;

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
        return Err(exists(target));
    }
    let mut partial = target.as_os_str().to_owned();
    partial.push(format!(".partial-{}", Uuid::new_v4().simple()));
    let partial = PathBuf::from(partial);
    let made =
        copy(source, &partial).and_then(|head| settle(&partial, target).map(|bytes| (head, bytes)));
    match made {
        Ok((head, bytes)) => Ok(Backup {
            path: target.to_owned(),
            bytes,
            head,
        }),
        Err(error) => {
            // What matters is why there is no backup, not that the leftover could not be removed.
            let _ = fs::remove_file(&partial);
            Err(error)
        }
    }
}

fn copy(source: &Path, partial: &Path) -> Result<Head, BackupError> {
    let text = partial.to_str().ok_or_else(|| BackupError::Io {
        path: partial.to_owned(),
        error: io::Error::new(io::ErrorKind::InvalidInput, "the name is not UTF-8"),
    })?;
    open::reader(source)?
        .execute("VACUUM INTO ?1", [text])
        .map_err(read)?;
    let copy = open::reader(partial)?;
    check(&copy)?;
    Ok(verify::head(&copy).map_err(ReadError::from)?)
}

/// Whether the copy is sound as a database.
fn check(copy: &Connection) -> Result<(), BackupError> {
    let found: String = copy
        .query_row("PRAGMA integrity_check", [], |row| row.get(0))
        .map_err(read)?;
    if found != "ok" {
        return Err(BackupError::Unsound { detail: found });
    }
    let loose: i64 = copy
        .query_row("SELECT count(*) FROM pragma_foreign_key_check", [], |row| {
            row.get(0)
        })
        .map_err(read)?;
    if loose > 0 {
        return Err(BackupError::Unsound {
            detail: format!("{loose} rows refer to rows that do not exist"),
        });
    }
    Ok(())
}

/// Brings the copy to the disk and gives it its name.
fn settle(partial: &Path, target: &Path) -> Result<u64, BackupError> {
    let at = |path: &Path| {
        let path = path.to_owned();
        move |error| BackupError::Io { path, error }
    };
    let file = File::open(partial).map_err(at(partial))?;
    file.sync_all().map_err(at(partial))?;
    let bytes = file.metadata().map_err(at(partial))?.len();
    // Renaming would replace a file that came to be in the meantime, so the name is taken first.
    File::create_new(target).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => exists(target),
        _ => at(target)(error),
    })?;
    fs::rename(partial, target).map_err(at(target))?;
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    File::open(folder)
        .and_then(|folder| folder.sync_all())
        .map_err(at(folder))?;
    Ok(bytes)
}

fn exists(path: &Path) -> BackupError {
    BackupError::Exists {
        path: path.to_owned(),
    }
}

fn read(error: rusqlite::Error) -> BackupError {
    BackupError::Read(RowError::Sqlite(error).into())
}
