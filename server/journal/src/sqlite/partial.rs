//! A file in the making: written under another name, for its owner only, and given its name when it is whole.
//!
//! It is locked while it is made, so that what a killed process left behind can be told from what is under way, and swept.
//! These are never files that a journal is served from; those are opened by SQLite only.

use crate::sqlite::disk::folder;
use crate::sqlite::place::beside;
use rustix::fs::{CWD, RenameFlags, renameat_with};
use rustix::io::Errno;
use std::fs::{self, File};
use std::io;
use std::os::unix::fs::OpenOptionsExt;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// Comes after the name that the file is to have; then a name of its own.
const MARK: &str = ".partial-";

/// What SQLite may have laid beside it.
const SIDES: [&str; 4] = ["", "-journal", "-wal", "-shm"];

/// Read and written by its owner, whatever the process is set to.
pub(crate) const OWNER_ONLY: u32 = 0o600;

/// A file that has no name yet. Removed when dropped.
#[derive(Debug)]
pub(crate) struct Partial {
    path: PathBuf,
    target: PathBuf,
    file: File,
}

impl Partial {
    /// Begins a file that is to be `target`; sweeps what killed processes left in that folder.
    pub(crate) fn of(target: &Path) -> io::Result<Self> {
        // SQLite follows every link on the way too, and must come to the same file.
        let folder = folder(target).canonicalize()?;
        sweep(&folder);
        let target = folder.join(target.file_name().unwrap_or_default());
        let path = beside(&target, &format!("{MARK}{}", Uuid::new_v4().simple()));
        let file = File::options()
            .read(true)
            .write(true)
            .create_new(true)
            .mode(OWNER_ONLY)
            .open(&path)?;
        let partial = Self { path, target, file };
        partial.file.try_lock()?;
        Ok(partial)
    }

    /// Where it is now.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Brings it to the disk and gives it its name, unless something has that name; gives its size.
    pub(crate) fn settle(self) -> io::Result<u64> {
        self.file.sync_all()?;
        let bytes = self.file.metadata()?.len();
        rename_to_new(&self.path, &self.target)?;
        File::open(folder(&self.target))?.sync_all()?;
        Ok(bytes)
    }
}

impl Drop for Partial {
    fn drop(&mut self) {
        remove(&self.path);
    }
}

/// Gives a file another name, unless something has that name.
pub(crate) fn rename_to_new(from: &Path, to: &Path) -> io::Result<()> {
    match renameat_with(CWD, from, CWD, to, RenameFlags::NOREPLACE) {
        // Some file systems do not know how; then the name is taken first.
        Err(Errno::INVAL | Errno::NOSYS | Errno::NOTSUP) if from.is_file() => {
            File::create_new(to)?;
            fs::rename(from, to)
        }
        renamed => Ok(renamed?),
    }
}

/// Removes what is left of files in the making that nobody makes any more.
fn sweep(folder: &Path) {
    let Ok(items) = fs::read_dir(folder) else {
        return;
    };
    for item in items.flatten() {
        let is_file = item.file_type().is_ok_and(|kind| kind.is_file());
        if is_file && is_partial(&item.file_name().to_string_lossy()) {
            let orphan = File::open(item.path()).is_ok_and(|file| file.try_lock().is_ok());
            if orphan {
                remove(&item.path());
            }
        }
    }
}

/// Whether a name is one that was made here.
pub(crate) fn is_partial(name: &str) -> bool {
    let own = name.rsplit_once(MARK).map(|(_, own)| own);
    own.is_some_and(|own| own.len() == 32 && own.bytes().all(|b| b.is_ascii_hexdigit()))
}

/// Nothing can be done about what cannot be removed; it is swept next time.
fn remove(partial: &Path) {
    for side in SIDES {
        let _ = fs::remove_file(beside(partial, side));
    }
}
