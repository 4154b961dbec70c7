//! A line of an export: an entry as the journal has it, or its place in the chain alone.

use crate::protocol::chain::{FORMAT, Format, Head, linked};
use crate::sqlite::row::Raw;
use clampbook_book::entry::Moment;
use clampbook_book::fact::ContentHash;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// Format of entries whose hash covers everything at once.
const FIRST: i64 = 1;

/// An entry. The outer fields are what its link hash covers besides the hash before; `said` is what its content hash covers.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Line {
    pub(crate) seq: i64,
    format: i64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    n: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    written: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    content: Option<ContentHash>,
    hash: ContentHash,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    said: Option<Content>,
}

/// What was said.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Content {
    stream: String,
    kind: String,
    name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    person: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    known: Option<String>,
    device: String,
    said: i64,
    request: String,
    fingerprint: ContentHash,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fingerprint_version: Option<u32>,
    body: String,
}

/// What a line holds.
pub(crate) enum Held {
    /// A whole entry.
    Entry(Box<Raw>),
    /// A place in the chain alone.
    Place {
        /// Where the chain comes to.
        next: Head,
        /// Whether that was shown to follow from the place before.
        follows: bool,
    },
}

impl Line {
    /// An entry with all it says.
    pub(crate) fn open(raw: Raw) -> Result<Self, String> {
        let sealed = Self::sealed(&raw)?;
        Ok(Self {
            n: Some(raw.number),
            written: Some(raw.written.0),
            said: Some(Content {
                stream: raw.stream,
                kind: raw.kind,
                name: raw.name,
                person: raw.person,
                known: raw.known,
                device: raw.device,
                said: raw.said.0,
                request: raw.request.to_string(),
                fingerprint: ContentHash(raw.fingerprint),
                fingerprint_version: raw.fingerprint_version,
                body: raw.body,
            }),
            ..sealed
        })
    }

    /// An entry without what it says: as much as it takes to follow the chain.
    pub(crate) fn sealed(raw: &Raw) -> Result<Self, String> {
        let link = raw.link()?;
        let content = match &link.format {
            Format::First => None,
            Format::Second(known) => Some(ContentHash(link.content(known))),
        };
        Ok(Self {
            seq: raw.seq,
            format: raw.format.unwrap_or(FIRST),
            n: content.map(|_| raw.number),
            written: content.map(|_| raw.written.0),
            content,
            hash: ContentHash(raw.hash),
            said: None,
        })
    }

    /// What it holds, where the chain came to `before`.
    pub(crate) fn held(self, before: &Head) -> Result<Held, String> {
        if ![FIRST, FORMAT].contains(&self.format) {
            return Err(format!(
                "has entry format {}, which is not known",
                self.format
            ));
        }
        if self.said.is_some() {
            return self.entry().map(|raw| Held::Entry(raw.into()));
        }
        let next = Head {
            seq: self.seq,
            hash: self.hash.0,
        };
        match (self.format, self.n, self.written, self.content) {
            (FIRST, None, None, None) => Ok(Held::Place {
                next,
                follows: false,
            }),
            (FORMAT, Some(n), Some(written), Some(content)) => {
                let hash = linked(&before.hash, self.seq, n, Moment(written), &content.0);
                match hash == next.hash {
                    true => Ok(Held::Place { next, follows: true }),
                    false => Err("is not what was written: its hash does not follow from it and the entry before".into()),
                }
            }
            _ => Err(missing()),
        }
    }

    fn entry(self) -> Result<Raw, String> {
        let said = self.said.ok_or_else(missing)?;
        let raw = Raw {
            seq: self.seq,
            stream: said.stream,
            number: self.n.ok_or_else(missing)?,
            said: Moment(said.said),
            written: Moment(self.written.ok_or_else(missing)?),
            name: said.name,
            device: said.device,
            kind: said.kind,
            body: said.body,
            hash: self.hash.0,
            request: Uuid::parse_str(&said.request).map_err(|error| error.to_string())?,
            fingerprint: said.fingerprint.0,
            format: (self.format != FIRST).then_some(self.format),
            known: said.known,
            person: said.person,
            fingerprint_version: said.fingerprint_version,
            owned: true,
        };
        let content = Self::sealed(&raw)?.content;
        match content == self.content {
            true => Ok(raw),
            false => Err("is not what was written: its content hash is another".into()),
        }
    }
}

fn missing() -> String {
    "has not all that an entry of its format has".into()
}

/// A request that wrote nothing, remembered so that it gets its first answer.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Silent {
    pub(crate) request: String,
    pub(crate) stream: String,
    pub(crate) first_seq: i64,
    pub(crate) fingerprint: ContentHash,
    pub(crate) fingerprint_version: Option<u32>,
}
