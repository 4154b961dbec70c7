//! Verification: whether every entry still is what was written, and none is missing.

use crate::protocol::blob::{Content, named};
use crate::protocol::body;
use crate::protocol::chain::Head;
use crate::protocol::error::ReadError;
use crate::sqlite::blob;
use crate::sqlite::error::{OpenError, RowError};
use crate::sqlite::expected::Expected;
use crate::sqlite::row::{Raw, select_entries};
use crate::sqlite::{at, examine, migrate, open, schema};
use clampbook_book::entry::Moment;
use rusqlite::{Connection, OptionalExtension, params};
use std::collections::{HashMap, HashSet};
use std::fmt;
use std::panic::resume_unwind;
use std::path::Path;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread;

/// Entries read at a time, so that no reading lasts long enough to keep the writer's log from being reset.
const PAGE: u32 = 2_000;

/// The schema with which entries came to say who is meant by a name.
pub(crate) const WITH_PEOPLE: i64 = 4;
/// Pages that wait to be looked at.
const PAGES: usize = 2;

/// What a verification found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verification {
    /// Entries that follow from those before them.
    pub entries: i64,
    /// The last entry.
    pub head: Head,
    /// What is wrong with the one after them; nothing when the chain is whole.
    pub first_break: Option<Break>,
    /// Entries that were written earlier than the one before them, by the clock: it was set back. Nothing is wrong with them.
    pub set_back: Vec<i64>,
    /// What else is wrong: indexes, lists or the schema, one line each.
    pub faults: Vec<String>,
}

impl Verification {
    /// Whether nothing is wrong.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.first_break.is_none() && self.faults.is_empty()
    }
}

/// Where the chain breaks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Break {
    /// Place in the file.
    pub seq: i64,
    /// What is wrong there.
    pub what: String,
}

impl fmt::Display for Break {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "entry {} of the file {}", self.seq, self.what)
    }
}

/// Verifies a journal that is not open here, with its indexes and lists; it may be in use.
///
/// # Errors
/// The file is not ours, newer than this program, or cannot be read. What is wrong in it is no error but the finding.
pub fn verify_file(path: &Path) -> Result<Verification, OpenError> {
    let conn = open::reader(path)?;
    let schema = open::identify(path, &conn)?.schema;
    Ok(complete(&conn, schema).map_err(ReadError::from)?)
}

/// Verifies a journal likewise, and that it leads to a head that was kept elsewhere.
///
/// # Errors
/// As [`verify_file`].
pub fn verify_against(path: &Path, expected: &Expected) -> Result<Verification, OpenError> {
    let mut found = verify_file(path)?;
    let conn = open::reader(path)?;
    let missing = expected.missing(&conn, &found.head);
    found.faults.extend(missing.map_err(ReadError::from)?);
    Ok(found)
}

/// Verifies everything.
pub(crate) fn complete(conn: &Connection, schema: i64) -> Result<Verification, RowError> {
    let mut found = whole(conn)?;
    found.faults.extend(schema::differences(conn, schema)?);
    found.faults.extend(examine::database(conn)?);
    // Lists are compared as they are written today.
    if found.is_whole() && schema == migrate::latest() {
        found.faults.extend(examine::lists(conn, &|| false)?);
    }
    Ok(found)
}

/// Verifies all entries, that the index of each stream has them all, and every content that an entry names.
pub(crate) fn whole(conn: &Connection) -> Result<Verification, RowError> {
    let (mut found, walk) = Walk::from(Head::NONE).complete(conn)?;
    let mut seen = HashSet::new();
    for Named { before, content } in walk.named {
        let wrong = match seen.insert(content) {
            true => blob::wrong(conn, content)?,
            false => None,
        };
        // Only entries that follow name anything, so this comes before any break of the chain.
        if let Some(what) = wrong {
            return Ok(Verification {
                entries: before.seq,
                head: before,
                first_break: Some(Break {
                    seq: before.seq + 1,
                    what,
                }),
                set_back: found.set_back,
                faults: Vec::new(),
            });
        }
    }
    found.faults = examine::streams(conn, &walk.numbers)?;
    Ok(found)
}

