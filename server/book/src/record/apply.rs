//! The fold: how an entry changes the state of its job.
//!
//! Total: an entry that does not fit the state (which `decide` would have refused) changes nothing but the counters, so
//! that every file that was ever written can be read.

use crate::record::entry::{Entry, Said};
use crate::record::fact::{Corrected, Fact, JointAdded};
use crate::record::ids::{EntryNumber, JointId, PositionNumber};
use crate::record::job::{Job, Joint, Opened, Position, Record, Saying};
use std::sync::Arc;

impl Job {
    /// Applies the next entry of this job.
    pub fn apply(&mut self, entry: &Entry) {
        self.last = entry.number;
        self.updated = entry.said.written;
        match &entry.fact {
            Fact::JobOpened(opened) => {
                self.opened = Some(Arc::new(Opened {
                    fact: opened.clone(),
                    said: entry.said.clone(),
                }));
            }
            Fact::AssemblyAdded(added) => {
                if let Some(other) = &added.counterpart
                    && let Some(there) = self.assemblies.iter_mut().find(|a| a.assembly == *other)
                {
                    Arc::make_mut(there).counterpart = Some(added.assembly.clone());
                }
                self.assemblies.push(Arc::new(added.clone()));
            }
            Fact::JointAdded(added) => {
                let joint = new_joint(entry.number, added);
                self.standings.add(&joint);
                self.joints.push(joint);
            }
            Fact::PartFound(found) => self.findings.find(entry.number, &entry.said, found),
            Fact::CounterpartAnswered(answered) => {
                self.findings.answer(entry.number, &entry.said, answered);
            }
            Fact::PartWanted(wanted) => self.parts.want(entry.number, &entry.said, wanted),
            Fact::PartArrived(arrived) => self.parts.arrive(entry.number, &entry.said, arrived),
            Fact::PhotoAdded(added) => self.photos.add(entry.number, &entry.said, added),
            Fact::Corrected(corrected) => self.correct(entry, corrected),
            Fact::Marked(_)
            | Fact::Removed(_)
            | Fact::Decided(_)
            | Fact::Refitted(_)
            | Fact::Tightened(_)
            | Fact::NotRefitted(_) => {
                if let Some(saying) = saying(&entry.fact) {
                    self.say(entry.number, entry.number, &entry.said, saying);
                }
            }
            Fact::LubricationStated(_)
            | Fact::LubricationWithdrawn(_)
            | Fact::SpecificationStated(_)
            | Fact::SpecificationWithdrawn(_)
            | Fact::PersonStated(_)
            | Fact::PersonWithdrawn(_) => {}
        }
    }

    fn say(&mut self, place: EntryNumber, touched: EntryNumber, said: &Said, saying: Saying) {
        let (joint, number) = saying.whereabouts();
        let joint = joint.clone();
        let record = Record {
            entry: place,
            said: said.clone(),
            saying,
        };
        self.touch(&joint, number, touched, |records| {
            let at = records.partition_point(|r| r.entry < place);
            // Most positions are spoken of once or twice: no room is kept for more.
            records.reserve_exact(1);
            records.insert(at, record);
        });
    }

    fn correct(&mut self, entry: &Entry, corrected: &Corrected) {
        let place = corrected.replaces;
        match corrected.with.as_deref() {
            Some(Fact::JointAdded(added)) => {
                if let Some(joint) = self.joints.added_by_mut(place) {
                    joint.touched = entry.number;
                    joint.fact = Arc::new(added.clone());
                }
            }
            Some(Fact::PartFound(found)) => self.findings.find(place, &entry.said, found),
            Some(Fact::CounterpartAnswered(answered)) => {
                self.findings.forget(place);
                self.findings.answer(place, &entry.said, answered);
            }
            Some(Fact::PartWanted(wanted)) => self.parts.want(place, &entry.said, wanted),
            Some(Fact::PartArrived(arrived)) => self.parts.arrive(place, &entry.said, arrived),
            Some(Fact::PhotoAdded(added)) => self.photos.add(place, &entry.said, added),
            with => {
                self.findings.forget(place);
                self.parts.forget(place);
                self.photos.forget(place);
                self.forget(place, entry.number);
                if let Some(saying) = with.and_then(saying) {
                    self.say(place, entry.number, &entry.said, saying);
                }
            }
        }
    }

