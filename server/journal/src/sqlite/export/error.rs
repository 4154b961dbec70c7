//! What can go wrong with an export.

use crate::protocol::error::ReadError;
use crate::sqlite::error::{OpenError, RowError};
use clampbook_book::ids::JobId;
use std::io;
use std::path::{Path, PathBuf};

/// Why nothing was exported or imported.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// Something is there already.
    #[error("{} exists already; an export never replaces anything", path.display())]
    Exists {
        /// Where the export was to go.
        path: PathBuf,
    },
    /// A file of the export could not be read or written.
    #[error("{}: {error}", path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What went wrong.
        error: io::Error,
    },
    /// The journal cannot be opened.
    #[error(transparent)]
    Journal(#[from] OpenError),
    /// The journal cannot be read.
    #[error(transparent)]
    Read(#[from] ReadError),
    /// The journal has no such job.
    #[error("the journal has no job {job}")]
    NoJob {
        /// The job.
        job: JobId,
    },
    /// The export is not what was written.
    #[error("{place}: {what}")]
    NotWhole {
        /// The file, and the line in it.
        place: String,
        /// What is wrong.
        what: String,
    },
    /// The journal has entries, and a whole export keeps its own.
    #[error("{} has {entries} entries; a whole export goes into a new journal only, because its hashes stay", path.display())]
    NotEmpty {
        /// The journal.
        path: PathBuf,
        /// How many entries it has.
        entries: i64,
    },
    /// The journal has a job of that name.
    #[error("the journal has a job {job} already; name another with --as ID")]
    Taken {
        /// The job.
        job: JobId,
    },
    /// A whole export has no job to be renamed.
    #[error("this is the export of a whole journal; --as is for the export of one job")]
    NoOneJob,
    /// The journal that is to take the job is not as it must be.
    #[error("nothing was imported: {} is not whole: {detail}", path.display())]
    Unsound {
        /// The journal.
        path: PathBuf,
        /// What was found.
        detail: String,
    },
    /// The journal has an older schema.
    #[error("nothing was imported: {} has schema {schema}, today's is {latest}; serve it once with this program, which brings it up to date", path.display())]
    Older {
        /// The journal.
        path: PathBuf,
        /// Its schema.
        schema: i64,
        /// The schema of this program.
        latest: i64,
    },
}

impl ExportError {
    pub(crate) fn not_whole(place: impl Into<String>, what: impl Into<String>) -> Self {
        Self::NotWhole {
            place: place.into(),
            what: what.into(),
        }
    }

    pub(crate) fn io(path: &Path) -> impl FnOnce(io::Error) -> Self + use<> {
        let path = path.to_owned();
        move |error| Self::Io { path, error }
    }
}

impl From<RowError> for ExportError {
    fn from(fault: RowError) -> Self {
        Self::Read(fault.into())
    }
}

impl From<rusqlite::Error> for ExportError {
    fn from(error: rusqlite::Error) -> Self {
        RowError::Sqlite(error).into()
    }
}
