//! What was found on parts other than fasteners, and the question each may open about the other side.

use crate::record::entry::Said;
use crate::record::fact::{CounterpartAnswered, PartFound, Shown};
use crate::record::ids::EntryNumber;
use rpds::RedBlackTreeMapSync;

/// The findings of a job; copies share what did not change.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Findings(RedBlackTreeMapSync<EntryNumber, Finding>);

/// A finding with the answer about the other side, if there is one.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The entry's place; a correction keeps the place of what it replaces.
    pub entry: EntryNumber,
    /// Who and when; of the correction where there is one.
    pub said: Said,
    /// What was found.
    pub found: PartFound,
    /// What was seen on the other side.
    pub answer: Option<Answer>,
}

/// What was seen on the other side.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The entry's place.
    pub entry: EntryNumber,
    /// Who and when.
    pub said: Said,
    /// What was said.
    pub answered: CounterpartAnswered,
}

impl Findings {
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.size()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// All that stand, oldest first.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.0.values()
    }

    /// The finding of an entry.
    #[must_use]
    pub fn get(&self, entry: EntryNumber) -> Option<&Finding> {
        self.0.get(&entry)
    }

    /// The finding that an entry answers.
    #[must_use]
    pub fn answered_by(&self, entry: EntryNumber) -> Option<&Finding> {
        self.iter()
            .find(|finding| finding.answer.as_ref().is_some_and(|a| a.entry == entry))
    }

    /// A finding, or what it should have said; an answer stays with it.
    pub(crate) fn find(&mut self, entry: EntryNumber, said: &Said, found: &PartFound) {
        let answer = self.get(entry).and_then(|finding| finding.answer.clone());
        let finding = Finding {
            entry,
            said: said.clone(),
            found: found.clone(),
            answer,
        };
        self.0.insert_mut(entry, finding);
    }

    pub(crate) fn answer(
        &mut self,
        entry: EntryNumber,
        said: &Said,
        answered: &CounterpartAnswered,
    ) {
        if let Some(finding) = self.0.get_mut(&answered.finding) {
            finding.answer = Some(Answer {
                entry,
                said: said.clone(),
                answered: answered.clone(),
            });
        }
    }

    /// Takes back a finding or an answer.
    pub(crate) fn forget(&mut self, entry: EntryNumber) {
        self.0.remove_mut(&entry);
        let answered = self.answered_by(entry).map(|finding| finding.entry);
        if let Some(finding) = answered.and_then(|entry| self.0.get_mut(&entry)) {
            finding.answer = None;
        }
    }
}

impl Finding {
    /// Part, fault and verdict in words: `spindle: wear, ruined`.
    #[must_use]
    pub fn spoken(&self) -> String {
        let found = &self.found;
        format!(
            "{}: {}, {}",
            found.part,
            found.kind.spoken(),
            found.severity.spoken()
        )
    }

    /// Whether something is said of the same part of the same assembly.
    #[must_use]
    pub fn is_about(&self, found: &PartFound) -> bool {
        self.found.assembly == found.assembly && self.is_called(&found.part)
    }

    pub(crate) fn is_called(&self, part: &str) -> bool {
        self.found.part.to_lowercase() == part.to_lowercase()
    }
}

impl Shown {
    /// As people read it.
    #[must_use]
    pub fn spoken(&self) -> String {
        match self {
            Self::Reading(reading) => format!("read {reading}"),
            Self::Photo(photo) => format!("photo {photo}"),
            Self::AddedPhoto(entry) => format!("photo of entry {entry}"),
            Self::NoSuchPart(who) => format!("no such part there, says {who}"),
        }
    }
}