    fn forget(&mut self, place: EntryNumber, touched: EntryNumber) {
        let Some((joint, number)) = self.place_of(place) else {
            return;
        };
        self.touch(&joint, number, touched, |records| {
            records.retain(|r| r.entry != place);
        });
    }

    /// Joint and position that the record of an entry stands at; position 0 for the joint as a whole.
    #[must_use]
    pub fn place_of(&self, entry: EntryNumber) -> Option<(JointId, PositionNumber)> {
        let among = |records: &[Record]| records.iter().any(|r| r.entry == entry);
        self.joints.iter().find_map(|joint| {
            let number = match among(&joint.records) {
                true => 0,
                false => joint.positions.iter().find(|p| among(&p.records))?.number,
            };
            Some((joint.fact.joint.clone(), number))
        })
    }

    fn touch(
        &mut self,
        joint: &JointId,
        number: PositionNumber,
        touched: EntryNumber,
        change: impl FnOnce(&mut Vec<Record>),
    ) {
        let Some(joint) = self.joints.get_mut(joint) else {
            return;
        };
        let Some(at) = usize::from(number).checked_sub(1) else {
            change(&mut joint.records);
            joint.touched = touched;
            return;
        };
        if let Some(position) = joint.positions.get_mut(at) {
            let position = Arc::make_mut(position);
            let before = position.standing();
            change(&mut position.records);
            self.standings.moved(before, position.standing());
            position.touched = touched;
            joint.touched = touched;
        }
    }
}

impl Saying {
    /// Stable name of the kind, as the fact's.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Marked(_) => "marked",
            Self::Removed(_) => "removed",
            Self::Decided(_) => "decided",
            Self::Refitted(_) => "refitted",
            Self::Tightened(_) => "tightened",
            Self::Accounted(_) => "piece-accounted",
        }
    }

    /// The joint and position it is about; position 0 for the joint as a whole.
    #[must_use]
    pub fn whereabouts(&self) -> (&JointId, PositionNumber) {
        match self {
            Self::Marked(marked) => (&marked.joint, marked.position),
            Self::Removed(removed) => (&removed.joint, removed.position),
            Self::Decided(decided) => (&decided.joint, decided.position),
            Self::Refitted(refitted) => (&refitted.joint, refitted.position),
            Self::Tightened(tightened) => (&tightened.joint, tightened.position),
            Self::Accounted(accounted) => (&accounted.joint, accounted.position),
        }
    }
}

fn saying(fact: &Fact) -> Option<Saying> {
    match fact {
        Fact::Marked(marked) => Some(Saying::Marked(marked.clone())),
        Fact::Removed(removed) => Some(Saying::Removed(removed.clone())),
        Fact::Decided(decided) => Some(Saying::Decided(decided.clone())),
        Fact::Refitted(refitted) => Some(Saying::Refitted(refitted.clone())),
        Fact::Tightened(tightened) => Some(Saying::Tightened(tightened.clone())),
        Fact::NotRefitted(accounted) => Some(Saying::Accounted(accounted.clone())),
        Fact::JobOpened(_)
        | Fact::AssemblyAdded(_)
        | Fact::JointAdded(_)
        | Fact::PartFound(_)
        | Fact::CounterpartAnswered(_)
        | Fact::PartWanted(_)
        | Fact::PartArrived(_)
        | Fact::PhotoAdded(_)
        | Fact::Corrected(_)
        | Fact::LubricationStated(_)
        | Fact::LubricationWithdrawn(_)
        | Fact::SpecificationStated(_)
        | Fact::SpecificationWithdrawn(_)
        | Fact::PersonStated(_)
        | Fact::PersonWithdrawn(_) => None,
    }
}

fn new_joint(entry: EntryNumber, added: &JointAdded) -> Joint {
    let count = PositionNumber::try_from(added.labels.len()).unwrap_or(PositionNumber::MAX);
    Joint {
        entry,
        touched: entry,
        fact: Arc::new(added.clone()),
        records: Vec::new(),
        positions: (1..=count)
            .map(|number| {
                Arc::new(Position {
                    number,
                    touched: entry,
                    records: Vec::new(),
                })
            })
            .collect(),
    }
}
