//! Rules: what follows from the record as it stands. Flags are never stored.
//!
//! Each rule is one file with its thresholds; [`ALL`] is the table that people read.

mod adds_up;
mod again;
mod built;
mod damage;
pub(crate) mod finish;
pub mod fits;
mod fitted;
mod force;
mod fuse;
mod grade;
mod heat;
mod hold;
mod left_out;
mod length;
mod loose;
mod other_side;
mod over_torqued;
mod partner;
mod parts;
pub(crate) mod plated;
mod proposal;
mod reach;
mod replacement;
mod ruined;
mod scene;
mod small;
mod specified;
mod stack;
mod threads;
mod torque;

#[cfg(test)]
mod sayable;

use crate::reason::effective::EffectiveJoint;
use crate::record::context::Context;
use crate::record::ids::{AssemblyId, EntryNumber, JointId, PositionNumber};
use crate::record::job::{Job, Joint};
use crate::record::words::{Compared, Severity, TorqueUnit};
pub use proposal::proposal;
use scene::Scene;

/// Edition of the rules; a record that quotes a flag quotes this with it.
pub const EDITION: &str = "2026.12";

/// What a rule concludes.
#[derive(Clone, Debug, PartialEq)]
pub struct Flag {
    /// The rule's id.
    pub rule: &'static str,
    /// How serious it is here.
    pub severity: Severity,
    /// What it is raised on.
    pub on: On,
    /// The position of the joint; 0 for the whole joint or assembly.
    pub position: PositionNumber,
    /// What was found, with its numbers.
    pub cause: String,
    /// What would clear it.
    pub clears: &'static str,
    /// Entries it rests on.
    pub entries: Vec<EntryNumber>,
}

/// What a flag is raised on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum On {
    /// A joint or one of its positions.
    Joint(JointId),
    /// A whole assembly.
    Assembly(AssemblyId),
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
    looks: Looks,
}

