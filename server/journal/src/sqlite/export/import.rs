//! Importing an export: a whole journal as it was, or a job as new entries that name their origin. All or nothing.

use super::check::{Checked, Item, check};
use super::error::ExportError;
use super::rows::Rows;
use crate::protocol::chain::{FORMAT, Head};
use crate::sqlite::claim::Claim;
use crate::sqlite::error::OpenError;
use crate::sqlite::load::{last_number, load};
use crate::sqlite::row::Raw;
use crate::sqlite::{blob, migrate, open, settings, summary, verify};
use clampbook_book::entry::Moment;
use clampbook_book::ids::JobId;
use clampbook_book::shop::Shop;
use clampbook_book::speaker::Speaker;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;
use uuid::Builder;

/// Digits of a hash that name a journal where there is little room, as on a sheet.
const DIGITS: usize = 12;

/// Imports an export: of a whole journal into a new one, or one without entries, where it keeps its hashes; of a job into a
/// journal that is there, as new entries of the job `renamed`, written `now`. Gives the head of the journal afterwards.
///
/// # Errors
/// The export is not what was written; the journal is being served, is not whole, or has something there already. Nothing was
/// written then.
pub fn import_file(
    source: &Path,
    journal: &Path,
    renamed: Option<&JobId>,
    now: Moment,
) -> Result<(Checked, Head), ExportError> {
    settings::check_version()?;
    let checked = super::check_export(source)?;
    let claim = Claim::of(journal)?;
    let path = claim.path();
    let Some(job) = &checked.job else {
        if renamed.is_some() {
            return Err(ExportError::NoOneJob);
        }
        let head = match claim.exists() {
            false => open::create(&claim, |conn| whole(conn, source, path))?,
            true => whole(&mut writer(path)?, source, path)?,
        };
        return Ok((checked, head));
    };
    if !claim.exists() {
        return Err(ExportError::Journal(OpenError::Missing {
            path: path.to_owned(),
        }));
    }
    let own = || job.strip_prefix("jobs/").and_then(JobId::new);
    let id = renamed.cloned().or_else(own).ok_or_else(|| {
        ExportError::not_whole("manifest.json", format!("{job:?} is not the name of a job"))
    })?;
    let mut conn = writer(path)?;
    sound(&conn, path)?;
    let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let head = one_job(&tx, source, &id, now)?;
    tx.commit()?;
    settings::keep_log(&conn, false)?;
    Ok((checked, head))
}

/// Opens a journal of today's schema for writing.
fn writer(path: &Path) -> Result<Connection, ExportError> {
    let conn = open::writer(path)?;
    let (schema, latest) = (open::identify(path, &conn)?.schema, migrate::latest());
    if schema < latest {
        return Err(ExportError::Older {
            path: path.to_owned(),
            schema,
            latest,
        });
    }
    Ok(conn)
}

/// Fills a journal that has no entries, and verifies it.
fn whole(conn: &mut Connection, source: &Path, path: &Path) -> Result<Head, ExportError> {
    let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let there = verify::head(&tx)?.seq;
    if there > 0 {
        return Err(ExportError::NotEmpty {
            path: path.to_owned(),
            entries: there,
        });
    }
    let mut rows = Rows::into(&tx);
    let checked = check(source, &mut |item| match item {
        Item::Entry(raw) => rows.take(*raw),
        Item::Photo(photo) => Ok(blob::keep(&tx, &photo)?),
        Item::Silent(id, silent) => rows.silent(&id, &silent),
    })?;
    rows.finish()?;
    summary::rebuild(&tx)?;
    load(&tx, &Stream::Shop, Shop::new)?;
    tx.commit()?;
    sound(conn, path)?;
    settings::keep_log(conn, false)?;
    Ok(checked.head)
}

fn sound(conn: &Connection, path: &Path) -> Result<(), ExportError> {
    let found = verify::complete(conn, migrate::latest())?;
    let broken = found.first_break.map(|broken| broken.to_string());
    let faults: Vec<String> = broken.into_iter().chain(found.faults).collect();
    match faults.is_empty() {
        true => Ok(()),
        false => Err(ExportError::Unsound {
            path: path.to_owned(),
            detail: faults.join("; "),
        }),
    }
}

/// Writes the job of an export as new entries.
fn one_job(conn: &Connection, source: &Path, id: &JobId, now: Moment) -> Result<Head, ExportError> {
    let mut entries = Vec::new();
    let checked = check(source, &mut |item| {
        match item {
            Item::Entry(raw) => entries.push(*raw),
            Item::Photo(photo) => blob::keep(conn, &photo)?,
            Item::Silent(..) => {}
        }
        Ok(())
    })?;
    let mut rows = Rows::into(conn);
    let stream = Stream::Job(id.clone()).to_string();
    let key = rows.stream(&stream)?;
    if last_number(conn, key)? > 0 {
        return Err(ExportError::Taken { job: id.clone() });
    }
    let mut head = verify::head(conn)?;
    for entry in entries {
        let mut entry = of_origin(entry, &checked, &stream);
        entry.written = now;
        let link = entry
            .link()
            .map_err(|what| ExportError::not_whole("entry", what))?;
        head = head.then(&link);
        (entry.seq, entry.hash) = (head.seq, head.hash);
        rows.take(entry)?;
    }
    rows.finish()?;
    summary::list(conn, key, id)?;
    Ok(head)
}

/// An entry as another journal's: what was said stays, and the device says where it is from. The first one names the head of
/// that journal in full. Ids of people and requests were given by that journal and may be others' here, so they get its name.
fn of_origin(entry: Raw, from: &Checked, stream: &str) -> Raw {
    let full = from.head.to_string();
    let short = &full[..full.len() - 64 + DIGITS];
    let origin = match entry.number {
        1 => &full,
        _ => short,
    };
    let known = Speaker::called(entry.name.as_str().into()).known.id();
    let journal = &from.first.hex()[..DIGITS];
    Raw {
        stream: stream.into(),
        device: format!(
            "{}, imported: entry {} of {origin}",
            entry.device, entry.seq
        ),
        request: {
            let mut hasher = blake3::Hasher::new();
            hasher.update(b"clampbook import 1").update(&from.head.hash);
            hasher
                .update(entry.request.as_bytes())
                .update(stream.as_bytes());
            let mut bytes = [0; 16];
            hasher.finalize_xof().fill(&mut bytes);
            Builder::from_custom_bytes(bytes).into_uuid()
        },
        format: Some(FORMAT),
        known: Some(entry.known.unwrap_or_else(|| known.into())),
        person: entry.person.map(|person| format!("{person}-of-{journal}")),
        fingerprint_version: Some(entry.fingerprint_version.unwrap_or_default()),
        ..entry
    }
}
