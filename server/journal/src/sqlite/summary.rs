//! The job list: a read model, written in the same transaction as the entries it follows from.

use crate::sqlite::error::RowError;
use crate::sqlite::load::{Known, fold};
use crate::sqlite::row;
use clampbook_book::entry::Moment;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use clampbook_book::standings::Standings;
use clampbook_book::stream::Stream;
use clampbook_book::words::TorqueUnit;
use rusqlite::{Connection, Row, Statement, ToSql, params};

/// A job as it stands in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobSummary {
    /// Its identifier.
    pub id: JobId,
    /// The job as people call it.
    pub display_name: String,
    /// The machine, in words.
    pub machine: String,
    /// Unit in which its torques are shown, if one was chosen.
    pub torque_unit: Option<TorqueUnit>,
    /// When it was opened.
    pub opened: Moment,
    /// When its last entry was written.
    pub updated: Moment,
    /// Number of its last entry.
    pub last: EntryNumber,
    /// Its positions by standing.
    pub standings: Standings,
}

/// A page of the job list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobPage {
    /// Jobs, the one written last first.
    pub jobs: Vec<JobSummary>,
    /// Where the next page begins; nothing at the end.
    pub next: Option<JobsAfter>,
}

/// A place in the job list. The list keeps the order it had when its first page was read: a job that is written
/// meanwhile keeps its old place in it, so that paging neither misses a job nor shows it twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JobsAfter {
    /// How far the journal reached when the first page was read.
    pub as_of: i64,
    /// Last place in the file, as of then, of the last job shown.
    pub place: i64,
}

/// How the job's line of the list is written.
pub(crate) const WRITE: &str = "\
INSERT INTO jobs (stream, display_name, machine, torque_unit, opened, updated, last_n, last_seq, \
in_place, empty, loose, tight, left_out) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13) \
ON CONFLICT (stream) DO UPDATE SET display_name = excluded.display_name, machine = excluded.machine, \
torque_unit = excluded.torque_unit, opened = excluded.opened, updated = excluded.updated, \
last_n = excluded.last_n, last_seq = excluded.last_seq, in_place = excluded.in_place, \
empty = excluded.empty, loose = excluded.loose, tight = excluded.tight, left_out = excluded.left_out";

/// Whether the job's line of the list is as it would be written.
const COMPARE: &str = "\
SELECT count(*) FROM jobs WHERE stream = ?1 AND display_name = ?2 AND machine = ?3 AND torque_unit = ?4 AND opened = ?5 \
AND updated = ?6 AND last_n = ?7 AND last_seq = ?8 AND in_place = ?9 AND empty = ?10 AND loose = ?11 AND tight = ?12 \
AND left_out = ?13";

/// Writes the job's line of the list with a statement made of [`WRITE`].
pub(crate) fn write(statement: &mut Statement<'_>, known: &Known<Job>) -> Result<(), RowError> {
    line(known, |line| statement.execute(line))?;
    Ok(())
}

/// Whether the list says of a job what follows from its entries; one without entries has no line.
pub(crate) fn is_listed(conn: &Connection, known: &Known<Job>) -> Result<bool, RowError> {
    if known.state.last == 0 {
        let mut any = conn.prepare_cached("SELECT 1 FROM jobs WHERE stream = ?1")?;
        return Ok(!any.exists([known.stream])?);
    }
    let mut statement = conn.prepare_cached(COMPARE)?;
    let same: i64 = line(known, |line| statement.query_row(line, |row| row.get(0)))?;
    Ok(same == 1)
}

/// Does something with the line of a job.
fn line<T>(known: &Known<Job>, with: impl FnOnce(&[&dyn ToSql]) -> T) -> T {
    let Known {
        stream,
        seq,
        state: job,
    } = known;
    let standings = &job.standings;
    let (name, machine, opened) = job.opened.as_ref().map_or(("", "", Moment(0)), |o| {
        (
            o.fact.display_name.as_str(),
            o.fact.machine.as_str(),
            o.said.written,
        )
    });
    with(params![
        stream,
        name,
        machine,
        job.torque_unit().map_or("", TorqueUnit::id),
        opened.0,
        job.updated.0,
        job.last,
        seq,
        standings.in_place,
        standings.empty,
        standings.loose,
        standings.tight,
        standings.left_out
    ])
}

