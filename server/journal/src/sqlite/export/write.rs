//! Writing an export from a journal, which may be served meanwhile.

use super::check::{Checked, check_export};
use super::error::ExportError;
use super::files::{ENTRIES, Folder, MANIFEST, REQUESTS, photo};
use super::line::{Line, Silent};
use super::manifest::Manifest;
use crate::protocol::blob::named;
use crate::protocol::body;
use crate::protocol::chain::Head;
use crate::sqlite::error::RowError;
use crate::sqlite::row::Raw;
use crate::sqlite::verify::{WITH_PEOPLE, select_after};
use crate::sqlite::{blob, open};
use clampbook_book::fact::ContentHash;
use clampbook_book::ids::JobId;
use clampbook_book::stream::Stream;
use rusqlite::{Connection, Row, params};
use serde::Serialize;
use std::collections::HashSet;
use std::io::Write;
use std::path::Path;
use uuid::Uuid;

/// Exports a journal, or one job of it with the places of all other entries in the chain, into a new folder.
///
/// It is one moment of the journal, written under another name, checked, and only then given its name.
///
/// # Errors
/// There is something at `target`, the journal is not whole or has no such job, or a file cannot be used. Nothing is left
/// behind then.
pub fn export_file(
    journal: &Path,
    target: &Path,
    job: Option<&JobId>,
) -> Result<Checked, ExportError> {
    let conn = open::reader(journal)?;
    let schema = open::identify(journal, &conn)?.schema;
    let folder = Folder::of(target)?;
    let tx = conn.unchecked_transaction()?;
    let stream = job.map(|job| Stream::Job(job.clone()).to_string());
    let mut manifest = Manifest::new(schema, stream);
    let photos = entries(&tx, &folder, &mut manifest)?;
    if let (Some(job), 0) = (job, manifest.entries) {
        return Err(ExportError::NoJob { job: job.clone() });
    }
    for hash in &photos {
        let found = blob::read(&tx, *hash)?;
        let bytes = found.ok_or_else(|| RowError::Damaged(format!("content {hash} is missing")))?;
        let name = photo(*hash);
        folder.write(&name, |file| put(file, &bytes, &name))?;
    }
    manifest.photos = photos.len();
    if job.is_none() {
        manifest.requests = Some(requests(&tx, &folder, schema)?);
    }
    folder.write(MANIFEST, |file| line(file, MANIFEST, &manifest).map(drop))?;
    let checked = check_export(folder.path())?;
    folder.settle()?;
    Ok(checked)
}

/// Writes the entries, counts those that are shown, and gives the photos that these name.
fn entries(
    conn: &Connection,
    folder: &Folder,
    manifest: &mut Manifest,
) -> Result<HashSet<ContentHash>, ExportError> {
    let mut photos = HashSet::new();
    let mut head = Head::NONE;
    let mut statement = conn.prepare(select_after(conn)?)?;
    let mut rows = statement.query(params![0, -1])?;
    folder.write(ENTRIES, |file| {
        while let Some(row) = rows.next()? {
            let raw = Raw::read(row)?;
            let damaged = |what: String| RowError::Damaged(format!("entry {} {what}", raw.seq));
            head = Head {
                seq: raw.seq,
                hash: raw.hash,
            };
            if manifest.job.as_ref().is_some_and(|job| *job != raw.stream) {
                let sealed = Line::sealed(&raw).map_err(damaged)?;
                line(file, ENTRIES, &sealed)?;
                continue;
            }
            let fact = body::decode(&raw.body).map_err(damaged)?;
            photos.extend(named(&fact).map(|(hash, _)| hash));
            manifest.entries += 1;
            let seq = raw.seq;
            let shown = Line::open(raw);
            let shown = shown.map_err(|what| RowError::Damaged(format!("entry {seq} {what}")))?;
            line(file, ENTRIES, &shown)?;
        }
        Ok(())
    })?;
    manifest.head = head.to_string();
    Ok(photos)
}

/// Writes the requests that wrote no entry, which no chain covers, and gives the hash of their file.
fn requests(conn: &Connection, folder: &Folder, schema: i64) -> Result<ContentHash, ExportError> {
    let version = match schema < WITH_PEOPLE {
        true => "NULL",
        false => "r.fingerprint_version",
    };
    let mut statement = conn.prepare(&format!(
        "SELECT r.id, s.name, r.first_seq, r.fingerprint, {version} FROM requests r JOIN streams s ON s.key = r.stream \
         WHERE r.entry_count = 0 ORDER BY r.key"
    ))?;
    let mut rows = statement.query([])?;
    let mut hasher = blake3::Hasher::new();
    folder.write(REQUESTS, |file| {
        while let Some(row) = rows.next()? {
            let written = line(file, REQUESTS, &silent(row)?)?;
            hasher.update(&written);
        }
        Ok(())
    })?;
    Ok(ContentHash(*hasher.finalize().as_bytes()))
}

fn silent(row: &Row<'_>) -> rusqlite::Result<Silent> {
    Ok(Silent {
        request: Uuid::from_bytes(row.get(0)?).to_string(),
        stream: row.get(1)?,
        first_seq: row.get(2)?,
        fingerprint: ContentHash(row.get(3)?),
        fingerprint_version: row.get(4)?,
    })
}

/// Writes a line and gives its bytes.
fn line(file: &mut dyn Write, name: &str, value: &impl Serialize) -> Result<Vec<u8>, ExportError> {
    let written = serde_json::to_vec(value).map_err(std::io::Error::from);
    let mut bytes = written.map_err(ExportError::io(Path::new(name)))?;
    bytes.push(b'\n');
    put(file, &bytes, name)?;
    Ok(bytes)
}

fn put(file: &mut dyn Write, bytes: &[u8], name: &str) -> Result<(), ExportError> {
    let written = file.write_all(bytes);
    written.map_err(ExportError::io(Path::new(name)))
}
