//! The files of an export: the only ones that are opened here, by names that no journal has.

use super::error::ExportError;
use crate::sqlite::partial::{OWNER_ONLY, rename_to_new};
use crate::sqlite::place::beside;
use clampbook_book::fact::ContentHash;
use rustix::fs::OFlags;
use std::fs::{self, DirBuilder, File};
use std::io::{self, BufReader, BufWriter, Read, Write};
use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The manifest.
pub(crate) const MANIFEST: &str = "manifest.json";
/// The entries, one a line.
pub(crate) const ENTRIES: &str = "entries.jsonl";
/// Requests that wrote no entry, one a line.
pub(crate) const REQUESTS: &str = "requests.jsonl";
/// The folder of photos, each named by its hash.
pub(crate) const PHOTOS: &str = "photos";

/// Longest file that is read as a whole.
const MOST_BYTES: u64 = 64 << 20;

/// A folder in the making; removed when dropped.
#[derive(Debug)]
pub(crate) struct Folder {
    path: PathBuf,
    target: PathBuf,
}

impl Folder {
    /// Begins a folder that is to be `target`.
    pub(crate) fn of(target: &Path) -> Result<Self, ExportError> {
        if fs::symlink_metadata(target).is_ok() {
            return Err(ExportError::Exists {
                path: target.to_owned(),
            });
        }
        let own = Uuid::new_v4().simple();
        let folder = Self {
            path: beside(target, &format!(".partial-{own}")),
            target: target.to_owned(),
        };
        for path in [folder.path.clone(), folder.path.join(PHOTOS)] {
            let made = DirBuilder::new().mode(0o700).create(&path);
            made.map_err(ExportError::io(&path))?;
        }
        Ok(folder)
    }

    /// Where it is now.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Writes a file of this name and brings it to the disk.
    pub(crate) fn write(
        &self,
        name: &str,
        fill: impl FnOnce(&mut dyn Write) -> Result<(), ExportError>,
    ) -> Result<(), ExportError> {
        let path = self.path.join(name);
        let file = File::options()
            .write(true)
            .create_new(true)
            .mode(OWNER_ONLY)
            .open(&path)
            .map_err(ExportError::io(&path))?;
        let mut writer = BufWriter::new(file);
        fill(&mut writer)?;
        let written = writer.flush().and_then(|()| writer.get_ref().sync_all());
        written.map_err(ExportError::io(&path))
    }

    /// Brings the folder to the disk and gives it its name.
    pub(crate) fn settle(self) -> Result<(), ExportError> {
        let kept = |path: &Path| File::open(path).and_then(|folder| folder.sync_all());
        for path in [&self.path.join(PHOTOS), &self.path] {
            kept(path).map_err(ExportError::io(path))?;
        }
        let target = &self.target;
        rename_to_new(&self.path, target).map_err(|error| match error.kind() {
            io::ErrorKind::AlreadyExists => ExportError::Exists {
                path: target.clone(),
            },
            _ => ExportError::io(target)(error),
        })?;
        kept(crate::sqlite::disk::folder(target)).map_err(ExportError::io(target))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // Nothing can be done about what cannot be removed; its name says what it is.
        let _ = fs::remove_dir_all(&self.path);
    }
}

/// The name of a photo's file.
pub(crate) fn photo(hash: ContentHash) -> String {
    format!("{PHOTOS}/{hash}")
}

/// A file of an export, to be read line by line. Links are not followed.
pub(crate) fn lines(source: &Path, name: &str) -> Result<BufReader<File>, ExportError> {
    let path = source.join(name);
    let opened = File::options()
        .read(true)
        .custom_flags(OFlags::NOFOLLOW.bits().cast_signed())
        .open(&path);
    opened.map(BufReader::new).map_err(ExportError::io(&path))
}

/// A small file of an export as a whole.
pub(crate) fn whole(source: &Path, name: &str) -> Result<Vec<u8>, ExportError> {
    let mut bytes = Vec::new();
    let read = lines(source, name)?
        .take(MOST_BYTES + 1)
        .read_to_end(&mut bytes);
    read.map_err(ExportError::io(&source.join(name)))?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(ExportError::not_whole(name, "is longer than 64 MiB"));
    }
    Ok(bytes)
}
