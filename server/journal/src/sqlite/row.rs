//! From rows of `entries` to entries.

use crate::protocol::body;
use crate::protocol::chain::{FORMAT, Format, Known, Link};
use crate::protocol::entry::{self, StoredEntry};
use crate::protocol::speaker;
use crate::sqlite::error::RowError;
use clampbook_book::entry::{Entry, Moment, Said};
use clampbook_book::stream::Stream;
use rusqlite::{Connection, Params, Row};
use std::sync::Arc;
use uuid::Uuid;

/// `SELECT` of whole entries under a condition; of a file older than schema 4, which is verified as it is, without what came
/// with that schema.
macro_rules! select_entries {
    ($condition:literal) => {
        select_entries!(@ "e.format, e.known, e.person_id, r.fingerprint_version, ", $condition)
    };
    (older: $condition:literal) => {
        select_entries!(@ "NULL, NULL, NULL, NULL, ", $condition)
    };
    (@ $since_schema_4:literal, $condition:literal) => {
        concat!(
            "SELECT e.seq, s.name, e.n, e.said, e.written, e.person, e.device, e.kind, e.body, e.hash, r.id, r.fingerprint, ",
            $since_schema_4,
            "r.stream = e.stream AND e.seq BETWEEN r.first_seq AND r.first_seq + r.entry_count - 1 ",
            "FROM entries e JOIN streams s ON s.key = e.stream JOIN requests r ON r.key = e.request ",
            $condition
        )
    };
}
pub(crate) use select_entries;

/// A row as it is stored.
#[derive(Clone, Debug)]
pub(crate) struct Raw {
    pub(crate) seq: i64,
    pub(crate) stream: String,
    pub(crate) number: u32,
    pub(crate) said: Moment,
    pub(crate) written: Moment,
    pub(crate) name: String,
    pub(crate) device: String,
    pub(crate) kind: String,
    pub(crate) body: String,
    pub(crate) hash: [u8; 32],
    pub(crate) request: Uuid,
    pub(crate) fingerprint: [u8; 32],
    pub(crate) format: Option<i64>,
    pub(crate) known: Option<String>,
    pub(crate) person: Option<String>,
    pub(crate) fingerprint_version: Option<u32>,
    /// Whether the request says so too.
    pub(crate) owned: bool,
}

impl Raw {
    pub(crate) fn read(row: &Row<'_>) -> rusqlite::Result<Self> {
        Ok(Self {
            seq: row.get(0)?,
            stream: row.get(1)?,
            number: row.get(2)?,
            said: Moment(row.get(3)?),
            written: Moment(row.get(4)?),
            name: row.get(5)?,
            device: row.get(6)?,
            kind: row.get(7)?,
            body: row.get(8)?,
            hash: row.get(9)?,
            request: Uuid::from_bytes(row.get(10)?),
            fingerprint: row.get(11)?,
            format: row.get(12)?,
            known: row.get(13)?,
            person: row.get(14)?,
            fingerprint_version: row.get(15)?,
            owned: row.get(16)?,
        })
    }

    /// What its hash covers.
    pub(crate) fn link(&self) -> Result<Link<'_>, String> {
        Ok(Link {
            stream: &self.stream,
            number: self.number,
            said: self.said,
            written: self.written,
            name: &self.name,
            device: &self.device,
            kind: &self.kind,
            request: &self.request,
            fingerprint: &self.fingerprint,
            body: &self.body,
            format: self.format()?,
        })
    }

    fn format(&self) -> Result<Format<'_>, String> {
        let known = (self.known.as_deref(), self.person.as_deref());
        match (self.format, known, self.fingerprint_version) {
            (None, (None, None), None) => Ok(Format::First),
            (Some(FORMAT), (Some(how), person), Some(fingerprint)) => Ok(Format::Second(Known {
                person,
                how,
                fingerprint,
            })),
            _ => Err("is of no known format".into()),
        }
    }

    fn stored(self) -> Result<StoredEntry, RowError> {
        let fact = body::decode(&self.body).map_err(|error| damaged(self.seq, &error))?;
        let by = speaker::read(self.name, self.known.as_deref(), self.person.as_deref());
        Ok(StoredEntry {
            seq: self.seq,
            entry: Arc::new(Entry {
                stream: stream(&self.stream)?,
                number: self.number,
                said: Said {
                    by: by.map_err(|error| unreadable(self.seq, &error))?,
                    device: self.device.into(),
                    said: self.said,
                    written: self.written,
                },
                fact,
            }),
            request: self.request,
            hash: self.hash,
            body: self.body.into(),
        })
    }
}

/// The entries that a statement made by [`select_entries`] finds.
pub(crate) fn entries(
    conn: &Connection,
    sql: &str,
    params: impl Params,
) -> Result<Vec<StoredEntry>, RowError> {
    let mut statement = conn.prepare_cached(sql)?;
    let mut rows = statement.query(params)?;
    let mut found = Vec::new();
    while let Some(row) = rows.next()? {
        found.push(Raw::read(row)?.stored()?);
    }
    Ok(found)
}

/// Somebody spoke of whom it cannot be understood who it is.
pub(crate) fn unreadable(seq: i64, error: &str) -> RowError {
    RowError::Damaged(format!("who said entry {seq} of the file: {error}"))
}

/// A body that cannot be understood.
pub(crate) fn damaged(seq: i64, error: &str) -> RowError {
    RowError::Damaged(format!("the body of entry {seq} of the file: {error}"))
}

/// The stream with this name, as it is written.
pub(crate) fn stream(name: &str) -> Result<Stream, RowError> {
    entry::stream(name).map_err(RowError::Damaged)
}
