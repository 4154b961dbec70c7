//! The hash chain: each entry's hash covers the hash before it and everything the entry says, so that no entry can be
//! changed, moved, left out or slipped in without the hashes after it no longer following.

use crate::protocol::request::Order;
use clampbook_book::entry::{Entry, Moment};
use clampbook_book::ids::PersonId;
use clampbook_book::speaker::Speaker;
use std::fmt;
use uuid::Uuid;

/// The end of the chain: all entries up to it are fixed by its hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// Place of the last entry in the file; 0 while there is none.
    pub seq: i64,
    /// Its hash; zeros while there is none.
    pub hash: [u8; 32],
}

/// As printed: its place, then its hash.
impl fmt::Display for Head {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.seq, self.hex())
    }
}

impl Head {
    /// The head of an empty journal.
    pub const NONE: Self = Self {
        seq: 0,
        hash: [0; 32],
    };

    /// The hash in lower-case hexadecimal, as printed.
    #[must_use]
    pub fn hex(&self) -> String {
        blake3::Hash::from_bytes(self.hash).to_hex().to_string()
    }

    /// The head after one more entry.
    pub(crate) fn then(&self, link: &Link<'_>) -> Self {
        Self {
            seq: self.seq + 1,
            hash: link.hash(&self.hash, self.seq + 1),
        }
    }
}

/// What the hash of an entry covers, besides its place and the hash before it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Link<'a> {
    pub(crate) stream: &'a str,
    pub(crate) number: u32,
    pub(crate) said: Moment,
    pub(crate) written: Moment,
    pub(crate) name: &'a str,
    pub(crate) device: &'a str,
    pub(crate) kind: &'a str,
    pub(crate) request: &'a Uuid,
    pub(crate) fingerprint: &'a [u8; 32],
    pub(crate) body: &'a str,
    pub(crate) format: Format<'a>,
}

/// How an entry is hashed, with what only entries of that format say.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Format<'a> {
    /// Everything in one hash; of the person only the name is known. Written up to schema 3, and read for ever.
    First,
    /// What was said has a hash of its own, so that it can be left out and the chain still be followed.
    Second(Known<'a>),
}

/// What entries of format 2 say besides.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Known<'a> {
    /// Id of the person, if the shop has one.
    pub(crate) person: Option<&'a str>,
    /// How the person is known.
    pub(crate) how: &'a str,
    /// Version of the fingerprint.
    pub(crate) fingerprint: u32,
}

impl<'a> Known<'a> {
    /// What an entry says of the person besides the name.
    pub(crate) fn of(by: &'a Speaker, fingerprint: u32) -> Self {
        Self {
            person: by.person.as_ref().map(PersonId::as_str),
            how: by.known.id(),
            fingerprint,
        }
    }
}

/// Number of the format that is written.
pub(crate) const FORMAT: i64 = 2;

impl<'a> Link<'a> {
    /// Of an entry that is to be written.
    pub(crate) fn of(
        order: &'a Order,
        stream: &'a str,
        entry: &'a Entry,
        body: &'a str,
        known: Known<'a>,
    ) -> Self {
        Self {
            stream,
            number: entry.number,
            said: entry.said.said,
            written: entry.said.written,
            name: &entry.said.by.name,
            device: &entry.said.device,
            kind: entry.fact.kind(),
            request: &order.request,
            fingerprint: &order.fingerprint.hash,
            body,
            format: Format::Second(known),
        }
    }
}

impl Link<'_> {
    fn hash(&self, before: &[u8; 32], seq: i64) -> [u8; 32] {
        match &self.format {
            Format::First => self.first(before, seq),
            Format::Second(known) => self.second(before, seq, known),
        }
    }

    /// BLAKE3 over: `clampbook entry 1`, the hash before (32 bytes), then each field as its length (8 bytes, little
    /// endian) and its bytes. Numbers are 8 bytes, little endian.
    fn first(&self, before: &[u8; 32], seq: i64) -> [u8; 32] {
        let mut hasher = blake3::Hasher::new();
        hasher.update(b"clampbook entry 1").update(before);
        let fields = [
            &seq.to_le_bytes()[..],
            self.stream.as_bytes(),
            &u64::from(self.number).to_le_bytes(),
            &self.said.0.to_le_bytes(),
            &self.written.0.to_le_bytes(),
            self.name.as_bytes(),
            self.device.as_bytes(),
            self.kind.as_bytes(),
            self.request.as_bytes(),
            self.fingerprint,
            self.body.as_bytes(),
        ];
        finish(hasher, &fields)
    }

    fn second(&self, before: &[u8; 32], seq: i64, known: &Known<'_>) -> [u8; 32] {
        linked(before, seq, self.number, self.written, &self.content(known))
    }

    /// BLAKE3 over: `clampbook content 2`, then as in format 1 the stream, whether there is a person id (1 byte), the id,
    /// the name, how the person is known, the device, when it was said, the request, version and hash of its fingerprint, and
    /// the fact.
    pub(crate) fn content(&self, known: &Known<'_>) -> [u8; 32] {
        let mut hasher = blake3::Hasher::new();
        hasher.update(b"clampbook content 2");
        let fields = [
            self.stream.as_bytes(),
            &[u8::from(known.person.is_some())],
            known.person.unwrap_or_default().as_bytes(),
            self.name.as_bytes(),
            known.how.as_bytes(),
            self.device.as_bytes(),
            &self.said.0.to_le_bytes(),
            self.request.as_bytes(),
            &u64::from(known.fingerprint).to_le_bytes(),
            self.fingerprint,
            self.kind.as_bytes(),
            self.body.as_bytes(),
        ];
        finish(hasher, &fields)
    }
}

/// BLAKE3 over: `clampbook entry 2`, the hash before (32 bytes), then as in format 1 the place in the file and in the stream,
/// when it was written, and the hash of what was said.
pub(crate) fn linked(
    before: &[u8; 32],
    seq: i64,
    number: u32,
    written: Moment,
    content: &[u8; 32],
) -> [u8; 32] {
    let mut hasher = blake3::Hasher::new();
    hasher.update(b"clampbook entry 2").update(before);
    let fields = [
        &seq.to_le_bytes()[..],
        &u64::from(number).to_le_bytes(),
        &written.0.to_le_bytes(),
        content,
    ];
    finish(hasher, &fields)
}

fn finish(mut hasher: blake3::Hasher, fields: &[&[u8]]) -> [u8; 32] {
    for field in fields {
        hasher
            .update(&(field.len() as u64).to_le_bytes())
            .update(field);
    }
    *hasher.finalize().as_bytes()
}

#[cfg(test)]
mod tests;
