//! What is remembered of every order that was written, in its table.

use crate::protocol::entry::StoredEntry;
use crate::protocol::request::{Order, Seen};
use crate::sqlite::error::RowError;
use crate::sqlite::row::{entries, select_entries};
use rusqlite::{Connection, OptionalExtension, Statement, params};
use uuid::Uuid;

/// The order with this request id, if there was one.
pub(crate) fn find(conn: &Connection, request: &Uuid) -> Result<Option<Seen>, RowError> {
    Ok(conn
        .prepare_cached(
            "SELECT s.name, r.fingerprint, r.fingerprint_version, r.first_seq, r.entry_count \
                 FROM requests r JOIN streams s ON s.key = r.stream WHERE r.id = ?1",
        )?
        .query_row([request.as_bytes()], |row| {
            Ok(Seen {
                stream: row.get(0)?,
                fingerprint: row.get(1)?,
                version: row.get(2)?,
                first_seq: row.get(3)?,
                entry_count: row.get(4)?,
            })
        })
        .optional()?)
}

/// The entries it made.
pub(crate) fn made(seen: &Seen, conn: &Connection) -> Result<Vec<StoredEntry>, RowError> {
    entries(
        conn,
        select_entries!("WHERE e.seq >= ?1 AND e.seq < ?2 ORDER BY e.seq"),
        params![seen.first_seq, seen.first_seq + seen.entry_count],
    )
}

/// How an order is remembered.
pub(crate) const REMEMBER: &str = "INSERT INTO requests (id, fingerprint, fingerprint_version, stream, first_seq, entry_count) \
     VALUES (?1, ?2, ?3, ?4, ?5, ?6) \
     ON CONFLICT (id) DO NOTHING";

/// Remembers an order and gives its key; nothing when its request id is there already.
pub(crate) fn remember(
    conn: &Connection,
    statement: &mut Statement<'_>,
    order: &Order,
    stream: i64,
    first_seq: i64,
    entry_count: usize,
) -> Result<Option<i64>, RowError> {
    let written = statement.execute(params![
        order.request.as_bytes(),
        order.fingerprint.hash,
        order.fingerprint.version,
        stream,
        first_seq,
        entry_count as i64
    ])?;
    Ok((written == 1).then(|| conn.last_insert_rowid()))
}
