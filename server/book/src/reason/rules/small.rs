//! Small parts that belong to a fastener: used once, missing, or unfit to go back.

use super::scene::{Case, Scene};
use super::{Flag, Looks, Rule};
use crate::reason::orders::{Beside, By, beside};
use crate::record::fact::{PartSeen, Thing};
use crate::record::words::{Severity, SmallPart, SmallPartCondition, Tick};

pub(super) const USED_ONCE: Rule = Rule {
    id: "used-once",
    title: "Part that is used once needs a new one",
    raised_when: "Something came out that is used once: split pin, tab, lock plate or wire, sealing washer of a banjo or drain plug. A note until its fastener is at the final torque; then, with no new one logged, stop in class A, else caution.",
    cleared_by: "A new one logged with the refit, in the number that came out.",
    source: "common practice",
    looks: Looks::Joint(used_once),
};

pub(super) const MISSING_OR_UNFIT: Rule = Rule {
    id: "small-part-unfit",
    title: "Nut, lock, washer or pin is missing or unfit",
    raised_when: "A small part was missing or unfit when its fastener came out: caution; once the fastener is at its final torque with no new one logged, stop in class A.",
    cleared_by: "Log a new one with the refit.",
    source: "common practice",
    looks: Looks::Joint(missing_or_unfit),
};

fn used_once(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let beside = beside(scene.joint, case.position, case.removed);
        let once = beside.into_iter().filter(|one| one.by == By::UsedOnce);
        for Beside {
            part,
            what,
            quantity,
            ..
        } in once
        {
            let new = case.fitted_new(part);
            // Of what is missing or unfit the other rule speaks.
            if new >= quantity || not_fit(&case).contains(&part) {
                continue;
            }
            let severity = match (case.is_final(), scene.is_a()) {
                (false, _) => Severity::Note,
                (true, true) => Severity::Stop,
                (true, false) => Severity::Caution,
            };
            let cause = format!("{what}: used once, {quantity} new wanted, {new} logged");
            flags.push(scene.flag(rule, severity, &case, cause));
        }
    }
}

fn missing_or_unfit(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let not_fit = not_fit(&case);
        for part in SmallPart::ALL {
            let wanted = not_fit.iter().filter(|one| *one == part).count();
            if case.fitted_new(*part) as usize >= wanted {
                continue;
            }
            let severity = match case.is_final() && scene.is_a() {
                true => Severity::Stop,
                false => Severity::Caution,
            };
            let told = unfit(&case).filter(|seen| seen.part == *part);
            let mut told: Vec<String> = told.map(PartSeen::spoken).collect();
            if told.is_empty() {
                told.push(Tick::LockMissing.spoken().into());
            }
            let cause = format!("{}; no new one is logged", told.join(", "));
            flags.push(scene.flag(rule, severity, &case, cause));
        }
    }
}

fn seen<'c>(case: &Case<'c>) -> impl Iterator<Item = &'c PartSeen> {
    case.removed.assembled.iter().flat_map(|a| &a.parts)
}

fn unfit<'c>(case: &Case<'c>) -> impl Iterator<Item = &'c PartSeen> {
    seen(case).filter(|seen| seen.found != SmallPartCondition::Present)
}

/// Small parts that did not come out fit, one by one; a lock that was ticked as missing is one.
fn not_fit(case: &Case<'_>) -> Vec<SmallPart> {
    let mut parts: Vec<SmallPart> = unfit(case).map(|seen| seen.part).collect();
    let ticked = case.removed.ticks.contains(&Tick::LockMissing);
    if ticked && !seen(case).any(|seen| seen.part == SmallPart::Lock) {
        parts.push(SmallPart::Lock);
    }
    parts
}

impl Case<'_> {
    /// Whether the fastener is at its final torque.
    pub(super) fn is_final(&self) -> bool {
        self.position.at_final().is_some()
    }

    /// How many new ones of a small part went in since the removal.
    pub(super) fn fitted_new(&self, part: SmallPart) -> u32 {
        let wanted = Thing::SmallPart(part).plain();
        let with = self.position.refits().filter_map(|r| r.with.as_ref());
        with.flat_map(|with| &with.pieces)
            .filter(|piece| piece.is_new && piece.what.plain() == wanted)
            .map(|piece| u32::from(piece.count))
            .sum()
    }
}
