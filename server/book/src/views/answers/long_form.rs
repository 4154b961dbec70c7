//! The torque by the long form, and its parts.

use crate::reason::shown::in_unit;
use clampbook_engine::long_form::{FrictionSpread, LongAnswer};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;

/// The clamp load, what decided it and the load that it is a share of.
#[must_use]
pub fn long_target(answer: &LongAnswer, unit: TorqueUnit) -> String {
    format!(
        "Target {}, governed by {}; working load {}.",
        show::load(answer.clamp_load, unit),
        answer.governed_by.id().replace('-', " "),
        show::load(answer.working_load, unit)
    )
}

/// What the parts of the torque do, and what loosens it again.
#[must_use]
pub fn parts(answer: &LongAnswer, unit: TorqueUnit) -> String {
    format!(
        "{} stretch the bolt, {} overcome friction in the thread, {} under the head; {} loosen it.",
        show::torque(answer.helix_torque, unit),
        show::torque(answer.thread_torque, unit),
        show::torque(answer.bearing_torque, unit),
        in_unit(answer.loosening_torque_nm, unit)
    )
}

/// The stress while tightening.
#[must_use]
pub fn stress(answer: &LongAnswer) -> String {
    let against = answer.yield_stress.map_or_else(String::new, |stress| {
        format!(" of {} to yield", show::stress(stress))
    });
    format!(
        "{}{against} while tightening (plastic section modulus; {} with the elastic one).",
        show::stress(answer.combined_plastic),
        show::stress(answer.combined_elastic)
    )
}

/// What the ends of the friction make of torque and clamp load.
#[must_use]
pub fn friction(spread: &FrictionSpread, unit: TorqueUnit) -> String {
    format!(
        "From the lowest to the highest friction the torque would be {} to {}; this setting gives {}.",
        show::torque(spread.low_torque, unit),
        show::torque(spread.high_torque, unit),
        show::load_range(spread.minimum_clamp_load, spread.maximum_clamp_load, unit)
    )
}
