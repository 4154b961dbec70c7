//! What waits for what: positions on hold, and positions, joints and assemblies whose parts are not there.

use super::{Line, list};
use crate::record::context::Context;
use crate::record::ids::{AssemblyId, EntryNumber, JointId, PositionNumber};
use crate::record::job::{Job, Joint};
use crate::record::words::{DecisionKind, HoldReason};

/// A place that waits.
#[derive(Clone, Debug, PartialEq)]
pub struct Wait {
    /// The assembly.
    pub assembly: AssemblyId,
    /// The joint; nothing for a whole assembly.
    pub joint: Option<JointId>,
    /// The position; 0 for a whole joint or assembly.
    pub position: PositionNumber,
    /// What it waits for, in words.
    pub hold_reason: String,
    /// Why, in words.
    pub why: String,
    /// The entry that says so.
    pub entry: EntryNumber,
    /// Whether it was put on hold; else a part is not there.
    pub on_hold: bool,
}

/// Everything of a job, or of one of its assemblies, that waits: what is on hold first.
#[must_use]
pub fn waits(job: &Job, assembly: Option<&AssemblyId>, context: &Context<'_>) -> Vec<Wait> {
    let joints = job.joints.iter();
    let mut all: Vec<Wait> = joints
        .filter(|joint| assembly.is_none_or(|wanted| *wanted == joint.fact.assembly))
        .flat_map(holds)
        .collect();
    all.extend(list(job, assembly, context).iter().flat_map(missing));
    all
}

fn holds(joint: &Joint) -> impl Iterator<Item = Wait> {
    joint.positions.iter().filter_map(|position| {
        let (record, decided) = position.decision()?;
        let hold_reason = decided.hold_reason.map_or("a decision", HoldReason::spoken);
        (decided.kind == DecisionKind::Hold).then(|| Wait {
            assembly: joint.fact.assembly.clone(),
            joint: Some(joint.fact.joint.clone()),
            position: position.number,
            hold_reason: hold_reason.to_owned(),
            why: decided.reason.clone(),
            entry: record.entry,
            on_hold: true,
        })
    })
}

fn missing(line: &Line) -> impl Iterator<Item = Wait> {
    let demands = line.demands.iter().filter(|demand| !demand.is_there);
    demands.map(|demand| Wait {
        assembly: line.assembly.clone(),
        joint: demand.joint.clone(),
        position: demand.position,
        hold_reason: format!("{} x {}", demand.quantity, line.what),
        why: demand.why.clone(),
        entry: demand.entry,
        on_hold: false,
    })
}
