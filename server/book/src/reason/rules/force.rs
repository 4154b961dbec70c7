//! Forced out: the fastener and its hole may have been hurt getting it out.

use super::scene::{Case, Scene};
use super::{Flag, Looks, Rule};
use crate::reason::shown;
use crate::record::words::{Method, Outcome, Severity};
use clampbook_engine::show;

/// Breakaway above this share of the specified torque counts as forced. Common practice.
const BREAKAWAY_SHARE: f64 = 1.5;

pub(super) const FORCED_OUT: Rule = Rule {
    id: "forced-out",
    title: "Fastener had to be forced out",
    raised_when: "It was seized or spun, or it took a hammer, a puller, an extractor, cutting or drilling, or it broke loose above 1.5 times the specified torque: stop on the fastener and its hole.",
    cleared_by: "A decision (in class A: replace) together with a hole into which a sound bolt runs by hand to full depth.",
    source: "common practice",
    looks: Looks::Joint(forced_out),
};

const FORCE: [Method; 5] = [
    Method::Hammer,
    Method::PullerOrPress,
    Method::SplitOrCut,
    Method::ExtractorOrWeldedNut,
    Method::Drilled,
];

fn forced_out(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let cleared = case.hole_is_proved()
            && case.decided.is_some()
            && (case.is_replaced() || !scene.is_a());
        if cleared {
            continue;
        }
        if let Some(cause) = cause(scene, &case) {
            flags.push(scene.flag(rule, Severity::Stop, &case, cause));
        }
    }
}

fn cause(scene: &Scene<'_>, case: &Case<'_>) -> Option<String> {
    let removed = case.removed;
    let mut said = Vec::new();
    if matches!(removed.outcome, Outcome::Seized | Outcome::Spun) {
        said.push(removed.outcome.spoken().to_owned());
    }
    said.extend(
        removed
            .methods
            .iter()
            .filter(|methods| FORCE.contains(methods))
            .map(|methods| methods.spoken().to_owned()),
    );
    if let (Some(breakaway), Some(wanted)) = (&removed.breakaway, scene.torque_nm())
        && breakaway.nm > BREAKAWAY_SHARE * wanted
    {
        said.push(format!(
            "broke loose at {}, {} times the specified torque",
            shown::said_torque(breakaway),
            show::ratio(breakaway.nm / wanted)
        ));
    }
    (!said.is_empty()).then(|| said.join(", "))
}
