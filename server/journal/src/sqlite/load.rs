//! From entries to the state of a job or of the shop.

use crate::protocol::body;
use crate::protocol::speaker;
use crate::protocol::state::State;
use crate::sqlite::error::RowError;
use crate::sqlite::row::{damaged, unreadable};
use clampbook_book::entry::{Entry, Moment, Said};
use clampbook_book::ids::EntryNumber;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, OptionalExtension};
use std::sync::Arc;

/// A state as committed, and where it is in the file.
#[derive(Debug)]
pub(crate) struct Known<S> {
    /// Key of its stream.
    pub(crate) stream: i64,
    /// Place of its last entry in the file.
    pub(crate) seq: i64,
    /// What its entries add up to.
    pub(crate) state: Arc<S>,
}

impl<S> Clone for Known<S> {
    fn clone(&self) -> Self {
        Self {
            stream: self.stream,
            seq: self.seq,
            state: Arc::clone(&self.state),
        }
    }
}

/// Folds a stream onto its empty state; nothing when nothing was ever written there.
pub(crate) fn load<S: State>(
    conn: &Connection,
    stream: &Stream,
    empty: impl FnOnce() -> S,
) -> Result<Option<Known<S>>, RowError> {
    let key = conn
        .prepare_cached("SELECT key FROM streams WHERE name = ?1")?
        .query_row([stream.to_string()], |row| row.get(0))
        .optional()?;
    key.map(|key| fold(conn, key, stream, empty())).transpose()
}

/// The index gives the order only: all that an entry says, its place included, is read from the table. An index that was
/// damaged would show another entry, or hide one.
const ENTRIES: &str = "\
SELECT e.seq, e.n, e.said, e.written, e.device, e.body, e.person, e.known, e.person_id, e.stream \
FROM entries listed CROSS JOIN entries e ON e.seq = listed.seq WHERE listed.stream = ?1 ORDER BY listed.n";

/// Folds the stream with this key onto its empty state.
pub(crate) fn fold<S: State>(
    conn: &Connection,
    key: i64,
    stream: &Stream,
    mut state: S,
) -> Result<Known<S>, RowError> {
    // Before the entries, so that what is written meanwhile is no contradiction.
    let promised = promised(conn, key)?;
    let mut statement = conn.prepare_cached(ENTRIES)?;
    let mut rows = statement.query([key])?;
    let mut last = 0;
    while let Some(row) = rows.next()? {
        let (seq, number): (i64, EntryNumber) = (row.get(0)?, row.get(1)?);
        let place: i64 = row.get(9)?;
        if place != key || seq <= last || number != state.last() + 1 {
            return Err(hidden(stream, state.last()));
        }
        last = seq;
        let text = row.get_ref(5)?.as_str().map_err(rusqlite::Error::from)?;
        let known: Option<String> = row.get(7)?;
        let person: Option<String> = row.get(8)?;
        let by = speaker::read(row.get(6)?, known.as_deref(), person.as_deref());
        state.apply(&Entry {
            stream: stream.clone(),
            number,
            said: Said {
                said: Moment(row.get(2)?),
                written: Moment(row.get(3)?),
                by: by.map_err(|error| unreadable(last, &error))?,
                device: row.get(4)?,
            },
            fact: body::decode(text).map_err(|error| damaged(last, &error))?,
        });
    }
    if state.last() < promised {
        return Err(hidden(stream, state.last()));
    }
    Ok(Known {
        stream: key,
        seq: last,
        state: Arc::new(state),
    })
}

/// How many entries the job list promises; none where it has no line.
fn promised(conn: &Connection, stream: i64) -> Result<EntryNumber, RowError> {
    let last = conn
        .prepare_cached("SELECT last_n FROM jobs WHERE stream = ?1")?
        .query_row([stream], |row| row.get(0))
        .optional()?;
    Ok(last.unwrap_or_default())
}

/// An entry that the index of its stream does not have.
pub(crate) fn hidden(stream: &Stream, last: EntryNumber) -> RowError {
    RowError::Damaged(format!(
        "the entry of {stream} after number {last} is not where the index says; stop the server and run clampbookd rebuild"
    ))
}

/// Number of the stream's last entry.
pub(crate) fn last_number(conn: &Connection, stream: i64) -> Result<EntryNumber, RowError> {
    Ok(conn
        .prepare_cached("SELECT coalesce(max(n), 0) FROM entries WHERE stream = ?1")?
        .query_row([stream], |row| row.get(0))?)
}
