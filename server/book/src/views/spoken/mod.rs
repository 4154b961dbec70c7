//! What each fact says, in words for people: made here once, for screens, pages and paper.
//!
//! A text names its place first, then a colon, then what is said of it in the order of the bench; nothing that was said is
//! left out. Numbers that people gave stand as they gave them.

mod decision;
mod fastener;
pub(in crate::views) mod finding;
mod flag;
mod joint;
mod lubrication;
mod order;
mod person;
mod photo;
mod pieces;
mod refit;
mod removal;
mod specification;
mod tightening;
mod told;

pub(in crate::views) use fastener::named;
pub use flag::flag;

use crate::record::fact::{AssemblyAdded, Corrected, Fact, JobOpened, Marked};
use crate::record::findings::Finding;
use told::{Told, place};

/// What a fact says.
#[must_use]
pub fn fact(fact: &Fact) -> String {
    match fact {
        Fact::JobOpened(opened) => opened.text(),
        Fact::AssemblyAdded(added) => added.text(),
        Fact::JointAdded(added) => added.text(),
        Fact::Marked(marked) => marked.text(),
        Fact::Removed(removed) => removed.text(),
        Fact::Decided(decided) => decided.text(),
        Fact::Refitted(refitted) => refitted.text(),
        Fact::Tightened(tightened) => tightened.text(),
        Fact::NotRefitted(accounted) => accounted.text(),
        Fact::PartFound(found) => found.text(),
        Fact::CounterpartAnswered(answered) => answered.text(),
        Fact::PartWanted(wanted) => wanted.text(),
        Fact::PartArrived(arrived) => arrived.text(),
        Fact::PhotoAdded(added) => added.text(),
        Fact::Corrected(corrected) => corrected.text(),
        Fact::LubricationStated(stated) => stated.text(),
        Fact::LubricationWithdrawn(withdrawn) => withdrawn.text(),
        Fact::SpecificationStated(stated) => stated.text(),
        Fact::SpecificationWithdrawn(withdrawn) => withdrawn.text(),
        Fact::PersonStated(stated) => stated.text(),
        Fact::PersonWithdrawn(withdrawn) => withdrawn.text(),
    }
}

/// What a finding says, and what the other side shows.
#[must_use]
pub fn finding(finding: &Finding) -> String {
    let mut told = finding.found.text();
    if let Some(answer) = &finding.answer {
        told.push_str(&format!("; {}", finding::other_side(&answer.answered)));
    }
    told
}

/// What can be said in words for people.
pub trait Spoken {
    /// What it says.
    fn text(&self) -> String;
}

impl Spoken for JobOpened {
    fn text(&self) -> String {
        Told::of("Job opened")
            .say(&self.display_name)
            .say(&self.machine)
            .say(match self.torque_unit {
                Some(unit) => format!("torques in {}", unit.spoken()),
                None => "torques in the unit of each thread".into(),
            })
            .text()
    }
}

impl Spoken for AssemblyAdded {
    fn text(&self) -> String {
        let other = self.counterpart.as_ref().map(|other| other.as_str());
        Told::of(format!("Assembly {}", self.assembly))
            .say(&self.display_name)
            .named("other side", other.unwrap_or_default())
            .text()
    }
}

impl Spoken for Marked {
    fn text(&self) -> String {
        let head = match self.position {
            0 => self.joint.to_string(),
            position => place(&self.joint, position),
        };
        let marks: Vec<String> = self.marks.iter().map(|mark| mark.spoken()).collect();
        Told::of(head)
            .say(format!("marked {}", marks.join("; ")))
            .say(&self.note)
            .text()
    }
}

impl Spoken for Corrected {
    fn text(&self) -> String {
        match &self.with {
            Some(with) => format!(
                "CORRECTS entry {}, because {}; now {}",
                self.replaces,
                self.reason,
                fact(with)
            ),
            None => format!(
                "TAKES BACK entry {}, because {}",
                self.replaces, self.reason
            ),
        }
    }
}
