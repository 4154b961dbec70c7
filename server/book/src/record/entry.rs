//! An entry: a fact in its place in the journal, with who said it and when.

use crate::record::fact::Fact;
use crate::record::ids::EntryNumber;
use crate::record::speaker::{Speaker, UNNAMED};
use crate::record::stream::Stream;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A moment, in microseconds since 1970-01-01T00:00:00Z.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Moment(pub i64);

/// Who calls, as they name themselves.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Caller {
    /// The person, by name or by the id that the shop gave them.
    pub person: Arc<str>,
    /// The device spoken on.
    pub device: Arc<str>,
}

impl Caller {
    /// The caller who gives no name, of themselves or of the device.
    #[must_use]
    pub fn unnamed() -> Self {
        Self {
            person: UNNAMED.into(),
            device: "this machine".into(),
        }
    }
}

/// Who said something and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// Who.
    pub by: Speaker,
    /// The device it was said on.
    pub device: Arc<str>,
    /// When it was said, maybe hours before it arrived.
    pub said: Moment,
    /// When the server wrote it.
    pub written: Moment,
}

/// A fact in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// What it is about.
    pub stream: Stream,
    /// Place in that stream.
    pub number: EntryNumber,
    /// Who and when.
    pub said: Said,
    /// What was said.
    pub fact: Fact,
}

/// An etag in its quoted form.
#[must_use]
pub fn etag(touched: EntryNumber) -> String {
    format!("\"{touched}\"")
}
