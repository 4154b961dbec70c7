//! Left out: somebody decided that nothing goes back into a hole.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::words::{Criticality, Severity};

pub(super) const LEFT_OUT: Rule = Rule {
    id: "left-out",
    title: "Fastener is left out on purpose",
    raised_when: "By the last decision nothing goes in: note in class C, caution in B; in class A stop, or caution where the decision cites the maker's specification for it. Nothing else is asked of what came out there.",
    cleared_by: "Another decision; in class A a citation of the maker's specification makes it a caution.",
    source: "common practice",
    looks: Looks::Joint(left_out),
};

fn left_out(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let positions = scene.joint.positions().iter();
    for position in positions.filter(|p| p.is_left_out() && scene.wants(p.number)) {
        let Some((record, decided)) = position.decision() else {
            continue;
        };
        let cited = !decided.citation.is_empty();
        let severity = match scene.joint.fact().criticality {
            Criticality::A if cited => Severity::Caution,
            Criticality::A => Severity::Stop,
            Criticality::B => Severity::Caution,
            Criticality::C => Severity::Note,
        };
        let by = if cited {
            format!("; cited: {}", decided.citation)
        } else if scene.is_a() {
            "; no specification of the maker is cited for it".into()
        } else {
            String::new()
        };
        let cause = format!(
            "left out by {}: {}{by}",
            decided.left_out_by, decided.reason
        );
        flags.push(scene.raise(rule, severity, position.number, cause, vec![record.entry]));
    }
}
