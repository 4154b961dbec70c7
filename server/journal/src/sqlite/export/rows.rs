//! Writing entries as they come, request by request: a request is written with the count of its entries and never changed.

use super::error::ExportError;
use super::line::Silent;
use crate::sqlite::batch::INSERT;
use crate::sqlite::requests::REMEMBER;
use crate::sqlite::row::Raw;
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

/// Entries on their way into a journal.
pub(crate) struct Rows<'c> {
    conn: &'c Connection,
    waiting: Vec<Raw>,
}

impl<'c> Rows<'c> {
    pub(crate) const fn into(conn: &'c Connection) -> Self {
        Self {
            conn,
            waiting: Vec::new(),
        }
    }

    /// Takes the next entry.
    pub(crate) fn take(&mut self, raw: Raw) -> Result<(), ExportError> {
        let other = |last: &Raw| last.request != raw.request;
        if self.waiting.last().is_some_and(other) {
            self.finish()?;
        }
        self.waiting.push(raw);
        Ok(())
    }

    /// Writes the entries of the last request.
    pub(crate) fn finish(&mut self) -> Result<(), ExportError> {
        let Some(first) = self.waiting.first() else {
            return Ok(());
        };
        let stream = self.stream(&first.stream)?;
        self.conn.prepare_cached(REMEMBER)?.execute(params![
            first.request.as_bytes(),
            first.fingerprint,
            first.fingerprint_version,
            stream,
            first.seq,
            self.waiting.len() as i64
        ])?;
        let request = self.conn.last_insert_rowid();
        let mut insert = self.conn.prepare_cached(INSERT)?;
        for raw in self.waiting.drain(..) {
            insert.execute(params![
                raw.seq,
                stream,
                raw.number,
                raw.said.0,
                raw.written.0,
                raw.name,
                raw.device,
                raw.kind,
                raw.body,
                request,
                raw.hash,
                raw.format,
                raw.known,
                raw.person
            ])?;
        }
        Ok(())
    }

    /// Writes a request that wrote no entry.
    pub(crate) fn silent(&mut self, id: &Uuid, silent: &Silent) -> Result<(), ExportError> {
        self.finish()?;
        let stream = self.stream(&silent.stream)?;
        self.conn.prepare_cached(REMEMBER)?.execute(params![
            id.as_bytes(),
            silent.fingerprint.0,
            silent.fingerprint_version,
            stream,
            silent.first_seq,
            0
        ])?;
        Ok(())
    }

    /// The key of a stream.
    pub(crate) fn stream(&self, name: &str) -> rusqlite::Result<i64> {
        let mut find = self
            .conn
            .prepare_cached("SELECT key FROM streams WHERE name = ?1")?;
        match find.query_row([name], |row| row.get(0)).optional()? {
            Some(key) => Ok(key),
            None => self
                .conn
                .prepare_cached("INSERT INTO streams (name) VALUES (?1)")?
                .insert([name]),
        }
    }
}
