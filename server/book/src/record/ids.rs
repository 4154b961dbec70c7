//! Identifiers of jobs, of what is inside them and of what the shop keeps: short slugs that are safe in names, files and speech, and position numbers.

use serde::{Deserialize, Serialize};
use std::fmt;
use std::sync::Arc;

/// Longest slug, in characters.
pub const SLUG_LENGTH: usize = 63;

/// What a slug may look like, for error texts.
pub const SLUG_RULE: &str =
    "a lower-case letter, then up to 62 lower-case letters, digits or hyphens";

/// Whether `text` is a slug: `[a-z][a-z0-9-]{0,62}`.
///
/// ```
/// assert!(clampbook_book::ids::is_slug("left-front-hub"));
/// assert!(!clampbook_book::ids::is_slug("Left hub"));
/// ```
#[must_use]
pub fn is_slug(text: &str) -> bool {
    let mut bytes = text.bytes();
    text.len() <= SLUG_LENGTH
        && bytes.next().is_some_and(|b| b.is_ascii_lowercase())
        && bytes.all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
}

macro_rules! slug {
    ($(#[doc = $doc:literal])+ $name:ident) => {
        $(#[doc = $doc])+
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(Arc<str>);

        impl $name {
            /// Takes `text` if it is a slug.
            #[must_use]
            pub fn new(text: &str) -> Option<Self> {
                is_slug(text).then(|| Self(text.into()))
            }

            /// The slug as text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

slug! {
    /// Identifies a job in the journal.
    JobId
}
slug! {
    /// Identifies an assembly inside its job.
    AssemblyId
}
slug! {
    /// Identifies a joint inside its job.
    JointId
}
slug! {
    /// Identifies a lubrication of the shop's own.
    LubricationId
}
slug! {
    /// Identifies a person of the shop.
    PersonId
}
slug! {
    /// Identifies a published specification.
    SpecificationId
}

/// Number of a position in its joint, counted from 1.
pub type PositionNumber = u16;

/// Number of an entry in its job, counted from 1 without gaps.
pub type EntryNumber = u32;
