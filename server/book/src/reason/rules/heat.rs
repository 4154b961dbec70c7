//! Heat: a fastener that was heated may have lost its temper.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::words::{HeatColour, Method, Severity};

pub(super) const HEATED: Rule = Rule {
    id: "heated",
    title: "Fastener was heated",
    raised_when: "Heat was used to get it out: stop in class A, or when it showed temper colours or any red; else caution.",
    cleared_by: "Decide on a replacement.",
    source: "ISO 898-1 (minimum tempering temperature of quenched grades 425 °C); common practice for the colours",
    looks: Looks::Joint(heated),
};

fn heated(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let removed = case.removed;
        if case.is_replaced() || !removed.methods.contains(&Method::Heat) {
            continue;
        }
        let severity = match removed.heat_colour {
            Some(HeatColour::Warm) if !scene.is_a() => Severity::Caution,
            _ => Severity::Stop,
        };
        let colour = removed
            .heat_colour
            .map_or("colour not seen", HeatColour::spoken);
        let place = if removed.heated_place.is_empty() {
            String::new()
        } else {
            format!(", on {}", removed.heated_place)
        };
        flags.push(scene.flag(rule, severity, &case, format!("heated: {colour}{place}")));
    }
}
