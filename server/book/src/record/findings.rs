//! What was found on parts other than fasteners, and the question each may open about the other side.

use crate::record::entry::Said;
use crate::record::fact::{AssemblyAdded, CounterpartAnswered, PartFound, Shown};
use crate::record::ids::EntryNumber;
use crate::record::job::Job;
use crate::record::words::{Criticality, FindingKind, FindingSeverity};
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

    fn is_called(&self, part: &str) -> bool {
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

impl Job {
    /// What happens if the part of a finding fails; nothing when neither it nor its joint says so.
    #[must_use]
    pub fn criticality_of(&self, found: &PartFound) -> Option<Criticality> {
        let of_joint = || Some(self.joint(found.joint.as_ref()?)?.fact.criticality);
        found.criticality.or_else(of_joint)
    }

    /// Whether a later finding says that the part was repaired or replaced.
    #[must_use]
    pub fn is_put_right(&self, finding: &Finding) -> bool {
        self.findings.iter().any(|later| {
            later.entry > finding.entry
                && later.is_about(&finding.found)
                && matches!(
                    later.found.severity,
                    FindingSeverity::Repaired | FindingSeverity::Replaced
                )
        })
    }

    /// The assembly whose same part must be looked at because of a finding, answered or not.
    ///
    /// Nothing when the part is of class C, is not ruined by something that works on both sides, has no other side, or is
    /// known to be ruined there too.
    #[must_use]
    pub fn other_side_of(&self, finding: &Finding) -> Option<&AssemblyAdded> {
        let found = &finding.found;
        let works_on_both = matches!(
            found.kind,
            FindingKind::Wear | FindingKind::Heat | FindingKind::Crack
        );
        let vital = matches!(
            self.criticality_of(found),
            Some(Criticality::A | Criticality::B)
        );
        if !works_on_both || !vital || found.severity != FindingSeverity::Ruined {
            return None;
        }
        let other = self.assembly(self.assembly(&found.assembly)?.counterpart.as_ref()?)?;
        let ruined_there_too = self.findings.iter().any(|there| {
            there.found.assembly == other.assembly
                && there.found.severity == FindingSeverity::Ruined
                && there.is_called(&found.part)
        });
        (!ruined_there_too).then_some(other)
    }
}
