//! A photo: what it is of, and what fixes its content, which is kept beside the journal's entries.

use crate::record::ids::{AssemblyId, EntryNumber, JointId, PositionNumber};
use crate::record::words::MediaType;
use serde::{Deserialize, Serialize};
use std::fmt;

/// A photo was added.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PhotoAdded {
    /// What it is of.
    pub of: PhotoOf,
    /// Hash of its content.
    pub hash: ContentHash,
    /// Size of its content, in bytes.
    pub size_bytes: u64,
    /// Media type of its content.
    pub media_type: MediaType,
    /// What it shows, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub caption: String,
}

/// What a photo is of.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PhotoOf {
    /// The machine as a whole.
    Job,
    /// An assembly.
    Assembly(AssemblyId),
    /// A joint as a whole.
    Joint(JointId),
    /// A position of a joint.
    Position(JointId, PositionNumber),
    /// What a finding says.
    Finding(EntryNumber),
}

/// BLAKE3 over a content; stored and printed as 64 lower-case hexadecimal digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct ContentHash(pub [u8; 32]);

impl fmt::Display for ContentHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl From<ContentHash> for String {
    fn from(hash: ContentHash) -> Self {
        hash.to_string()
    }
}

impl TryFrom<String> for ContentHash {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        let digit = |byte: u8| {
            char::from(byte)
                .to_digit(16)
                .and_then(|d| u8::try_from(d).ok())
        };
        let mut hash = [0; 32];
        let (pairs, rest) = text.as_bytes().as_chunks::<2>();
        if pairs.len() != hash.len() || !rest.is_empty() {
            return Err("a hash has 64 digits");
        }
        for (byte, [high, low]) in hash.iter_mut().zip(pairs) {
            *byte = match (digit(*high), digit(*low)) {
                (Some(high), Some(low)) => high << 4 | low,
                _ => return Err("a hash has hexadecimal digits"),
            };
        }
        Ok(Self(hash))
    }
}

#[cfg(test)]
mod tests {
    use super::ContentHash;

    #[test]
    fn a_hash_is_read_as_it_is_written() {
        let hash = ContentHash(std::array::from_fn(|i| i as u8 * 8 + 7));
        let text = hash.to_string();
        assert!(text.starts_with("070f171f"), "{text}");
        assert_eq!(ContentHash::try_from(text.clone()), Ok(hash));
        for wrong in [&text[1..], &format!("{text}0"), "", &text.replace('7', "g")] {
            assert!(ContentHash::try_from(wrong.to_owned()).is_err(), "{wrong}");
        }
    }
}
