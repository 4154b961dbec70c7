//! What people said about parts: wanted by hand, and arrived.

use crate::record::entry::Said;
use crate::record::fact::{PartArrived, PartWanted};
use crate::record::ids::EntryNumber;
use rpds::RedBlackTreeMapSync;

/// Parts wanted by hand and arrivals of a job; copies share what did not change.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Parts {
    wanted: RedBlackTreeMapSync<EntryNumber, Wanted>,
    arrived: RedBlackTreeMapSync<EntryNumber, Arrived>,
}

/// Something said in an entry that still stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing<F> {
    /// The entry's place; a correction keeps the place of what it replaces.
    pub entry: EntryNumber,
    /// Who and when; of the correction where there is one.
    pub said: Said,
    /// What was said.
    pub fact: F,
}

/// A part wanted by hand.
pub type Wanted = Standing<PartWanted>;
/// A part that arrived.
pub type Arrived = Standing<PartArrived>;

impl Parts {
    /// How many entries about parts stand.
    #[must_use]
    pub fn len(&self) -> usize {
        self.wanted.size() + self.arrived.size()
    }

    /// Whether nothing was said.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Parts wanted by hand, oldest first.
    pub fn wanted(&self) -> impl Iterator<Item = &Wanted> {
        self.wanted.values()
    }

    /// Arrivals, oldest first.
    pub fn arrived(&self) -> impl Iterator<Item = &Arrived> {
        self.arrived.values()
    }

    /// The part wanted by an entry.
    #[must_use]
    pub fn wanted_by(&self, entry: EntryNumber) -> Option<&Wanted> {
        self.wanted.get(&entry)
    }

    /// The arrival of an entry.
    #[must_use]
    pub fn arrived_by(&self, entry: EntryNumber) -> Option<&Arrived> {
        self.arrived.get(&entry)
    }

    pub(crate) fn want(&mut self, entry: EntryNumber, said: &Said, fact: &PartWanted) {
        self.wanted.insert_mut(entry, standing(entry, said, fact));
    }

    pub(crate) fn arrive(&mut self, entry: EntryNumber, said: &Said, fact: &PartArrived) {
        self.arrived.insert_mut(entry, standing(entry, said, fact));
    }

    /// Takes back what an entry said.
    pub(crate) fn forget(&mut self, entry: EntryNumber) {
        self.wanted.remove_mut(&entry);
        self.arrived.remove_mut(&entry);
    }
}

fn standing<F: Clone>(entry: EntryNumber, said: &Said, fact: &F) -> Standing<F> {
    Standing {
        entry,
        said: said.clone(),
        fact: fact.clone(),
    }
}
