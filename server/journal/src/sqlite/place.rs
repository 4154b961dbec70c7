//! The place of an open journal: that its path still leads to the files that are open.
//!
//! SQLite goes on writing into a file that was deleted, replaced or moved away, and what is acknowledged then is lost. Only
//! `stat` by path is asked here: opening and closing the file would drop SQLite's own locks on it.

use crate::sqlite::error::OpenError;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::{fs, io};

/// A journal's files beside the file itself: its write-ahead log and the index of that log.
pub(crate) const SIDE_FILES: [&str; 2] = ["-wal", "-shm"];

/// The file at `path` with this at the end of its name.
pub(crate) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

/// What a file is, whatever it is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Inode {
    pub(crate) device: u64,
    pub(crate) number: u64,
}

impl Inode {
    pub(crate) fn at(path: &Path) -> io::Result<Self> {
        let found = fs::symlink_metadata(path)?;
        Ok(Self {
            device: found.dev(),
            number: found.ino(),
        })
    }
}

/// Where the files of a journal were when it was opened.
#[derive(Debug)]
pub(crate) struct Place {
    files: Vec<(PathBuf, Inode)>,
}

impl Place {
    /// The place of a journal that was just opened and read, so that its log is there.
    pub(crate) fn of(path: &Path) -> Result<Self, OpenError> {
        let sides = SIDE_FILES.map(|ending| beside(path, ending));
        let files = std::iter::once(path.to_owned()).chain(sides);
        let files = files.map(|file| match Inode::at(&file) {
            Ok(inode) => Ok((file, inode)),
            Err(error) => Err(OpenError::File {
                path: file,
                detail: error.to_string(),
            }),
        });
        Ok(Self {
            files: files.collect::<Result<_, _>>()?,
        })
    }

    /// Makes sure that every file still is where it was.
    ///
    /// # Errors
    /// What became of the first that is not.
    pub(crate) fn check(&self) -> Result<(), String> {
        self.files
            .iter()
            .try_for_each(|(file, opened)| match Inode::at(file) {
                Ok(found) if found == *opened => Ok(()),
                Ok(_) => Err(format!(
                    "{} was replaced by another file while it was served",
                    file.display()
                )),
                Err(error) => Err(format!(
                    "{} was removed or moved away while it was served: {error}",
                    file.display()
                )),
            })
    }
}
