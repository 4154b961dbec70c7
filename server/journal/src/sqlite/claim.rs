//! The claim to a journal: one file, under one name, served by one process.

use crate::sqlite::disk::folder;
use crate::sqlite::error::OpenError;
use crate::sqlite::partial::OWNER_ONLY;
use crate::sqlite::place::{Inode, SIDE_FILES, beside};
use rustix::fs::{Access, OFlags, access};
use std::fs::{self, File, TryLockError};
use std::io;
use std::os::unix::fs::{MetadataExt, OpenOptionsExt};
use std::os::unix::net::UnixListener;
use std::path::{Path, PathBuf};

/// A journal that is ours as long as this is kept.
#[derive(Debug)]
pub(crate) struct Claim {
    path: PathBuf,
    _name: File,
    _inode: Option<UnixListener>,
}

impl Claim {
    /// Claims the name, whether or not there is a journal.
    ///
    /// # Errors
    /// Somebody else has it, or what lies there cannot be a journal of ours.
    pub(crate) fn of(path: &Path) -> Result<Self, OpenError> {
        let mut claim = Self::name(path)?;
        if claim.exists() {
            claim.take_file()?;
        }
        Ok(claim)
    }

    /// Claims the name only, whatever lies there.
    pub(crate) fn name(path: &Path) -> Result<Self, OpenError> {
        let path = resolved(path)?;
        writable(folder(&path))?;
        let name = lock(&path)?;
        Ok(Self {
            path,
            _name: name,
            _inode: None,
        })
    }

    /// The journal by its real name.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Whether anything lies there.
    pub(crate) fn exists(&self) -> bool {
        fs::symlink_metadata(&self.path).is_ok()
    }

    /// What lies where a journal and its side files are.
    pub(crate) fn files(&self) -> Vec<PathBuf> {
        let endings = std::iter::once("").chain(SIDE_FILES);
        let files = endings.map(|ending| beside(&self.path, ending));
        files
            .filter(|file| fs::symlink_metadata(file).is_ok())
            .collect()
    }

    /// Claims the file itself, which may be reached by other names.
    pub(crate) fn take_file(&mut self) -> Result<(), OpenError> {
        let path = &self.path;
        let failed = |error: io::Error| file_error(path, &error);
        let not_ours = |detail: &str| OpenError::NotAJournal {
            path: path.clone(),
            detail: detail.into(),
        };
        let found = fs::symlink_metadata(path).map_err(failed)?;
        if !found.is_file() {
            return Err(not_ours("it is no file"));
        }
        if found.len() == 0 {
            return Err(not_ours(
                "it is empty; remove it, and a new journal is made, or put a backup there with clampbookd restore",
            ));
        }
        if found.nlink() > 1 {
            return Err(OpenError::Linked {
                path: path.clone(),
                names: found.nlink(),
            });
        }
        writable(path)?;
        let inode = Inode::at(path).map_err(failed)?;
        self._inode = lock_inode(path, inode)?;
        Ok(())
    }
}

/// The real name of a file, which may not exist yet.
fn resolved(path: &Path) -> Result<PathBuf, OpenError> {
    match path.canonicalize() {
        Ok(found) => Ok(found),
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            if fs::symlink_metadata(path).is_ok() {
                return Err(OpenError::File {
                    path: path.to_owned(),
                    detail: "it is a link that leads nowhere".into(),
                });
            }
            let name = path.file_name().unwrap_or_default();
            let folder = folder(path);
            let found = folder.canonicalize();
            found
                .map(|folder| folder.join(name))
                .map_err(|error| file_error(folder, &error))
        }
        Err(error) => Err(file_error(path, &error)),
    }
}

fn writable(path: &Path) -> Result<(), OpenError> {
    access(path, Access::WRITE_OK).map_err(|error| OpenError::ReadOnly {
        path: path.to_owned(),
        detail: io::Error::from(error).to_string(),
    })
}

/// Locks the name by a file beside the journal. The journal itself is never locked but by SQLite.
fn lock(path: &Path) -> Result<File, OpenError> {
    let name = beside(path, ".lock");
    let failed = |error: io::Error| file_error(&name, &error);
    if fs::symlink_metadata(&name).is_ok_and(|found| found.is_symlink()) {
        return Err(OpenError::File {
            path: name,
            detail: "it is a link; a lock must be a file of its own. Remove the link".into(),
        });
    }
    let file = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .mode(OWNER_ONLY)
        .custom_flags(OFlags::NOFOLLOW.bits().cast_signed())
        .open(&name)
        .map_err(failed)?;
    match file.try_lock() {
        Ok(()) => Ok(file),
        Err(TryLockError::WouldBlock) => Err(in_use(path)),
        Err(TryLockError::Error(error)) => Err(failed(error)),
    }
}

/// Locks the file itself without opening it: the system keeps a name for each socket, and gives it free with the process.
#[cfg(target_os = "linux")]
fn lock_inode(path: &Path, inode: Inode) -> Result<Option<UnixListener>, OpenError> {
    use std::os::linux::net::SocketAddrExt;
    use std::os::unix::net::SocketAddr;

    let name = format!("clampbook journal {:x} {:x}", inode.device, inode.number);
    SocketAddr::from_abstract_name(name)
        .and_then(|name| UnixListener::bind_addr(&name))
        .map(Some)
        .map_err(|error| match error.kind() {
            io::ErrorKind::AddrInUse => in_use(path),
            _ => file_error(path, &error),
        })
}

/// Other systems have no such names; there the name of the journal and the count of its links must do.
#[cfg(not(target_os = "linux"))]
const fn lock_inode(_: &Path, _: Inode) -> Result<Option<UnixListener>, OpenError> {
    Ok(None)
}

fn in_use(path: &Path) -> OpenError {
    OpenError::InUse {
        path: path.to_owned(),
    }
}

fn file_error(path: &Path, error: &io::Error) -> OpenError {
    OpenError::File {
        path: path.to_owned(),
        detail: error.to_string(),
    }
}
