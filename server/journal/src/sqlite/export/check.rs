//! Checking an export without a journal: every hash, every photo, and that nothing is missing.

use super::error::ExportError;
use super::files::{ENTRIES, MANIFEST, REQUESTS, lines, photo, whole};
use super::line::{Held, Line, Silent};
use super::manifest::Manifest;
use crate::protocol::blob::Blob;
use crate::protocol::blob::Content;
use crate::protocol::chain::Head;
use crate::sqlite::row::Raw;
use crate::sqlite::verify::Walk;
use clampbook_book::fact::ContentHash;
use serde::de::DeserializeOwned;
use std::collections::HashSet;
use std::io::BufRead;
use std::path::Path;
use uuid::Uuid;

/// An export that was found whole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// The last entry of the journal that it is from.
    pub head: Head,
    /// Its first entry, which tells journals apart.
    pub(crate) first: Head,
    /// The stream of the job, if it is of one job.
    pub job: Option<String>,
    /// Entries that are shown.
    pub entries: i64,
    /// Photos.
    pub photos: usize,
    /// From this entry on each was shown to follow from the one before. Places of entries of format 1 that are not shown cannot
    /// be.
    pub proven_from: i64,
}

/// What is in an export, in order.
pub(crate) enum Item {
    /// An entry that is shown.
    Entry(Box<Raw>),
    /// A photo that such an entry names.
    Photo(Blob),
    /// A request that wrote no entry.
    Silent(Uuid, Silent),
}

/// Checks an export: all that can be known without its journal.
///
/// # Errors
/// It is not what was written, something is missing, or it is of a format that this program does not know.
pub fn check_export(source: &Path) -> Result<Checked, ExportError> {
    check(source, &mut |_| Ok(()))
}

/// Checks an export and gives away what is in it as it goes: it was whole only when this ends well.
pub(crate) fn check(
    source: &Path,
    take: &mut dyn FnMut(Item) -> Result<(), ExportError>,
) -> Result<Checked, ExportError> {
    let manifest = Manifest::read(source)?;
    let (walk, checked) = entries(source, &manifest, take)?;
    let contents: HashSet<Content> = walk.named.iter().map(|named| named.content).collect();
    for (hash, size) in &contents {
        let name = photo(*hash);
        let blob = Blob::new(whole(source, &name)?.into());
        if blob.hash() != *hash || blob.bytes().len() as u64 != *size {
            return Err(ExportError::not_whole(
                name,
                "has another content than its entry names",
            ));
        }
        take(Item::Photo(blob))?;
    }
    match (&manifest.job, manifest.requests) {
        (None, Some(wanted)) => silent(source, wanted, take)?,
        (Some(_), None) => {}
        _ => {
            return Err(ExportError::not_whole(
                MANIFEST,
                "must name requests without entries in a whole export, and only there",
            ));
        }
    }
    let found = (checked.head.to_string(), checked.entries, contents.len());
    let said = (manifest.head, manifest.entries, manifest.photos);
    if found != said {
        return Err(ExportError::not_whole(
            ENTRIES,
            format!(
                "ends at {} with {} entries and {} photos, but the manifest says {} with {} and {}",
                found.0, found.1, found.2, said.0, said.1, said.2
            ),
        ));
    }
    Ok(Checked {
        photos: contents.len(),
        ..checked
    })
}

fn entries(
    source: &Path,
    manifest: &Manifest,
    take: &mut dyn FnMut(Item) -> Result<(), ExportError>,
) -> Result<(Walk, Checked), ExportError> {
    let mut walk = Walk::from(Head::NONE);
    let mut checked = Checked {
        head: Head::NONE,
        first: Head::NONE,
        job: manifest.job.clone(),
        entries: 0,
        photos: 0,
        proven_from: 1,
    };
    let mut requests = Requests::default();
    for (number, line) in (1..).zip(lines(source, ENTRIES)?.lines()) {
        let place = || format!("{ENTRIES}, line {number}");
        let wrong = |what: String| ExportError::not_whole(place(), what);
        let line = line.map_err(|error| wrong(error.to_string()))?;
        let line: Line = parsed(line.as_bytes()).map_err(&wrong)?;
        if line.seq != number {
            return Err(wrong(format!("is entry {}, not {number}", line.seq)));
        }
        match line.held(&walk.head).map_err(&wrong)? {
            Held::Entry(raw) => {
                if manifest.job.as_ref().is_some_and(|job| *job != raw.stream) {
                    return Err(wrong(format!("is of {}, not of the job", raw.stream)));
                }
                walk.step(&raw).map_err(&wrong)?;
                requests.step(&raw).map_err(&wrong)?;
                checked.entries += 1;
                take(Item::Entry(raw))?;
            }
            Held::Place { .. } if manifest.job.is_none() => {
                return Err(wrong("does not say what was said".into()));
            }
            Held::Place { next, follows } => {
                walk.head = next;
                if !follows {
                    checked.proven_from = number + 1;
                }
            }
        }
        if number == 1 {
            checked.first = walk.head;
        }
    }
    checked.head = walk.head;
    Ok((walk, checked))
}

fn silent(
    source: &Path,
    wanted: ContentHash,
    take: &mut dyn FnMut(Item) -> Result<(), ExportError>,
) -> Result<(), ExportError> {
    let wrong = |what: String| ExportError::not_whole(REQUESTS, what);
    let mut file = lines(source, REQUESTS)?;
    let mut hasher = blake3::Hasher::new();
    let mut line = Vec::new();
    while file
        .read_until(b'\n', &mut line)
        .map_err(|error| wrong(error.to_string()))?
        > 0
    {
        hasher.update(&line);
        let silent: Silent = parsed(&line).map_err(wrong)?;
        let id = Uuid::parse_str(&silent.request);
        let id = id.map_err(|error| wrong(error.to_string()))?;
        take(Item::Silent(id, silent))?;
        line.clear();
    }
    match *hasher.finalize().as_bytes() == wanted.0 {
        true => Ok(()),
        false => Err(wrong("is not what was written: its hash is another".into())),
    }
}

fn parsed<T: DeserializeOwned>(line: &[u8]) -> Result<T, String> {
    serde_json::from_slice(line).map_err(|error| error.to_string())
}

/// The entries of a request follow each other, and say the same about it.
#[derive(Default)]
struct Requests {
    seen: HashSet<Uuid>,
    last: Option<(Uuid, String, [u8; 32], Option<u32>)>,
}

impl Requests {
    fn step(&mut self, raw: &Raw) -> Result<(), String> {
        let version = raw.fingerprint_version;
        let this = (raw.request, raw.stream.clone(), raw.fingerprint, version);
        if self.last.as_ref() != Some(&this) {
            if !self.seen.insert(raw.request) {
                return Err("is not beside the other entries of its request".into());
            }
            self.last = Some(this);
        }
        Ok(())
    }
}
