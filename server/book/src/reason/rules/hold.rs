//! On hold: somebody decided to wait.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::words::{DecisionKind, HoldReason, Severity};

pub(super) const ON_HOLD: Rule = Rule {
    id: "on-hold",
    title: "Position waits",
    raised_when: "The last decision on it is to hold, for measuring, hardness readings, a crack test or a part: stop.",
    cleared_by: "Another decision, once what it waits for is known or there.",
    source: "common practice",
    looks: Looks::Joint(on_hold),
};

fn on_hold(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let Some((record, decided)) = case.position.decision() else {
            continue;
        };
        if decided.kind != DecisionKind::Hold {
            continue;
        }
        let what = decided.hold_reason.map_or("a decision", HoldReason::spoken);
        flags.push(scene.raise(
            rule,
            Severity::Stop,
            case.position.number,
            format!("on hold, waits for {what}: {}", decided.reason),
            vec![case.record.entry, record.entry],
        ));
    }
}
