//! Contents that entries name by their hash.

use clampbook_book::fact::{ContentHash, Fact};
use std::fmt;
use std::sync::Arc;

/// A content with its hash.
#[derive(Clone)]
pub struct Blob {
    hash: ContentHash,
    bytes: Arc<[u8]>,
}

impl Blob {
    /// Takes a content and hashes it.
    #[must_use]
    pub fn new(bytes: Arc<[u8]>) -> Self {
        Self {
            hash: hash(&bytes),
            bytes,
        }
    }

    /// Its hash.
    #[must_use]
    pub const fn hash(&self) -> ContentHash {
        self.hash
    }

    /// The content.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }
}

impl fmt::Debug for Blob {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} bytes {}", self.bytes.len(), self.hash)
    }
}

/// The hash of a content.
pub(crate) fn hash(bytes: &[u8]) -> ContentHash {
    ContentHash(*blake3::hash(bytes).as_bytes())
}

/// Hash and size of a content that an entry names.
pub(crate) type Content = (ContentHash, u64);

/// The content that a fact names, if it names one.
pub(crate) const fn named(fact: &Fact) -> Option<Content> {
    match fact {
        Fact::PhotoAdded(added) => Some((added.hash, added.size_bytes)),
        _ => None,
    }
}
