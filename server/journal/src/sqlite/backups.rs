//! Backups by the clock: one file after another in a folder, the oldest removed.

use crate::sqlite::partial::is_partial;
use crate::sqlite::place::beside;
use clampbook_book::entry::Moment;
use std::fs;
use std::path::{Path, PathBuf};

/// Comes between the journal's name and the moment of the backup.
const MARK: &str = ".backup-";

/// Where backups by the clock are, oldest first, with the moments they were begun.
#[must_use]
pub fn backups_in(folder: &Path, journal: &Path) -> Vec<(Moment, PathBuf)> {
    let beginning = format!("{}{MARK}", name(journal));
    let items = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut found: Vec<_> = items
        .filter_map(|item| {
            let name = item.file_name().to_string_lossy().into_owned();
            let moment = name.strip_prefix(&beginning)?.parse().ok()?;
            (!is_partial(&name)).then(|| (Moment(moment), item.path()))
        })
        .collect();
    found.sort();
    found
}

/// Where the backup of this moment goes.
#[must_use]
pub fn backup_of(folder: &Path, journal: &Path, now: Moment) -> PathBuf {
    beside(&folder.join(name(journal)), &format!("{MARK}{:020}", now.0))
}

/// Removes the oldest backups, but for so many that are kept; gives those that could not be removed.
pub fn remove_oldest(folder: &Path, journal: &Path, kept: usize) -> Vec<PathBuf> {
    let mut all = backups_in(folder, journal);
    all.truncate(all.len().saturating_sub(kept));
    let removed = all.into_iter().map(|(_, path)| path);
    removed
        .filter(|path| fs::remove_file(path).is_err())
        .collect()
}

fn name(journal: &Path) -> String {
    let name = journal.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}
