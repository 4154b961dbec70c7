//! Contents that entries name by their hash: written with the entry that names them, each kept once.

use crate::error::RowError;
use clampbook_book::fact::{ContentHash, Fact};
use rusqlite::{Connection, OptionalExtension, params};
use std::fmt;
use std::sync::Arc;

/// A content with its hash.
#[derive(Clone)]
pub struct Blob {
    hash: ContentHash,
    bytes: Arc<[u8]>,
}

impl Blob {
    /// Takes a content and hashes it.
    #[must_use]
    pub fn new(bytes: Arc<[u8]>) -> Self {
        Self {
            hash: hash(&bytes),
            bytes,
        }
    }

    /// Its hash.
    #[must_use]
    pub const fn hash(&self) -> ContentHash {
        self.hash
    }

    /// The content.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }
}

impl fmt::Debug for Blob {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} bytes {}", self.bytes.len(), self.hash)
    }
}

fn hash(bytes: &[u8]) -> ContentHash {
    ContentHash(*blake3::hash(bytes).as_bytes())
}

/// Hash and size of a content that an entry names.
pub(crate) type Content = (ContentHash, u64);

/// The content that a fact names, if it names one.
pub(crate) const fn named(fact: &Fact) -> Option<Content> {
    match fact {
        Fact::PhotoAdded(added) => Some((added.hash, added.size_bytes)),
        _ => None,
    }
}

/// Keeps a content, unless it is kept already.
pub(crate) fn keep(conn: &Connection, blob: &Blob) -> Result<(), RowError> {
    conn.prepare_cached(
        "INSERT INTO blobs (hash, bytes) VALUES (?1, ?2) ON CONFLICT (hash) DO NOTHING",
    )?
    .execute(params![blob.hash.0, blob.bytes()])?;
    Ok(())
}

/// The content with this hash, if it is kept and still is what was written.
pub(crate) fn read(conn: &Connection, wanted: ContentHash) -> Result<Option<Arc<[u8]>>, RowError> {
    let found: Option<Vec<u8>> = conn
        .prepare_cached("SELECT bytes FROM blobs WHERE hash = ?1")?
        .query_row([wanted.0], |row| row.get(0))
        .optional()?;
    match found {
        Some(bytes) if hash(&bytes) != wanted => Err(RowError::Damaged(changed(wanted))),
        found => Ok(found.map(Into::into)),
    }
}

/// What is wrong with the content that an entry names; nothing when it is there, whole, and as long as the entry says.
pub(crate) fn wrong(
    conn: &Connection,
    (wanted, size): Content,
) -> Result<Option<String>, RowError> {
    match read(conn, wanted) {
        Ok(Some(bytes)) if bytes.len() as u64 == size => Ok(None),
        Ok(Some(bytes)) => Ok(Some(format!(
            "names content {wanted} with {size} bytes, which has {}",
            bytes.len()
        ))),
        Ok(None) => Ok(Some(format!("names content {wanted}, which is missing"))),
        Err(RowError::Damaged(what)) => Ok(Some(format!("names content that was changed: {what}"))),
        Err(fault) => Err(fault),
    }
}

fn changed(wanted: ContentHash) -> String {
    format!("content {wanted} is not what was written: its hash is another")
}
