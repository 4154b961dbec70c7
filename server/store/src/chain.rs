//! The hash chain: each entry's hash covers the hash before it and everything the entry says, so that no entry can be
//! changed, moved, left out or slipped in without the hashes after it no longer following.

use clampbook_book::entry::Moment;
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
    pub(crate) person: &'a str,
    pub(crate) device: &'a str,
    pub(crate) kind: &'a str,
    pub(crate) request: &'a Uuid,
    pub(crate) fingerprint: &'a [u8; 32],
    pub(crate) body: &'a str,
}

impl Link<'_> {
    /// BLAKE3 over: `clampbook entry 1`, the hash before (32 bytes), then each field as its length (8 bytes, little
    /// endian) and its bytes. Numbers are 8 bytes, little endian.
    fn hash(&self, before: &[u8; 32], seq: i64) -> [u8; 32] {
        let mut hasher = blake3::Hasher::new();
        hasher.update(b"clampbook entry 1").update(before);
        for field in [
            &seq.to_le_bytes()[..],
            self.stream.as_bytes(),
            &u64::from(self.number).to_le_bytes(),
            &self.said.0.to_le_bytes(),
            &self.written.0.to_le_bytes(),
            self.person.as_bytes(),
            self.device.as_bytes(),
            self.kind.as_bytes(),
            self.request.as_bytes(),
            self.fingerprint,
            self.body.as_bytes(),
        ] {
            hasher
                .update(&(field.len() as u64).to_le_bytes())
                .update(field);
        }
        *hasher.finalize().as_bytes()
    }
}

#[cfg(test)]
mod tests {
    use super::{Head, Link};
    use clampbook_book::entry::Moment;
    use std::collections::HashSet;
    use uuid::Uuid;

    #[test]
    fn every_part_of_an_entry_is_in_its_hash() {
        let (request, other) = (Uuid::from_u128(1), Uuid::from_u128(2));
        let link = Link {
            stream: "jobs/hub",
            number: 1,
            said: Moment(1),
            written: Moment(2),
            person: "Ada",
            device: "bench",
            kind: "removed",
            request: &request,
            fingerprint: &[0; 32],
            body: "{}",
        };
        let variants = [
            link,
            Link {
                stream: "jobs/hua",
                ..link
            },
            Link { number: 2, ..link },
            Link {
                said: Moment(2),
                ..link
            },
            Link {
                written: Moment(1),
                ..link
            },
            Link {
                person: "Adab",
                device: "ench",
                ..link
            },
            Link { device: "", ..link },
            Link {
                kind: "decided",
                ..link
            },
            Link {
                request: &other,
                ..link
            },
            Link {
                fingerprint: &[1; 32],
                ..link
            },
            Link {
                body: "{ }",
                ..link
            },
        ];
        let first = Head::NONE.then(&link);
        let mut hashes: HashSet<_> = variants.iter().map(|l| Head::NONE.then(l).hash).collect();
        hashes.insert(first.then(&link).hash);
        hashes.insert(
            Head {
                seq: 1,
                ..Head::NONE
            }
            .then(&link)
            .hash,
        );
        assert_eq!(hashes.len(), variants.len() + 2);
        assert_eq!(first.seq, 1);
        assert_eq!(first.hex().len(), 64);
    }
}