/// Verifies the last `count` entries, trusting the one before them; to look at contents would take too long. Gives the last
/// number of each stream among them.
pub(crate) fn tail(
    conn: &Connection,
    count: i64,
) -> Result<(Verification, HashMap<String, u32>), RowError> {
    let last = head(conn)?.seq;
    let from = match last - count {
        seq if seq > 0 => head_at(conn, seq)?,
        _ => Head::NONE,
    };
    let (found, walk) = Walk::from(from).complete(conn)?;
    Ok((found, walk.numbers))
}

/// The last entry.
pub(crate) fn head(conn: &Connection) -> Result<Head, RowError> {
    head_at(conn, i64::MAX)
}

/// When the entry at the head was written; before everything where there is none.
pub(crate) fn written(conn: &Connection, head: Head) -> Result<Moment, RowError> {
    let written = conn
        .prepare_cached("SELECT written FROM entries WHERE seq = ?1")?
        .query_row([head.seq], |row| row.get(0))
        .optional()?;
    Ok(Moment(written.unwrap_or(i64::MIN)))
}

/// The last entry up to a place.
fn head_at(conn: &Connection, seq: i64) -> Result<Head, RowError> {
    let mut statement = conn.prepare_cached(
        "SELECT seq, hash FROM entries WHERE seq <= ?1 ORDER BY seq DESC LIMIT 1",
    )?;
    let mut rows = statement.query([seq])?;
    Ok(match rows.next()? {
        Some(row) => Head {
            seq: row.get(0)?,
            hash: row.get(1)?,
        },
        None => Head::NONE,
    })
}

/// A walk along the chain: one thread reads pages, another follows the chain through them.
pub(crate) struct Walk {
    from: i64,
    pub(crate) head: Head,
    numbers: HashMap<String, u32>,
    pub(crate) named: Vec<Named>,
    written: Moment,
    set_back: Vec<i64>,
}

/// A content that an entry names, and the entry before that one.
pub(crate) struct Named {
    before: Head,
    pub(crate) content: Content,
}

/// A row of a page, or why it cannot be read.
type Read = Result<Raw, String>;

impl Walk {
    pub(crate) fn from(head: Head) -> Self {
        Self {
            from: head.seq,
            head,
            numbers: HashMap::new(),
            named: Vec::new(),
            written: Moment(i64::MIN),
            set_back: Vec::new(),
        }
    }

    fn complete(mut self, conn: &Connection) -> Result<(Verification, Self), RowError> {
        let from = self.from;
        let (pages, read) = sync_channel(PAGES);
        let (missing, broken) = thread::scope(|scope| {
            let walk = scope.spawn(|| read.into_iter().find_map(|page| self.page(page)));
            let missing = read_all(conn, from, &pages);
            drop(pages);
            let broken = walk.join().unwrap_or_else(|panic| resume_unwind(panic));
            (missing, broken)
        });
        let first_break = broken.or(missing?);
        let found = Verification {
            entries: self.head.seq - self.from,
            head: self.head,
            first_break,
            set_back: std::mem::take(&mut self.set_back),
            faults: Vec::new(),
        };
        Ok((found, self))
    }

    /// Walks on by a page, up to where the chain breaks.
    fn page(&mut self, page: Vec<Read>) -> Option<Break> {
        page.into_iter().find_map(|row| {
            let what = row.and_then(|raw| self.step(&raw)).err()?;
            let seq = self.head.seq + 1;
            Some(Break { seq, what })
        })
    }

