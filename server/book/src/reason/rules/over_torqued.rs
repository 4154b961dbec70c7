//! Fasteners that were tightened too far: what was stretched or stripped does not show at the next, lower reading.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::shown;
use crate::record::fact::TorqueRead;
use crate::record::words::Severity;
use clampbook_engine::show;

/// Share of the torque asked for that is taken as too much where no maximum is published: a quarter more brings a bolt from
/// 0.75 of its proof load near the whole of it. Common practice.
const TOO_MUCH: f64 = 1.25;

pub(super) const OVER_TORQUED: Rule = Rule {
    id: "over-torqued",
    title: "Fastener was tightened too far",
    raised_when: "A reading since it went in lies above the published maximum torque or, where none is published, above 1.25 times the torque asked for: stop in class A, else caution. A lower reading afterwards does not change it.",
    cleared_by: "A new fastener logged with a refit; or the entry corrected, if it was misread.",
    source: "common practice",
    looks: Looks::Joint(over_torqued),
};

fn over_torqued(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let severity = match scene.is_a() {
        true => Severity::Stop,
        false => Severity::Caution,
    };
    for case in scene.cases() {
        let mut readings = case.position.tightenings();
        let over = readings.find_map(|(record, torque)| Some((record, too_far(torque)?)));
        if let Some((record, cause)) = over {
            let (position, entries) = (case.position.number, vec![record.entry]);
            flags.push(scene.raise(rule, severity, position, cause, entries));
        }
    }
}

/// What was read, and how it is too much.
pub(super) fn too_far(torque: &TorqueRead) -> Option<String> {
    let reading = torque.reading.as_ref()?;
    let maximum = torque.published.as_ref().and_then(|maker| maker.maximum_nm);
    let how = match (maximum, torque.wanted_nm()) {
        (Some(maximum), _) if reading.nm > maximum => "above the published maximum torque".into(),
        (None, Some(wanted)) if reading.nm > wanted * TOO_MUCH => {
            format!(
                "{} times the torque asked for",
                show::ratio(reading.nm / wanted)
            )
        }
        _ => return None,
    };
    Some(format!("{} was read, {how}", shown::said_torque(reading)))
}
