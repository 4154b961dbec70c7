//! Computed torques where life and limb hang on the joint.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::words::Severity;

pub(super) const NOT_APPROVED: Rule = Rule {
    id: "computed-torque-not-approved",
    title: "Computed torque in a class A joint is not approved",
    raised_when: "The torque of a class A joint is computed and nobody approved it by name: stop on the whole joint.",
    cleared_by: "Look for the maker's value; if there is none, correct the joint's description to name who approves the computed torque.",
    source: "common practice",
    looks: Looks::Joint(not_approved),
};

fn not_approved(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let approved = !scene.joint.fact().computed_torque_approver.is_empty();
    if scene.is_a() && scene.is_computed() && !approved {
        flags.push(scene.raise(
            rule,
            Severity::Stop,
            0,
            "the torque is computed, not the maker's, and nobody has approved it".into(),
            vec![scene.joint.recorded().entry],
        ));
    }
}
