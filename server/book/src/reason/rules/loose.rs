//! Loose on arrival: a finding, the cause of failures.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::shown;
use crate::record::words::{Outcome, Severity};
use clampbook_engine::show;

/// Breakaway below this share of the specified torque counts as loose. Common practice.
const BREAKAWAY_SHARE: f64 = 0.3;

pub(super) const LOOSE_ON_ARRIVAL: Rule = Rule {
    id: "loose-on-arrival",
    title: "Fastener was loose when the machine came in",
    raised_when: "It was loose on arrival, or broke loose below 0.3 times the specified torque: stop in class A, else caution.",
    cleared_by: "Measure the hole: it must be within limits. In class A replace the bolt as well.",
    source: "common practice",
    looks: Looks::Joint(loose),
};

fn loose(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let measured = case.hole_is_measured();
        if measured && (case.is_replaced() || !scene.is_a()) {
            continue;
        }
        let low = case
            .removed
            .breakaway
            .as_ref()
            .zip(scene.torque_nm())
            .filter(|(breakaway, wanted)| breakaway.nm < BREAKAWAY_SHARE * wanted);
        let cause = match (case.removed.outcome, low) {
            (Outcome::LooseOnArrival, _) => "loose on arrival".to_owned(),
            (_, Some((breakaway, wanted))) => format!(
                "broke loose at {}, {} times the specified torque",
                shown::said_torque(breakaway),
                show::ratio(breakaway.nm / wanted)
            ),
            _ => continue,
        };
        let severity = if scene.is_a() {
            Severity::Stop
        } else {
            Severity::Caution
        };
        flags.push(scene.flag(rule, severity, &case, cause));
    }
}
