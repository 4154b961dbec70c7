//! The history of a position: every entry that says something about it, corrections of those included.

use crate::record::entry::Entry;
use crate::record::fact::{Fact, PhotoOf};
use crate::record::ids::{EntryNumber, JointId, PositionNumber};
use std::collections::BTreeSet;

/// Follows one position through the entries of its job, which must be shown to it from the first on.
#[derive(Clone, Debug)]
pub struct History {
    joint: JointId,
    position: PositionNumber,
    about_it: BTreeSet<EntryNumber>,
}

/// How an entry is about a position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// It says something of it.
    Said,
    /// It replaces what an earlier entry said.
    Replaces(EntryNumber),
    /// It takes back what an earlier entry said.
    Withdraws(EntryNumber),
}

impl History {
    /// Follows a position.
    #[must_use]
    pub const fn of(joint: JointId, position: PositionNumber) -> Self {
        Self {
            joint,
            position,
            about_it: BTreeSet::new(),
        }
    }

    /// How the next entry is about the position; nothing when it is not.
    pub fn follow(&mut self, entry: &Entry) -> Option<About> {
        let Fact::Corrected(corrected) = &entry.fact else {
            return self.is_about(&entry.fact).then(|| {
                self.about_it.insert(entry.number);
                About::Said
            });
        };
        let replaces = corrected.replaces;
        let with = corrected.with.as_deref();
        // What is said of another place by mistake and put right becomes part of this one's history.
        if with.is_some_and(|fact| self.is_about(fact)) {
            self.about_it.insert(replaces);
        } else if !self.about_it.contains(&replaces) {
            return None;
        }
        Some(match with {
            Some(_) => About::Replaces(replaces),
            None => About::Withdraws(replaces),
        })
    }

    fn is_about(&self, fact: &Fact) -> bool {
        let (joint, position) = match fact {
            Fact::Marked(marked) => (&marked.joint, marked.position),
            Fact::Removed(removed) => (&removed.joint, removed.position),
            Fact::Decided(decided) => (&decided.joint, decided.position),
            Fact::Refitted(refitted) => (&refitted.joint, refitted.position),
            Fact::Tightened(tightened) => (&tightened.joint, tightened.position),
            Fact::NotRefitted(accounted) => (&accounted.joint, accounted.position),
            Fact::PhotoAdded(added) => match &added.of {
                PhotoOf::Position(joint, position) => (joint, *position),
                _ => return false,
            },
            _ => return false,
        };
        *joint == self.joint && position == self.position
    }
}
