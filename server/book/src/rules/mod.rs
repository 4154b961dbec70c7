//! Rules: what follows from the record as it stands. Flags are never stored.
//!
//! Each rule is one file with its thresholds; [`ALL`] is the table that people read.

mod built;
mod damage;
mod fitted;
mod force;
mod fuse;
mod grade;
mod heat;
mod length;
mod loose;
mod partner;
mod plated;
mod reach;
mod scene;
mod threads;
mod torque;

use crate::ids::{EntryNumber, JointId, PositionNumber};
use crate::job::{Job, Joint};
use crate::words::{Compared, Severity};
use clampbook_engine::Catalogue;
use scene::Scene;

/// Edition of the rules; a record that quotes a flag quotes this with it.
pub const EDITION: &str = "2026.11";

/// What a rule concludes.
#[derive(Clone, Debug, PartialEq)]
pub struct Flag {
    /// The rule's id.
    pub rule: &'static str,
    /// How serious it is here.
    pub severity: Severity,
    /// The joint.
    pub joint: JointId,
    /// The position; 0 for the whole joint.
    pub position: PositionNumber,
    /// What was found, with its numbers.
    pub cause: String,
    /// What would clear it.
    pub clears: &'static str,
    /// Entries it rests on.
    pub entries: Vec<EntryNumber>,
}

/// A rule as people read it.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    /// Its id, in our words.
    pub id: &'static str,
    /// What it looks for.
    pub title: &'static str,
    /// When it is raised and how serious it then is.
    pub raised_when: &'static str,
    /// What clears it.
    pub cleared_by: &'static str,
    /// Publication behind it, or common practice.
    pub source: &'static str,
    check: fn(&Scene<'_>, &Rule, &mut Vec<Flag>),
}

/// All rules, those that stop work first.
pub const ALL: [&Rule; 26] = [
    &grade::WEAKER,
    &grade::UNKNOWN,
    &fuse::OTHER_FUSE,
    &plated::NOT_BAKED,
    &partner::NUT,
    &partner::THREADS,
    &partner::BEARING,
    &reach::BOTTOMS,
    &reach::TOO_SHORT,
    &reach::RUNS_OUT,
    &reach::ENGAGEMENT,
    &reach::SHEAR_PLANE,
    &reach::NO_ROOM,
    &length::ODD,
    &force::FORCED_OUT,
    &damage::BROKEN_OR_MISSING,
    &damage::THREAD_DAMAGED,
    &damage::UNFIT,
    &heat::HEATED,
    &loose::LOOSE_ON_ARRIVAL,
    &threads::OTHER_THREAD,
    &torque::NOT_APPROVED,
    &fitted::NOT_AS_DECIDED,
    &fitted::NOT_TIGHT,
    &fitted::READING_OFF,
    &fitted::NOT_REFITTED,
];

/// The rule with this id.
#[must_use]
pub fn rule(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}

/// Open flags of a joint: stops first, then by position.
#[must_use]
pub fn joint_flags(joint: &Joint, catalogue: &Catalogue) -> Vec<Flag> {
    check(&Scene::new(joint, catalogue, None))
}

/// Open flags of one position, with those of its whole joint.
#[must_use]
pub fn position_flags(joint: &Joint, position: PositionNumber, catalogue: &Catalogue) -> Vec<Flag> {
    check(&Scene::new(joint, catalogue, Some(position)))
}

fn check(scene: &Scene<'_>) -> Vec<Flag> {
    let mut flags = Vec::new();
    for rule in ALL {
        (rule.check)(scene, rule, &mut flags);
    }
    flags.sort_by_key(|flag| (std::cmp::Reverse(flag.severity), flag.position));
    flags
}

/// Positions whose fastener is longer or shorter than its neighbours', whether that is explained or not.
#[must_use]
pub fn odd_lengths(joint: &Joint, catalogue: &Catalogue) -> Vec<(PositionNumber, Compared)> {
    let (odd, _) = length::odd_ones(&Scene::new(joint, catalogue, None));
    odd.into_iter()
        .map(|one| (one.case.position.number, one.word))
        .collect()
}

/// Open flags of a job: stops first, then in the order of its joints and positions.
#[must_use]
pub fn flags(job: &Job, catalogue: &Catalogue) -> Vec<Flag> {
    let mut flags: Vec<Flag> = job
        .joints
        .iter()
        .flat_map(|joint| joint_flags(joint, catalogue))
        .collect();
    flags.sort_by_key(|flag| std::cmp::Reverse(flag.severity));
    flags
}
