//! Something the shop keeps: all its revisions, and whether it is still in use.

use crate::record::date::Date;
use crate::record::entry::Said;
use crate::record::ids::EntryNumber;
use crate::record::job::etag;
use std::fmt;
use std::sync::Arc;

/// Something the shop keeps, with all its revisions.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept<F> {
    /// The revision in force.
    pub newest: Stated<F>,
    /// Superseded ones, oldest first.
    pub older: Vec<Stated<F>>,
    /// That it is not used any more, if somebody said so.
    pub withdrawn: Option<Withdrawn>,
}

/// One revision.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated<F> {
    /// The entry that stated it.
    pub entry: EntryNumber,
    /// Who and when.
    pub said: Said,
    /// What was said.
    pub fact: Arc<F>,
}

/// The end of something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Withdrawn {
    /// The entry that said so.
    pub entry: EntryNumber,
    /// Who and when.
    pub said: Said,
    /// Why.
    pub reason: String,
}

/// By whom, when and why: `by ada on 2026-03-02: the tin is empty`.
impl fmt::Display for Withdrawn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (person, day) = (&self.said.by.name, Date::of(self.said.said));
        write!(f, "by {person} on {day}: {}", self.reason)
    }
}

impl<F> Kept<F> {
    /// Its etag.
    #[must_use]
    pub fn etag(&self) -> String {
        let touched = self
            .withdrawn
            .as_ref()
            .map_or(self.newest.entry, |w| w.entry);
        etag(touched)
    }

    /// Whether it is in use.
    #[must_use]
    pub const fn is_in_use(&self) -> bool {
        self.withdrawn.is_none()
    }

    /// All revisions, newest first.
    pub fn revisions(&self) -> impl Iterator<Item = &Stated<F>> {
        std::iter::once(&self.newest).chain(self.older.iter().rev())
    }
}
