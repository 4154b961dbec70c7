//! Hard steel that was electroplated.

use super::scene::Scene;
use super::{Check, Flag, Rule};
use crate::words::Severity;
use clampbook_engine::FindingId;

pub(super) const NOT_BAKED: Rule = Rule {
    id: "plated-hard-unbaked",
    title: "Hard electroplated fastener was not baked",
    raised_when: "The joint asks for electroplated fasteners of a grade that is 39 HRC or harder and nobody said that they were baked: stop on the whole joint.",
    cleared_by: "The joint's description corrected: baked, as papers show, or another finish or grade.",
    source: "ASTM F1941 and SAE J1648 (from 40 HRC); 39 HRC is the older threshold, from memory",
    check: Check::Joint(not_baked),
};

fn not_baked(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let Some(answer) = &scene.answer else {
        return;
    };
    let found = |id| answer.findings.iter().any(|finding| finding.id == id);
    if found(FindingId::PlatedHardUnbaked) {
        flags.push(scene.raise(
            rule,
            Severity::Stop,
            0,
            FindingId::PlatedHardUnbaked.text().into(),
            vec![scene.joint.entry],
        ));
    }
}
