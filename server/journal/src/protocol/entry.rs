//! Entries as the journal gives them out.

use clampbook_book::entry::Entry;
use clampbook_book::ids::JobId;
use clampbook_book::stream::Stream;
use serde::Deserialize;
use serde::de::value::{Error as ValueError, StrDeserializer};
use std::sync::Arc;
use uuid::Uuid;

/// An entry with what the journal keeps beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct StoredEntry {
    /// Its place in the whole file.
    pub seq: i64,
    /// The entry.
    pub entry: Arc<Entry>,
    /// The request that made it.
    pub request: Uuid,
    /// Its hash, which fixes it and all entries before it.
    pub hash: [u8; 32],
    /// The fact as stored, JSON text.
    pub body: Arc<str>,
}

/// The stream with this name. Takes whatever was written, should the rule for new identifiers ever get narrower.
pub(crate) fn stream(name: &str) -> Result<Stream, String> {
    if name == "shop" {
        return Ok(Stream::Shop);
    }
    name.strip_prefix("jobs/")
        .and_then(|id| JobId::deserialize(StrDeserializer::<ValueError>::new(id)).ok())
        .map(Stream::Job)
        .ok_or_else(|| format!("stream {name:?} is neither a job's nor the shop's"))
}