    pub(crate) fn step(&mut self, raw: &Raw) -> Result<(), String> {
        if raw.seq != self.head.seq + 1 {
            return Err(format!(
                "is missing, or its stream or request is; the next is {}",
                raw.seq
            ));
        }
        let next = self.head.then(&raw.link()?);
        let name = || format!("({}, number {})", raw.stream, raw.number);
        if next.hash != raw.hash {
            return Err(format!(
                "{} is not what was written: its hash does not follow from it and the entry before",
                name()
            ));
        }
        if !raw.owned {
            return Err(format!(
                "{} is not among the entries of its request",
                name()
            ));
        }
        let before = self.numbers.get_mut(&raw.stream);
        let expected = match &before {
            Some(last) => last.checked_add(1),
            // On a walk that does not begin at the beginning, the numbers before are not known.
            None if self.from > 0 => Some(raw.number),
            None => Some(1),
        };
        if expected != Some(raw.number) {
            return Err(format!("{} is out of order in its stream", name()));
        }
        let fact = match body::decode(&raw.body) {
            Ok(fact) if fact.kind() == raw.kind => fact,
            Ok(_) => return Err(format!("{} has another kind than its body", name())),
            Err(error) => {
                return Err(format!(
                    "{} has a body that cannot be read: {error}",
                    name()
                ));
            }
        };
        match before {
            Some(last) => *last = raw.number,
            None => {
                self.numbers.insert(raw.stream.clone(), raw.number);
            }
        }
        self.named.extend(named(&fact).map(|content| Named {
            before: self.head,
            content,
        }));
        if at::is_set_back(self.written, raw.written) {
            self.set_back.push(raw.seq);
        }
        self.written = raw.written;
        self.head = next;
        Ok(())
    }
}

/// Selects the entries after a place, so many, of a file of any schema.
pub(crate) fn select_after(conn: &Connection) -> rusqlite::Result<&'static str> {
    let schema: i64 = conn.pragma_query_value(None, "user_version", |row| row.get(0))?;
    Ok(match schema < WITH_PEOPLE {
        true => select_entries!(older: "WHERE e.seq > ?1 ORDER BY e.seq LIMIT ?2"),
        false => select_entries!("WHERE e.seq > ?1 ORDER BY e.seq LIMIT ?2"),
    })
}

/// Reads everything after a place, page by page, until there is no more or nobody wants it; says what is missing at the end.
fn read_all(
    conn: &Connection,
    from: i64,
    pages: &SyncSender<Vec<Read>>,
) -> Result<Option<Break>, RowError> {
    let mut last = from;
    let select = select_after(conn)?;
    loop {
        let tx = conn.unchecked_transaction()?;
        let mut statement = tx.prepare_cached(select)?;
        let mut rows = statement.query(params![last, PAGE])?;
        let mut page = Vec::with_capacity(PAGE as usize);
        while let Some(row) = rows.next()? {
            last = row.get(0)?;
            page.push(Raw::read(row).map_err(|error| format!("cannot be read: {error}")));
        }
        if page.is_empty() {
            return missing_at_the_end(&tx, from == 0, last);
        }
        if pages.send(page).is_err() {
            return Ok(None);
        }
    }
}

/// Whether requests say that there should be more entries: all requests, or the last one after a walk along the end only,
/// which must not take longer the older the journal is.
fn missing_at_the_end(
    conn: &Connection,
    walked_all: bool,
    last: i64,
) -> Result<Option<Break>, RowError> {
    let promise = if walked_all {
        "SELECT coalesce(max(first_seq + entry_count - 1), 0) FROM requests WHERE entry_count > 0"
    } else {
        "SELECT coalesce((SELECT first_seq + entry_count - 1 FROM requests WHERE entry_count > 0 \
         ORDER BY key DESC LIMIT 1), 0)"
    };
    let promised: i64 = conn.query_row(promise, [], |row| row.get(0))?;
    Ok((promised > last).then(|| Break {
        seq: last + 1,
        what: format!("is missing; requests made entries up to {promised}"),
    }))
}
