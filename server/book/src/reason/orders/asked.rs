//! What asks for parts: decisions, what came out unfit or is used once, ruined parts, and people.

use super::Demand;
use super::designation::{designation, grade_name, thread_name};
use crate::reason::effective::EffectiveJoint;
use crate::record::context::Context;
use crate::record::fact::{
    Decided, FastenerSpec, LengthSeen, PartSeen, Refitted, Removed, SaidLength,
};
use crate::record::findings::Finding;
use crate::record::ids::{AssemblyId, EntryNumber};
use crate::record::job::{Job, Position};
use crate::record::words::{DecisionKind, FindingSeverity, Outcome, SmallPart, SmallPartCondition};
use clampbook_engine::Purpose;

/// What asks for a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// A replacement that was decided on.
    Decision,
    /// A fastener that broke or is not there, and nothing was decided yet but to wait.
    Removal,
    /// A nut or washer that came out unfit or was not there.
    SmallPart,
    /// Something that is used once.
    UsedOnce,
    /// A part that was found ruined.
    Finding,
    /// Somebody.
    Hand,
    /// A fastener that is to be made.
    Making,
    /// A fastener that is away to be plated and baked.
    Plating,
}

/// Everything that asks for parts of an assembly, oldest entry first.
pub(super) fn demands(job: &Job, assembly: &AssemblyId, context: &Context<'_>) -> Vec<Demand> {
    let mut all = Vec::new();
    for joint in job.joints.iter().filter(|j| j.fact.assembly == *assembly) {
        let joint = EffectiveJoint::new(joint, context.shop);
        for position in joint.positions() {
            of_position(&joint, position, &mut all);
        }
    }
    let findings = job.findings.iter();
    all.extend(
        findings
            .filter(|f| {
                f.found.assembly == *assembly && f.found.severity == FindingSeverity::Ruined
            })
            .map(|finding| ruined(finding, job.is_put_right(finding))),
    );
    let wanted = job.parts.wanted();
    all.extend(
        wanted
            .filter(|wanted| wanted.fact.assembly == *assembly)
            .map(|wanted| Demand {
                by: By::Hand,
                joint: wanted.fact.joint.clone(),
                position: 0,
                what: wanted.fact.what.clone(),
                part_number: wanted.fact.part_number.clone(),
                quantity: wanted.fact.quantity.into(),
                why: wanted.fact.why.clone(),
                entry: wanted.entry,
                is_there: false,
            }),
    );
    all.sort_by_key(|demand| demand.entry);
    all
}

fn ruined(finding: &Finding, is_there: bool) -> Demand {
    let found = &finding.found;
    Demand {
        by: By::Finding,
        joint: found.joint.clone(),
        position: 0,
        what: found.part.clone(),
        part_number: String::new(),
        quantity: 1,
        why: format!("{}, {}", found.kind.spoken(), found.severity.spoken()),
        entry: finding.entry,
        is_there,
    }
}

fn of_position(joint: &EffectiveJoint<'_>, position: &Position, all: &mut Vec<Demand>) {
    let Some((record, removed)) = position.removal() else {
        return;
    };
    if position.is_left_out() {
        return;
    }
    let is_back = position.refit().is_some();
    let ask = |by, what, quantity, why: String, entry: EntryNumber, is_there| Demand {
        by,
        joint: Some(joint.fact().joint.clone()),
        position: position.number,
        what,
        part_number: String::new(),
        quantity,
        why,
        entry,
        is_there,
    };
    let decision = position.decision();
    if let Some((said, decided)) = decision
        && let Some((by, what)) = decided_on(joint, position, decided, removed)
    {
        let is_new = |refitted: &Refitted| refitted.new_part.is_some();
        let fitted = (position.refit()).is_some_and(|(_, r)| by == By::Plating || is_new(r));
        let why = decided.reason.clone();
        all.push(ask(by, what, 1, why, said.entry, fitted));
    } else if decision.is_none_or(|(_, d)| d.kind == DecisionKind::Hold) && is_gone(removed) {
        let what = like_specified(joint, removed);
        let why = removed.outcome.spoken().to_owned();
        all.push(ask(By::Removal, what, 1, why, record.entry, is_back));
    }
    for one in beside(joint, position, removed) {
        all.push(ask(
            one.by,
            one.what,
            one.quantity,
            one.why,
            record.entry,
            is_back,
        ));
    }
}

/// The fastener that a decision waits for: bought, made, or back from the plater.
fn decided_on(
    joint: &EffectiveJoint<'_>,
    position: &Position,
    decided: &Decided,
    removed: &Removed,
) -> Option<(By, String)> {
    let new = || {
        Some(designation(
            decided.replacement.as_ref()?,
            joint.shop().catalogue(),
        ))
    };
    match decided.kind {
        DecisionKind::Replace => Some((By::Decision, new()?)),
        DecisionKind::Make => Some((By::Making, format!("{}, to be made", new()?))),
        DecisionKind::PlateAndBake => {
            let found = as_found(joint, removed, position.grade());
            Some((By::Plating, format!("{found}, from plating and baking")))
        }
        DecisionKind::Reuse
        | DecisionKind::CleanAndReuse
        | DecisionKind::Hold
        | DecisionKind::Chase
        | DecisionKind::LeaveOut => None,
    }
}

