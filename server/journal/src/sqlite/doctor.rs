//! The doctor: all that can be wrong with a journal and around it, each with one line of advice.

use crate::protocol::error::ReadError;
use crate::sqlite::backups::backups_in;
use crate::sqlite::disk::free_bytes;
use crate::sqlite::partial::OWNER_ONLY;
use crate::sqlite::verify::{Verification, verify_file, written};
use crate::sqlite::{at, migrate, open};
use clampbook_book::entry::Moment;
use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::Path;

/// Microseconds of an hour.
const HOUR: i64 = 3_600_000_000;

/// A backup older than this is too old.
const BACKUP_HOURS: i64 = 48;

/// Something that was looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// What it is.
    pub what: &'static str,
    /// How it is.
    pub is: String,
    /// What to do; nothing when it is as it should be.
    pub advice: Option<&'static str>,
}

impl Finding {
    fn new(what: &'static str, is: String, advice: Option<&'static str>) -> Self {
        Self { what, is, advice }
    }
}

/// Looks at a journal, which may be served, at its disk, and at the backups in a folder.
#[must_use]
pub fn examine_file(journal: &Path, backups: Option<&Path>, now: Moment) -> Vec<Finding> {
    let mut found = vec![versions()];
    found.extend(permissions(journal));
    match verify_file(journal) {
        Ok(verified) => {
            found.extend(entries(&verified));
            found.push(clock(journal, &verified, now));
        }
        Err(error) => found.push(Finding::new(
            "journal",
            error.to_string(),
            Some("put a backup in its place: clampbookd restore BACKUP --data FILE --in-place"),
        )),
    }
    found.extend(space(journal));
    found.push(last_backup(journal, backups, now));
    found
}

fn versions() -> Finding {
    let is = format!(
        "program {}, schema {}, SQLite {}",
        env!("CARGO_PKG_VERSION"),
        migrate::latest(),
        rusqlite::version()
    );
    Finding::new("versions", is, None)
}

fn permissions(journal: &Path) -> Option<Finding> {
    let found = fs::metadata(journal).ok()?;
    let mode = found.mode() & 0o777;
    let advice = match (mode & !OWNER_ONLY, found.nlink()) {
        (_, 2..) => Some("the file has other names (hard links); remove those"),
        (0, _) => None,
        _ => Some("others may read or write it: chmod 600 FILE"),
    };
    Some(Finding::new("permissions", format!("{mode:o}"), advice))
}

fn entries(verified: &Verification) -> [Finding; 2] {
    let broken = verified.first_break.as_ref();
    let chain = match broken {
        None => format!("{} entries, head {}", verified.entries, verified.head),
        Some(broken) => broken.to_string(),
    };
    let faults = match verified.faults.as_slice() {
        [] if broken.is_none() => "as they follow from the entries".into(),
        [] => "not looked at".into(),
        faults => faults.join("; "),
    };
    [
        Finding::new(
            "chain",
            chain,
            broken.map(|_| "copy the file away, then put a backup in its place: clampbookd restore"),
        ),
        Finding::new(
            "indexes and lists",
            faults,
            (!verified.faults.is_empty())
                .then_some("stop the server and run clampbookd rebuild; if that does not help, restore a backup"),
        ),
    ]
}

fn clock(journal: &Path, verified: &Verification, now: Moment) -> Finding {
    let last = open::reader(journal)
        .and_then(|conn| written(&conn, verified.head).map_err(ReadError::from));
    let behind = last.is_ok_and(|last| at::is_set_back(last, now));
    let (is, advice) = match (now.0, behind) {
        (0, _) => (
            "1970 or before".into(),
            Some("the computer's clock was never set; set it before anything is written"),
        ),
        (_, true) => (
            "behind the last entry".into(),
            Some(
                "the computer's clock is wrong, or was when that was written; set it before anything is written",
            ),
        ),
        _ => (
            format!(
                "ahead of the last entry; set back {} times",
                verified.set_back.len()
            ),
            None,
        ),
    };
    Finding::new("clock", is, advice)
}

fn space(journal: &Path) -> Option<Finding> {
    let free = free_bytes(journal).ok()?;
    let size = fs::metadata(journal).map_or(0, |found| found.len());
    // A copy before a change of the schema, and a log as large as that.
    let wanted = size.saturating_mul(2).max(100 << 20);
    Some(Finding::new(
        "disk",
        format!("{} MiB free, the journal has {}", free >> 20, size >> 20),
        (free < wanted).then_some("make room: twice the journal, and 100 MiB at least"),
    ))
}

fn last_backup(journal: &Path, folder: Option<&Path>, now: Moment) -> Finding {
    let last = folder.and_then(|folder| backups_in(folder, journal).pop());
    let (is, advice) = match (folder, last) {
        (None, _) => (
            "not looked for".into(),
            Some(
                "name their folder with --backups, and let the server make them: clampbookd serve --backups FOLDER",
            ),
        ),
        (Some(_), None) => (
            "none".into(),
            Some("let the server make them: clampbookd serve --backups FOLDER"),
        ),
        (Some(_), Some((moment, path))) => {
            let hours = now.0.saturating_sub(moment.0) / HOUR;
            (
                format!("{hours} h ago, {}", path.display()),
                (hours >= BACKUP_HOURS)
                    .then_some("look in the server's log why there is no newer one"),
            )
        }
    };
    Finding::new("last backup", is, advice)
}