/// All streams by key, as the table has them.
pub(crate) fn streams(conn: &Connection) -> rusqlite::Result<Vec<(i64, String)>> {
    conn.prepare("SELECT key, name FROM streams NOT INDEXED ORDER BY key")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect()
}

/// Writes the line of one job from its entries; one without entries has none.
pub(crate) fn list(conn: &Connection, key: i64, id: &JobId) -> Result<(), RowError> {
    let known = fold(conn, key, &Stream::Job(id.clone()), Job::new(id.clone()))?;
    if known.state.last > 0 {
        let mut line = conn.prepare_cached(WRITE)?;
        write(&mut line, &known)?;
    }
    Ok(())
}

/// Writes the whole list again from the entries.
pub(crate) fn rebuild(conn: &Connection) -> Result<(), RowError> {
    conn.execute("DELETE FROM jobs", [])?;
    let streams = streams(conn)?;
    for (key, name) in streams {
        if let Stream::Job(id) = row::stream(&name)? {
            list(conn, key, &id)?;
        }
    }
    Ok(())
}

/// Jobs that were not written since `as_of` stand where the list says; the few others where their entries say.
const PAGE: &str = "\
SELECT s.name, j.display_name, j.machine, j.torque_unit, j.opened, j.updated, j.last_n, \
       j.in_place, j.empty, j.loose, j.tight, j.left_out, p.place \
FROM ( \
    SELECT stream, last_seq AS place FROM jobs WHERE last_seq <= ?1 AND last_seq < ?2 \
    UNION ALL \
    SELECT stream, (SELECT seq FROM entries e WHERE e.stream = moved.stream AND +e.seq <= ?1 ORDER BY e.n DESC LIMIT 1) \
    FROM jobs moved WHERE last_seq > ?1 \
) p JOIN jobs j ON j.stream = p.stream JOIN streams s ON s.key = j.stream \
WHERE p.place < ?2 ORDER BY p.place DESC LIMIT ?3";

/// A page of the list.
pub(crate) fn page(
    conn: &Connection,
    after: Option<JobsAfter>,
    limit: u32,
) -> Result<JobPage, RowError> {
    let tx = conn.unchecked_transaction()?;
    let JobsAfter { as_of, place } = match after {
        Some(after) => after,
        None => JobsAfter {
            as_of: tx
                .prepare_cached("SELECT coalesce(max(seq), 0) FROM entries")?
                .query_row([], |row| row.get(0))?,
            place: i64::MAX,
        },
    };
    let mut statement = tx.prepare_cached(PAGE)?;
    let mut rows = statement.query(params![as_of, place, i64::from(limit) + 1])?;
    let mut jobs = Vec::new();
    let mut last = place;
    while let Some(row) = rows.next()? {
        if jobs.len() as u64 == u64::from(limit) {
            let next = JobsAfter { as_of, place: last };
            return Ok(JobPage {
                jobs,
                next: Some(next),
            });
        }
        jobs.push(summary(row)?);
        last = row.get(12)?;
    }
    Ok(JobPage { jobs, next: None })
}

fn summary(row: &Row<'_>) -> Result<JobSummary, RowError> {
    let unit: String = row.get(3)?;
    let name = row.get_ref(0)?.as_str().map_err(rusqlite::Error::from)?;
    let Stream::Job(id) = row::stream(name)? else {
        return Err(RowError::Damaged(format!(
            "the job list has stream {name:?}"
        )));
    };
    Ok(JobSummary {
        id,
        display_name: row.get(1)?,
        machine: row.get(2)?,
        torque_unit: match unit.as_str() {
            "" => None,
            unit => Some(TorqueUnit::from_id(unit).ok_or_else(|| {
                RowError::Damaged(format!("the job list has torque unit {unit:?}"))
            })?),
        },
        opened: Moment(row.get(4)?),
        updated: Moment(row.get(5)?),
        last: row.get(6)?,
        standings: Standings {
            in_place: row.get(7)?,
            empty: row.get(8)?,
            loose: row.get(9)?,
            tight: row.get(10)?,
            left_out: row.get(11)?,
        },
    })
}
