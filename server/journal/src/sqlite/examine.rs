//! Examining what follows from the entries: indexes against tables, the job list against the jobs. Takes minutes on a file of
//! gigabytes, so nobody waits for it to be served.

use crate::sqlite::error::RowError;
use crate::sqlite::load::fold;
use crate::sqlite::{row, summary};
use clampbook_book::job::Job;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, InterruptHandle};
use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::Duration;

/// Most findings that are told: one damaged page makes hundreds.
const MOST: u32 = 20;

/// How often those who close remind an examination to end: it is deaf between two statements.
const REMINDED: Duration = Duration::from_millis(20);

/// An examination of a journal that is open, one at a time, and how it is ended.
#[derive(Default)]
pub(crate) struct Examination {
    one: Mutex<()>,
    end: Mutex<Option<InterruptHandle>>,
    closed: AtomicBool,
}

impl Examination {
    /// Looks through everything, unless it is closed meanwhile.
    pub(crate) fn run(&self, conn: &Connection) -> Result<Vec<String>, RowError> {
        let _one = locked(&self.one);
        *locked(&self.end) = Some(conn.get_interrupt_handle());
        let found = self.all(conn);
        *locked(&self.end) = None;
        found
    }

    fn all(&self, conn: &Connection) -> Result<Vec<String>, RowError> {
        if self.is_closed() {
            return Ok(Vec::new());
        }
        let mut found = database(conn)?;
        found.extend(lists(conn, &|| self.is_closed())?);
        Ok(found)
    }

    pub(crate) fn is_closed(&self) -> bool {
        self.closed.load(Ordering::SeqCst)
    }

    /// Ends what is under way and what comes.
    pub(crate) fn close(&self) {
        self.closed.store(true, Ordering::SeqCst);
        while self.interrupt() {
            thread::sleep(REMINDED);
        }
    }

    /// Whether there was anything to be interrupted.
    fn interrupt(&self) -> bool {
        let end = locked(&self.end);
        end.as_ref().map(InterruptHandle::interrupt).is_some()
    }
}

/// Every change under these locks is a single step, so a panic elsewhere leaves nothing half done.
pub(crate) fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Whether indexes and tables agree, and references lead somewhere.
pub(crate) fn database(conn: &Connection) -> Result<Vec<String>, RowError> {
    let mut found: Vec<String> = conn
        .prepare(&format!("PRAGMA integrity_check({MOST})"))?
        .query_map([], |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    found.retain(|line| line != "ok");
    let loose: i64 =
        conn.query_row("SELECT count(*) FROM pragma_foreign_key_check", [], |row| {
            row.get(0)
        })?;
    if loose > 0 {
        found.push(format!("{loose} rows refer to rows that do not exist"));
    }
    Ok(found)
}

/// Whether the index of each stream has as many entries as the walk through the table found.
pub(crate) fn streams(
    conn: &Connection,
    walked: &HashMap<String, u32>,
) -> Result<Vec<String>, RowError> {
    let mut key_of = conn.prepare("SELECT key FROM streams WHERE name = ?1")?;
    let mut count =
        conn.prepare("SELECT count(*) FROM entries WHERE stream = ?1 AND n BETWEEN 1 AND ?2")?;
    let mut found = Vec::new();
    for (key, name) in summary::streams(conn)? {
        if !key_of.exists([&name])? {
            found.push(format!("the index of streams does not have {name}"));
        }
        let Some(last) = walked.get(&name) else {
            continue;
        };
        let shown: u32 = count.query_row((key, last), |row| row.get(0))?;
        if shown != *last {
            found.push(format!(
                "{name} has {last} entries, but its index shows {shown}"
            ));
        }
    }
    Ok(found)
}

/// Whether the job list says what follows from the entries, until it is to stop.
pub(crate) fn lists(conn: &Connection, stop: &dyn Fn() -> bool) -> Result<Vec<String>, RowError> {
    let streams = summary::streams(conn)?;
    let mut found = Vec::new();
    for (key, name) in streams {
        if stop() || found.len() >= MOST as usize {
            break;
        }
        let Stream::Job(id) = row::stream(&name)? else {
            continue;
        };
        // The job and its line as of one moment.
        let tx = conn.unchecked_transaction()?;
        match fold(&tx, key, &Stream::Job(id.clone()), Job::new(id)) {
            Ok(known) if summary::is_listed(&tx, &known)? => {}
            Ok(_) => found.push(format!(
                "the job list does not say what follows from {name}"
            )),
            Err(RowError::Damaged(what)) => found.push(what),
            Err(fault) => return Err(fault),
        }
    }
    Ok(found)
}
