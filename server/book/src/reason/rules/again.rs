//! Fasteners that may not go back, or not without a reading: stretched past yield, and lock nuts that have lost their grip.

use super::scene::{Case, Scene};
use super::{Flag, Looks, Rule};
use crate::record::fact::SaidTorque;
use crate::record::words::{DecisionKind, Severity, SmallPart};
use clampbook_engine::lock_nut::{LockNutKind, UsedNut};
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::{Purpose, Severity as Found};

pub(super) const YIELD_BOLT: Rule = Rule {
    id: "yield-bolt-again",
    title: "Bolt that was tightened past yield is to be used again",
    raised_when: "A yield bolt came out and nothing is decided: caution. It is decided to reuse it, or the original went back: stop.",
    cleared_by: "Decide on a replacement; once something is fitted, fit the replacement.",
    source: "common practice",
    looks: Looks::Joint(yield_bolt),
};

pub(super) const LOCK_NUT: Rule = Rule {
    id: "lock-nut-again",
    title: "Used lock nut is not shown to grip",
    raised_when: "A fastener locked by a lock nut is at its final torque, the nut is not new, and its prevailing torque was not read: stop in class A, else caution. It was read and is below every published minimum: stop; where the published values do not agree: caution; where none is published: note.",
    cleared_by: "Log a new nut with the refit, or a prevailing torque that reaches the published minimum.",
    source: "FAA AC 43.13-1B, table 7-2; US Army TM 9-6115-604-34, table 1-3",
    looks: Looks::Joint(lock_nut),
};

fn yield_bolt(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    if scene.joint.fact().purpose != Purpose::YieldBolt.id() {
        return;
    }
    for case in scene.cases() {
        let decided = case.decided.map(|decided| decided.kind);
        let (severity, cause) = match (case.position.refit(), decided) {
            (Some((_, refitted)), _) if refitted.new_part.is_some() => continue,
            (Some(_), _) => (Severity::Stop, "tightened past yield before, and in again"),
            (None, Some(DecisionKind::Replace | DecisionKind::Make | DecisionKind::Hold)) => {
                continue;
            }
            (None, Some(_)) => (
                Severity::Stop,
                "tightened past yield before, and decided to go in again",
            ),
            (None, None) => (Severity::Caution, "tightened past yield: wants a new bolt"),
        };
        flags.push(scene.flag(rule, severity, &case, cause.into()));
    }
}

/// Words in how a joint is locked that tell a nut which locks itself. Common practice.
const LOCK_NUTS: [&str; 5] = [
    "lock nut",
    "locknut",
    "locking nut",
    "stiff nut",
    "stiffnut",
];

fn lock_nut(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let lock = scene.joint.fact().lock.to_lowercase();
    if !LOCK_NUTS.iter().any(|word| lock.contains(word)) {
        return;
    }
    for case in scene.cases() {
        if !case.is_final() || case.fitted_new(SmallPart::Nut) > 0 {
            continue;
        }
        if let Some((severity, cause)) = grip(scene, &case) {
            flags.push(scene.flag(rule, severity, &case, cause));
        }
    }
}

/// What is wrong with the grip of a used lock nut, if anything.
fn grip(scene: &Scene<'_>, case: &Case<'_>) -> Option<(Severity, String)> {
    let unknown = match scene.is_a() {
        true => Severity::Stop,
        false => Severity::Caution,
    };
    let Some(read) = prevailing_torque(case) else {
        let cause = "used lock nut, its prevailing torque was not read";
        return Some((unknown, cause.into()));
    };
    let (Some(thread), Ok(measured)) = (scene.thread, NewtonMetres::new(read.nm)) else {
        let cause = format!(
            "used lock nut, its prevailing torque of {} cannot be judged",
            read.said
        );
        return Some((unknown, cause));
    };
    let nut = UsedNut::judge(thread, LockNutKind::Any, measured);
    let severity = match nut.severity()? {
        Found::Stop => Severity::Stop,
        Found::Caution => Severity::Caution,
        Found::Note => Severity::Note,
    };
    let cause = format!("prevailing torque {}. {}", read.said, nut.text()?);
    Some((severity, cause))
}

/// The prevailing torque that was read last.
fn prevailing_torque<'c>(case: &Case<'c>) -> Option<&'c SaidTorque> {
    let mut with = case.position.refits().filter_map(|r| r.with.as_ref());
    with.find_map(|with| with.prevailing_torque.as_ref())
}
