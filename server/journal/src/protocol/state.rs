//! States: what the entries of a stream add up to.

use clampbook_book::entry::Entry;
use clampbook_book::ids::EntryNumber;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;

/// What the entries of one stream add up to.
pub(crate) trait State: Clone {
    /// Number of the last entry.
    fn last(&self) -> EntryNumber;

    /// Takes the next entry.
    fn apply(&mut self, entry: &Entry);
}

impl State for Job {
    fn last(&self) -> EntryNumber {
        self.last
    }

    fn apply(&mut self, entry: &Entry) {
        self.apply(entry);
    }
}

impl State for Shop {
    fn last(&self) -> EntryNumber {
        self.last
    }

    fn apply(&mut self, entry: &Entry) {
        self.apply(entry);
    }
}
