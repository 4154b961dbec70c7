//! The manifest: what an export is of, how it is written, and where it ends.

use super::error::ExportError;
use super::files::{MANIFEST, whole};
use clampbook_book::fact::ContentHash;
use serde::{Deserialize, Serialize};
use std::path::Path;

/// Number of the format that is written and read.
const FORMAT: u32 = 1;

/// What an export says of itself.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Manifest {
    format: u32,
    /// Version of the program that wrote it.
    tool: String,
    /// Schema of the journal that it was written from.
    schema: i64,
    /// Edition of the catalogue of the program that wrote it.
    catalogue: String,
    /// The job, if it is of one job.
    pub(crate) job: Option<String>,
    /// The last entry of the journal, as printed.
    pub(crate) head: String,
    /// Lines of entries.
    pub(crate) entries: i64,
    /// Files of photos.
    pub(crate) photos: usize,
    /// Hash of the file of requests that wrote no entry, which no chain covers; nothing in the export of a job.
    pub(crate) requests: Option<ContentHash>,
}

#[derive(Deserialize)]
struct Version {
    format: u32,
}

impl Manifest {
    pub(crate) fn new(schema: i64, job: Option<String>) -> Self {
        Self {
            format: FORMAT,
            tool: env!("CARGO_PKG_VERSION").into(),
            schema,
            catalogue: clampbook_book::CATALOGUE_EDITION.into(),
            job,
            head: String::new(),
            entries: 0,
            photos: 0,
            requests: None,
        }
    }

    pub(crate) fn read(source: &Path) -> Result<Self, ExportError> {
        let bytes = whole(source, MANIFEST)?;
        let wrong = |what: serde_json::Error| ExportError::not_whole(MANIFEST, what.to_string());
        let Version { format } = serde_json::from_slice(&bytes).map_err(wrong)?;
        if format != FORMAT {
            return Err(ExportError::not_whole(
                MANIFEST,
                format!("format {format} is not known; this program reads format {FORMAT}"),
            ));
        }
        serde_json::from_slice(&bytes).map_err(wrong)
    }
}
