//! What can go wrong with the file, in the words of those who call the store; and the one internal error behind every one.

use crate::protocol::error::{CommitError, ReadError};
use std::path::{Path, PathBuf};

/// Why a journal was not opened.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// Another process has it.
    #[error("{} is in use by another server; one journal has one server", path.display())]
    InUse {
        /// The journal.
        path: PathBuf,
    },
    /// The file is something else.
    #[error("{} is not a Clampbook journal: {detail}", path.display())]
    NotAJournal {
        /// The file.
        path: PathBuf,
        /// What it is instead.
        detail: String,
    },
    /// The journal could not be read.
    #[error(transparent)]
    Read(#[from] ReadError),
    /// There is no file.
    #[error("{} does not exist", path.display())]
    Missing {
        /// The journal.
        path: PathBuf,
    },
    /// The file has more than one name.
    #[error("{} has {names} names (hard links); a journal has one, so that two servers cannot write it. Remove the others or copy it", path.display())]
    Linked {
        /// The journal.
        path: PathBuf,
        /// How many.
        names: u64,
    },
    /// The file or its folder cannot be written.
    #[error("{} cannot be written: {detail}; a journal and its folder must be writable", path.display())]
    ReadOnly {
        /// The file or folder.
        path: PathBuf,
        /// What the system says.
        detail: String,
    },
    /// The schema is not the one that this program makes.
    #[error("{} was changed by another program: {detail}. Put a backup in its place with clampbookd restore", path.display())]
    Schema {
        /// The journal.
        path: PathBuf,
        /// What differs.
        detail: String,
    },
    /// There is no journal, but the write-ahead log of one.
    #[error("{} is not there, but {} is: entries of a journal that was moved or removed. Put that journal back beside it, or move the log away", path.display(), log.display())]
    StrayLog {
        /// The journal that is not there.
        path: PathBuf,
        /// The log.
        log: PathBuf,
    },
    /// A journal with a write-ahead log beside it is damaged.
    #[error("{error}. The write-ahead log {} was read with it: if the file was copied from a backup, that log belongs to the journal before. Put the backup in place again with clampbookd restore BACKUP --data FILE --in-place, which moves file and log away together", log.display())]
    WithLog {
        /// What is wrong.
        error: Box<OpenError>,
        /// The log.
        log: PathBuf,
    },
    /// The file was written by a later version.
    #[error("{} has schema {file}, but this program knows only up to {program}; use the newer program", path.display())]
    Newer {
        /// The journal.
        path: PathBuf,
        /// Its schema.
        file: i64,
        /// The latest schema of this program.
        program: i64,
    },
    /// The library is known to lose data.
    #[error(
        "SQLite {linked} is linked in; at least {minimum} is required, because older versions can lose committed writes"
    )]
    SqliteTooOld {
        /// The version linked in.
        linked: &'static str,
        /// The oldest that is allowed.
        minimum: &'static str,
    },
    /// A setting did not take.
    #[error("setting {name} is {found}, it must be {wanted}")]
    Setting {
        /// The setting.
        name: &'static str,
        /// What it must be.
        wanted: String,
        /// What it is.
        found: String,
    },
    /// The newest entries do not verify.
    #[error("the journal is damaged: {0}")]
    Damaged(crate::sqlite::verify::Break),
    /// An option makes no sense.
    #[error("option {name} is {given}; allowed is {allowed}")]
    Option {
        /// The option.
        name: &'static str,
        /// What was given.
        given: String,
        /// What is allowed.
        allowed: &'static str,
    },
    /// The copy that is made before the file is brought to a newer schema failed.
    #[error("the copy to be kept before changing the schema failed: {0}")]
    Backup(#[from] BackupError),
    /// The file could not be used.
    #[error("{}: {detail}", path.display())]
    File {
        /// The file.
        path: PathBuf,
        /// What went wrong.
        detail: String,
    },
}

impl OpenError {
    /// Whether a write-ahead log of another journal would show like this.
    pub(crate) const fn may_come_of_a_log(&self) -> bool {
        matches!(
            self,
            Self::Damaged(_) | Self::File { .. } | Self::NotAJournal { .. } | Self::Schema { .. }
        )
    }
}

/// Why there is no backup.
#[derive(Debug, thiserror::Error)]
pub enum BackupError {
    /// Something is there already; a backup never replaces anything.
    #[error("{} exists already; a backup never replaces a file", path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// The copy is not sound.
    #[error("the copy is not sound: {detail}")]
    Unsound {
        /// What was found.
        detail: String,
    },
    /// The disk of the copy is full.
    #[error("no copy was made: the disk of {} is full", path.display())]
    Full {
        /// Where the copy was to go.
        path: PathBuf,
    },
    /// The copy could not be written.
    #[error("no copy was made: {}: {error}", path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What went wrong.
        error: std::io::Error,
    },
    /// The journal could not be read.
    #[error(transparent)]
    Read(#[from] ReadError),
    /// The file is not a journal that this program knows.
    #[error(transparent)]
    Journal(Box<OpenError>),
}

impl From<OpenError> for BackupError {
    fn from(error: OpenError) -> Self {
        Self::Journal(Box::new(error))
    }
}

/// Why a backup was not restored.
#[derive(Debug, thiserror::Error)]
pub enum RestoreError {
    /// Something is there.
    #[error("{} exists already; a journal is restored under a new name, or with --in-place, which moves file and log away", path.display())]
    Occupied {
        /// The file.
        path: PathBuf,
    },
    /// The place cannot be taken.
    #[error(transparent)]
    Place(#[from] OpenError),
    /// The backup cannot be copied there.
    #[error(transparent)]
    Copy(#[from] BackupError),
}

impl BackupError {
    /// Something has that name.
    pub(crate) fn exists(path: &Path) -> Self {
        let path = path.to_owned();
        Self::Exists { path }
    }

    /// The copy could not be written.
    pub(crate) fn target(path: &Path, error: std::io::Error) -> Self {
        let path = path.to_owned();
        match error.kind() {
            std::io::ErrorKind::AlreadyExists => Self::Exists { path },
            std::io::ErrorKind::StorageFull => Self::Full { path },
            _ => Self::Io { path, error },
        }
    }
}

/// What can go wrong with the file, before it is known who asked.
#[derive(Debug)]
pub(crate) enum RowError {
    /// SQLite says so.
    Sqlite(rusqlite::Error),
    /// A stored value makes no sense.
    Damaged(String),
}

impl From<rusqlite::Error> for RowError {
    fn from(error: rusqlite::Error) -> Self {
        Self::Sqlite(error)
    }
}

impl From<RowError> for ReadError {
    fn from(fault: RowError) -> Self {
        match fault {
            RowError::Sqlite(error) => Self::Broken {
                detail: error.to_string(),
            },
            RowError::Damaged(detail) => Self::Damaged { detail },
        }
    }
}

/// A fault before the commit: the transaction is rolled back, so nothing was written.
impl From<RowError> for CommitError {
    fn from(fault: RowError) -> Self {
        match fault {
            RowError::Sqlite(error)
                if error.sqlite_error_code() == Some(rusqlite::ErrorCode::DiskFull) =>
            {
                Self::NoSpace
            }
            RowError::Sqlite(error) => Self::Broken {
                detail: error.to_string(),
            },
            RowError::Damaged(detail) => Self::Broken { detail },
        }
    }
}
