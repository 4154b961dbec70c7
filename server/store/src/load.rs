//! Folding a job from its entries.

use crate::body;
use crate::error::Fault;
use crate::row::{damaged, stream_name};
use clampbook_book::entry::{Caller, Entry, Moment, Said};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use rusqlite::{Connection, OptionalExtension};
use std::sync::Arc;

/// A job as committed, and where it is in the file.
#[derive(Clone, Debug)]
pub(crate) struct Known {
    /// Key of its stream.
    pub(crate) stream: i64,
    /// Place of its last entry in the file.
    pub(crate) seq: i64,
    /// Its state.
    pub(crate) job: Arc<Job>,
}

/// Folds the job; nothing when nothing was ever written about it.
pub(crate) fn load(conn: &Connection, id: &JobId) -> Result<Option<Known>, Fault> {
    let stream = conn
        .prepare_cached("SELECT key FROM streams WHERE name = ?1")?
        .query_row([stream_name(id)], |row| row.get(0))
        .optional()?;
    stream.map(|stream| fold(conn, stream, id)).transpose()
}

/// Folds the job of a stream.
pub(crate) fn fold(conn: &Connection, stream: i64, id: &JobId) -> Result<Known, Fault> {
    let mut statement = conn.prepare_cached(
        "SELECT seq, n, said, written, person, device, body FROM entries WHERE stream = ?1 ORDER BY n",
    )?;
    let mut rows = statement.query([stream])?;
    let mut job = Job::new(id.clone());
    let mut last = 0;
    while let Some(row) = rows.next()? {
        last = row.get(0)?;
        let text = row.get_ref(6)?.as_str().map_err(rusqlite::Error::from)?;
        job.apply(&Entry {
            seq: last,
            job: id.clone(),
            number: row.get(1)?,
            said: Said {
                said: Moment(row.get(2)?),
                written: Moment(row.get(3)?),
                caller: Caller {
                    person: row.get(4)?,
                    device: row.get(5)?,
                },
            },
            fact: body::decode(text).map_err(|error| damaged(last, &error))?,
        });
    }
    Ok(Known {
        stream,
        seq: last,
        job: Arc::new(job),
    })
}

/// Number of the stream's last entry.
pub(crate) fn last_number(conn: &Connection, stream: i64) -> Result<EntryNumber, Fault> {
    Ok(conn
        .prepare_cached("SELECT coalesce(max(n), 0) FROM entries WHERE stream = ?1")?
        .query_row([stream], |row| row.get(0))?)
}
