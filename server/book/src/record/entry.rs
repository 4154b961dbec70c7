//! An entry: a fact in its place in the journal, with who said it and when.

use crate::record::fact::Fact;
use crate::record::ids::EntryNumber;
use crate::record::stream::Stream;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A moment, in microseconds since 1970-01-01T00:00:00Z.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Moment(pub i64);

/// Who speaks.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Caller {
    /// The person, by name.
    pub person: Arc<str>,
    /// The device spoken on.
    pub device: Arc<str>,
}

/// Written down as the person when no name is given.
const UNNAMED: &str = "local person";

impl Caller {
    /// The caller who gives no name, of themselves or of the device.
    #[must_use]
    pub fn unnamed() -> Self {
        Self {
            person: UNNAMED.into(),
            device: "this machine".into(),
        }
    }

    /// The person who speaks, and how they are known.
    #[must_use]
    pub fn speaker(&self) -> Speaker<'_> {
        Speaker {
            name: &self.person,
            known: match &*self.person {
                UNNAMED => Known::Open,
                _ => Known::Named,
            },
        }
    }
}

/// Who speaks or asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Speaker<'a> {
    /// The name as it is written down.
    pub name: &'a str,
    /// How the person is known.
    pub known: Known,
}

/// How a person is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// Not at all: no name was given, and the door is open to anyone.
    Open,
    /// By the name that was given, which nobody checked.
    Named,
}

/// Who said something and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// Who.
    pub caller: Caller,
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
