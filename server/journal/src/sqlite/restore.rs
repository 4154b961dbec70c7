//! Restoring: a backup put where a journal is to be, never beside the write-ahead log of another.

use crate::sqlite::backup::{Backup, backup_to};
use crate::sqlite::claim::Claim;
use crate::sqlite::error::{OpenError, RestoreError};
use crate::sqlite::partial::rename_to_new;
use crate::sqlite::place::{SIDE_FILES, beside};
use clampbook_book::entry::Moment;
use std::io;
use std::path::{Path, PathBuf};

/// A journal that was restored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Restored {
    /// What is there now.
    pub journal: Backup,
    /// Where the journal is that was there before, with its log beside it; nothing when there was none.
    pub kept: Option<PathBuf>,
}

/// Puts a verified copy of `backup` at `journal`, which nobody may be serving.
///
/// Where something is already, it is refused, unless it is to be done in its place: then file and log are moved away together,
/// under a name with this moment, and never deleted.
///
/// # Errors
/// The backup is not whole, the journal is being served, or something is there that is to stay.
pub fn restore_file(
    backup: &Path,
    journal: &Path,
    in_place: Option<Moment>,
) -> Result<Restored, RestoreError> {
    let claim = Claim::name(journal)?;
    let journal = claim.path();
    let old = claim.files();
    if let (Some(there), None) = (old.first(), in_place) {
        return Err(RestoreError::Occupied {
            path: there.clone(),
        });
    }
    let copy = backup_to(backup, journal)?;
    let kept = match in_place {
        Some(moment) if !old.is_empty() => Some(put_away(journal, moment)?),
        _ => None,
    };
    Ok(Restored {
        journal: copy.settle()?,
        kept,
    })
}

/// Moves a journal and what lies beside it away, the file first: an interruption leaves a log without its journal, which no
/// server opens, and not a journal without its log.
fn put_away(journal: &Path, moment: Moment) -> Result<PathBuf, RestoreError> {
    let kept = beside(journal, &format!(".before-restore-{}", moment.0));
    for ending in ["", SIDE_FILES[0], SIDE_FILES[1]] {
        let (from, to) = (beside(journal, ending), beside(&kept, ending));
        let moved = match rename_to_new(&from, &to) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            moved => moved,
        };
        moved.map_err(|error| OpenError::File {
            path: from,
            detail: error.to_string(),
        })?;
    }
    Ok(kept)
}