/// How a rule looks at the record.
#[derive(Clone, Copy, Debug)]
enum Looks {
    /// At one joint, without regard to others.
    Joint(fn(&Scene<'_>, &Rule, &mut Vec<Flag>)),
    /// At the whole job.
    Job(fn(&Job, &Context<'_>, &Rule, &mut Vec<Flag>)),
}

/// All rules, those that stop work first.
pub const ALL: &[&Rule] = &[
    &grade::WEAKER,
    &grade::UNKNOWN,
    &fuse::OTHER_FUSE,
    &replacement::OTHER_PURPOSE,
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
    &replacement::MIXED_GRADES,
    &finish::FINISH_PAIR,
    &length::ODD,
    &force::FORCED_OUT,
    &damage::BROKEN_OR_MISSING,
    &damage::THREAD_DAMAGED,
    &damage::UNFIT,
    &heat::HEATED,
    &loose::LOOSE_ON_ARRIVAL,
    &again::YIELD_BOLT,
    &again::LOCK_NUT,
    &small::MISSING_OR_UNFIT,
    &small::USED_ONCE,
    &hold::ON_HOLD,
    &ruined::PART_RUINED,
    &other_side::OTHER_SIDE,
    &parts::NOT_ARRIVED,
    &threads::OTHER_THREAD,
    &torque::NOT_APPROVED,
    &specified::NOT_IN_FORCE,
    &specified::REVISED,
    &specified::OTHER_LUBRICATION,
    &specified::OVERLOADS,
    &fitted::NOT_AS_DECIDED,
    &fitted::NOT_TIGHT,
    &fitted::NOT_READ,
    &fitted::READING_OFF,
    &fitted::NOT_REFITTED,
    &over_torqued::OVER_TORQUED,
    &left_out::LEFT_OUT,
    &adds_up::DOES_NOT_ADD_UP,
];

/// The rule with this id.
#[must_use]
pub fn rule(id: &str) -> Option<&'static Rule> {
    ALL.iter().copied().find(|rule| rule.id == id)
}

/// Open flags of a joint: stops first, then by position.
#[must_use]
pub fn joint_flags(joint: &Joint, context: &Context<'_>, unit: Option<TorqueUnit>) -> Vec<Flag> {
    let joint = EffectiveJoint::new(joint, context.shop);
    check(ALL, &Scene::new(&joint, context, unit, None))
}

/// Open flags of one position, with those of its whole joint.
#[must_use]
pub fn position_flags(
    joint: &Joint,
    position: PositionNumber,
    context: &Context<'_>,
    unit: Option<TorqueUnit>,
) -> Vec<Flag> {
    let joint = EffectiveJoint::new(joint, context.shop);
    check(ALL, &Scene::new(&joint, context, unit, Some(position)))
}

fn check(rules: &[&Rule], scene: &Scene<'_>) -> Vec<Flag> {
    let mut flags = Vec::new();
    for rule in rules {
        if let Looks::Joint(check) = rule.looks {
            check(scene, rule, &mut flags);
        }
    }
    flags.sort_by_key(|flag| (std::cmp::Reverse(flag.severity), flag.position));
    flags
}

/// Open flags that follow from the whole job: on whole assemblies, and on joints that wait for parts.
#[must_use]
pub fn job_flags(job: &Job, context: &Context<'_>) -> Vec<Flag> {
    check_job(ALL, job, context)
}

fn check_job(rules: &[&Rule], job: &Job, context: &Context<'_>) -> Vec<Flag> {
    let mut flags = Vec::new();
    for rule in rules {
        if let Looks::Job(check) = rule.looks {
            check(job, context, rule, &mut flags);
        }
    }
    flags.sort_by_key(|flag| std::cmp::Reverse(flag.severity));
    flags
}

/// Open flags of positions of a joint with those of the joint and of its assembly, those that follow from the whole job too.
#[must_use]
pub fn flags_at(
    job: &Job,
    joint: &Joint,
    positions: &[PositionNumber],
    context: &Context<'_>,
) -> Vec<Flag> {
    let mut flags = match positions {
        [one] => position_flags(joint, *one, context, job.torque_unit()),
        _ => joint_flags(joint, context, job.torque_unit()),
    };
    let here = [
        On::Joint(joint.fact.joint.clone()),
        On::Assembly(joint.fact.assembly.clone()),
    ];
    let mut of_job = job_flags(job, context);
    of_job.retain(|flag| here.contains(&flag.on));
    flags.extend(of_job);
    flags.retain(|flag| flag.position == 0 || positions.contains(&flag.position));
    flags.sort_by_key(|flag| (std::cmp::Reverse(flag.severity), flag.position));
    flags
}

/// Open flags on an assembly as a whole and on its other side, and on joints of both that wait for parts as a whole.
#[must_use]
pub fn flags_around(job: &Job, assembly: &AssemblyId, context: &Context<'_>) -> Vec<Flag> {
    let mut flags = job_flags(job, context);
    flags.retain(|flag| is_around(job, assembly, flag));
    flags
}

/// Whether a flag is one of those of [`flags_around`].
pub(crate) fn is_around(job: &Job, assembly: &AssemblyId, flag: &Flag) -> bool {
    let other = job.assembly(assembly).and_then(|a| a.counterpart.as_ref());
    let is_here = |on: &AssemblyId| on == assembly || Some(on) == other;
    match &flag.on {
        On::Assembly(on) => is_here(on),
        On::Joint(on) => {
            flag.position == 0 && job.joint(on).is_some_and(|j| is_here(&j.fact.assembly))
        }
    }
}

/// Open flags about parts that have not arrived, on an assembly and on joints of it.
#[must_use]
pub fn flags_about_parts(job: &Job, assembly: &AssemblyId, context: &Context<'_>) -> Vec<Flag> {
    let is_here = |flag: &Flag| match &flag.on {
        On::Assembly(on) => on == assembly,
        On::Joint(on) => job.joint(on).is_some_and(|j| j.fact.assembly == *assembly),
    };
    let mut flags = job_flags(job, context);
    flags.retain(|flag| flag.rule == parts::NOT_ARRIVED.id && is_here(flag));
    flags
}

/// Positions whose fastener is longer or shorter than its neighbours', whether that is explained or not.
#[must_use]
pub fn odd_lengths(joint: &Joint, context: &Context<'_>) -> Vec<(PositionNumber, Compared)> {
    let joint = EffectiveJoint::new(joint, context.shop);
    let scene = Scene::new(&joint, context, None, None);
    let (odd, _) = length::odd_ones(&scene);
    odd.into_iter()
        .map(|one| (one.case.position.number, one.word))
        .collect()
}

/// Open flags of a job: stops first, then those on assemblies, then in the order of its joints and positions.
#[must_use]
pub fn flags(job: &Job, context: &Context<'_>) -> Vec<Flag> {
    let mut flags = job_flags(job, context);
    let unit = job.torque_unit();
    flags.extend((job.joints.iter()).flat_map(|joint| joint_flags(joint, context, unit)));
    flags.sort_by_key(|flag| std::cmp::Reverse(flag.severity));
    flags
}
