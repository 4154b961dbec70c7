//! Contents in their table: written with the entry that names them, each kept once.

use crate::protocol::blob::{Blob, Content, hash};
use crate::sqlite::error::RowError;
use clampbook_book::fact::ContentHash;
use rusqlite::{Connection, OptionalExtension, params};
use std::sync::Arc;

/// Keeps a content, unless it is kept already.
pub(crate) fn keep(conn: &Connection, blob: &Blob) -> Result<(), RowError> {
    conn.prepare_cached(
        "INSERT INTO blobs (hash, bytes) VALUES (?1, ?2) ON CONFLICT (hash) DO NOTHING",
    )?
    .execute(params![blob.hash().0, blob.bytes()])?;
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