/// The fastener that came out, in standard words as far as it is known.
fn as_found(joint: &EffectiveJoint<'_>, removed: &Removed, grade: &str) -> String {
    let catalogue = joint.shop().catalogue();
    let specified = joint.target().map_or("", |t| t.thread.as_str());
    let thread = match removed.thread.as_str() {
        "" => specified,
        said => said,
    };
    if let (Some(LengthSeen::Measured(length)), false) = (&removed.length, thread.is_empty()) {
        let part = FastenerSpec {
            thread: thread.into(),
            length: length.clone(),
            grade: grade.into(),
            detail: None,
        };
        return designation(&part, catalogue);
    }
    let known = [thread_name(thread, catalogue), grade_name(grade, catalogue)];
    let known: Vec<String> = known.into_iter().filter(|word| !word.is_empty()).collect();
    match known.join(", ").as_str() {
        "" => format!("fastener of {}", joint.fact().display_name),
        known => known.to_owned(),
    }
}

/// Whether there is nothing left that could go back.
const fn is_gone(removed: &Removed) -> bool {
    matches!(
        removed.outcome,
        Outcome::BrokeNow | Outcome::BrokenBefore | Outcome::MissingBefore | Outcome::CutOnPurpose
    )
}

/// The fastener that the joint was specified for, in standard words.
fn like_specified(joint: &EffectiveJoint<'_>, removed: &Removed) -> String {
    let Some(target) = joint.target() else {
        return match removed.thread.as_str() {
            "" => "fastener, to be decided".into(),
            thread => format!("fastener {thread}, to be decided"),
        };
    };
    let catalogue = joint.shop().catalogue();
    let belongs = joint
        .fact()
        .build
        .as_ref()
        .and_then(|build| build.stack.bolt_length_mm);
    let length = match (belongs, &removed.length) {
        (Some(mm), _) => SaidLength {
            said: format!("{mm} mm"),
            mm,
        },
        (None, Some(LengthSeen::Measured(length))) => length.clone(),
        (None, _) => {
            let thread = thread_name(&target.thread, catalogue);
            let grade = grade_name(&target.grade, catalogue);
            return format!("{thread}, {grade}, length to be decided");
        }
    };
    let part = FastenerSpec {
        thread: target.thread.clone(),
        length,
        grade: target.grade.clone(),
        detail: None,
    };
    designation(&part, catalogue)
}

/// Words in how a joint is locked that tell a lock used once. Common practice.
const USED_ONCE: [&str; 6] = [
    "split pin",
    "cotter",
    "tab",
    "wire",
    "lock plate",
    "locking plate",
];

/// A nut, washer, lock or pin that a position wants new.
pub(crate) struct Beside {
    pub(crate) by: By,
    /// Which kind of part satisfies it.
    pub(crate) part: SmallPart,
    pub(crate) what: String,
    pub(crate) quantity: u32,
    why: String,
}

/// What a position wants new beside its fastener.
pub(crate) fn beside(
    joint: &EffectiveJoint<'_>,
    position: &Position,
    removed: &Removed,
) -> Vec<Beside> {
    let mut all = Vec::new();
    let mut ask = |by, part, what, quantity, why: &str| {
        all.push(Beside {
            by,
            part,
            what,
            quantity,
            why: why.to_owned(),
        });
    };
    let lock = joint.fact().lock.to_lowercase();
    let locked_once = USED_ONCE.iter().any(|word| lock.contains(word));
    // One wire goes through every fastener.
    let wired = lock.contains("wire");
    if locked_once && (!wired || first_out(joint) == Some(position.number)) {
        let what = joint.fact().lock.clone();
        let pin = lock.contains("pin") || lock.contains("cotter");
        let part = if pin { SmallPart::Pin } else { SmallPart::Lock };
        ask(By::UsedOnce, part, what, 1, "used once");
    }
    let parts = removed.assembled.iter().flat_map(|a| &a.parts);
    for part in parts {
        let once = matches!(part.part, SmallPart::Lock | SmallPart::Pin);
        match part.found {
            _ if once && locked_once => {}
            _ if once => ask(By::UsedOnce, part.part, words(part, joint), 1, "used once"),
            SmallPartCondition::Present => {}
            SmallPartCondition::Missing | SmallPartCondition::Unfit => {
                let why = part.found.spoken().to_lowercase();
                ask(By::SmallPart, part.part, words(part, joint), 1, &why);
            }
        }
    }
    let washers = match Purpose::from_id(&joint.fact().purpose) {
        Some(Purpose::BanjoFitting) => 2,
        Some(Purpose::DrainPlug) => 1,
        _ => 0,
    };
    if washers > 0 {
        let what = match removed.thread.as_str() {
            "" => "sealing washer".to_owned(),
            thread => format!("sealing washer for {thread}"),
        };
        ask(By::UsedOnce, SmallPart::Washer, what, washers, "used once");
    }
    all
}

fn first_out(joint: &EffectiveJoint<'_>) -> Option<u16> {
    let wants = |p: &Position| p.removal().is_some() && !p.is_left_out();
    let mut positions = joint.positions().iter();
    positions.find(|p| wants(p)).map(|p| p.number)
}

/// A small part in words: what was said of it, or for which thread it is.
fn words(part: &PartSeen, joint: &EffectiveJoint<'_>) -> String {
    let name = part.part.spoken();
    if !part.said.is_empty() {
        return format!("{name}: {}", part.said);
    }
    let Some(target) = joint.target() else {
        return format!("{name} for {}", joint.fact().display_name);
    };
    let thread = thread_name(&target.thread, joint.shop().catalogue());
    match (part.part, &target.nut_grade) {
        (SmallPart::Nut, Some(grade)) => format!("nut {thread}, {grade}"),
        (SmallPart::Nut, None) => format!("nut {thread}"),
        _ => format!("{name} for {thread}"),
    }
}
