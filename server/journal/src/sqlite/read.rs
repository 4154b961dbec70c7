//! Reading: a few read-only connections, used outside the async threads.

use crate::protocol::entry::StoredEntry;
use crate::protocol::error::ReadError;
use crate::sqlite::error::RowError;
use crate::sqlite::examine::{Examination, locked};
use crate::sqlite::open;
use crate::sqlite::place::Place;
use crate::sqlite::row::{entries, select_entries};
use clampbook_book::ids::EntryNumber;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, params};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use tokio::sync::Semaphore;
use tokio::task::spawn_blocking;

/// Most connections that read at the same time. SQLite reads of committed pages scale with cores; a few are enough.
const READERS: u32 = 4;

/// The readers' connections.
pub(crate) struct Readers {
    path: PathBuf,
    place: Arc<Place>,
    free: Arc<Semaphore>,
    idle: Arc<Mutex<Vec<Connection>>>,
    examination: Arc<Examination>,
}

impl Readers {
    pub(crate) fn new(path: PathBuf, place: Arc<Place>) -> Self {
        Self {
            path,
            place,
            free: Arc::new(Semaphore::new(READERS as usize)),
            idle: Arc::default(),
            examination: Arc::default(),
        }
    }

    pub(crate) fn path(&self) -> &PathBuf {
        &self.path
    }

    /// Makes sure that the file is where it was opened.
    pub(crate) fn in_place(&self) -> Result<(), ReadError> {
        in_place(&self.place)
    }

    /// Runs `read` with a connection. It is finished even when the caller hangs up.
    pub(crate) async fn read<T: Send + 'static>(
        &self,
        read: impl FnOnce(&Connection) -> Result<T, RowError> + Send + 'static,
    ) -> Result<T, ReadError> {
        let permit = self
            .free
            .clone()
            .acquire_owned()
            .await
            .map_err(|_| ReadError::Stopped)?;
        let (path, place) = (self.path.clone(), self.place.clone());
        let idle = self.idle.clone();
        spawn_blocking(move || {
            let free = locked(&idle).pop();
            let conn = free.map_or_else(|| open_in_place(&path, &place), Ok)?;
            let found = read(&conn)?;
            locked(&idle).push(conn);
            drop(permit);
            Ok(found)
        })
        .await
        .map_err(|error| ReadError::Broken {
            detail: error.to_string(),
        })?
    }

    /// Looks through indexes and lists until it is done or the readers are closed.
    pub(crate) async fn examine(&self) -> Result<Vec<String>, ReadError> {
        let examination = self.examination.clone();
        let found = self.read(move |conn| examination.run(conn)).await;
        match self.examination.is_closed() {
            true => Err(ReadError::Stopped),
            false => found,
        }
    }

    /// Waits for everybody who reads, then closes the connections. Nothing is read afterwards.
    pub(crate) async fn close(&self) {
        let examination = self.examination.clone();
        // However that ends, the examination is over when all permits are there.
        let _ = spawn_blocking(move || examination.close()).await;
        let all = self.free.acquire_many(READERS).await;
        self.free.close();
        drop(all);
        locked(&self.idle).clear();
    }
}

/// A connection to the file that the writer has, and not to another of its name.
fn open_in_place(path: &Path, place: &Place) -> Result<Connection, ReadError> {
    let conn = open::reader(path);
    in_place(place)?;
    conn
}

fn in_place(place: &Place) -> Result<(), ReadError> {
    let checked = place.check();
    checked.map_err(|detail| ReadError::Lost { detail })
}

/// Entries of a stream with numbers after `after`, oldest first.
pub(crate) fn entries_of(
    conn: &Connection,
    stream: &Stream,
    after: EntryNumber,
    limit: u32,
) -> Result<Vec<StoredEntry>, RowError> {
    entries(
        conn,
        select_entries!("WHERE s.name = ?1 AND e.n > ?2 ORDER BY e.n LIMIT ?3"),
        params![stream.to_string(), after, limit],
    )
}

/// Entries after a place in the file, of one stream or of all, oldest first.
pub(crate) fn entries_after(
    conn: &Connection,
    seq: i64,
    stream: Option<&Stream>,
    limit: u32,
) -> Result<Vec<StoredEntry>, RowError> {
    match stream {
        Some(stream) => entries_of(conn, stream, number_up_to(conn, stream, seq)?, limit),
        None => entries(
            conn,
            select_entries!("WHERE e.seq > ?1 ORDER BY e.seq LIMIT ?2"),
            params![seq, limit],
        ),
    }
}

/// Number of the last entry of a stream up to a place in the file. Both grow together, so it is found by halving: walking a
/// long stream costs its length at every page.
fn number_up_to(conn: &Connection, stream: &Stream, seq: i64) -> Result<EntryNumber, RowError> {
    let mut place_of = conn.prepare_cached(
        "SELECT e.seq FROM entries e JOIN streams s ON s.key = e.stream WHERE s.name = ?1 AND e.n = ?2",
    )?;
    let mut last_of = conn.prepare_cached(
        "SELECT coalesce(max(e.n), 0) FROM entries e JOIN streams s ON s.key = e.stream WHERE s.name = ?1",
    )?;
    let name = stream.to_string();
    let mut behind: EntryNumber = last_of.query_row([&name], |row| row.get(0))?;
    let mut up_to = 0;
    while up_to < behind {
        let middle = up_to + (behind - up_to).div_ceil(2);
        let place: i64 = place_of.query_row(params![name, middle], |row| row.get(0))?;
        match place <= seq {
            true => up_to = middle,
            false => behind = middle - 1,
        }
    }
    Ok(up_to)
}
