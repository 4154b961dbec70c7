//! How a joint gives, and what the slots of a castellated nut mean in it.

use crate::reason::shown::in_unit;
use clampbook_engine::joint::{CastleAnswer, Stretch, Verdict};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;

/// How much bolt and clamped parts give.
#[must_use]
pub fn gives(stretch: &Stretch<'_>) -> String {
    format!(
        "The bolt stretches by {}, the parts are compressed by {}.",
        show::micrometres(stretch.elongation_mm),
        show::micrometres(stretch.compression_mm)
    )
}

/// How stiff bolt and clamped parts are.
#[must_use]
pub fn stiffness(stretch: &Stretch<'_>) -> String {
    format!(
        "Bolt {}, parts {}; of an external load the bolt takes {}.",
        show::stiffness(stretch.bolt),
        show::stiffness(stretch.members),
        show::percent(stretch.load_share)
    )
}

/// What settling costs.
#[must_use]
pub fn settling(stretch: &Stretch<'_>, unit: TorqueUnit) -> String {
    format!(
        "{} cost {} of clamp load.",
        show::micrometres(stretch.settling_mm),
        show::load(stretch.settling_loss, unit)
    )
}

/// What to do about the next slot.
#[must_use]
pub fn deed(verdict: &Verdict, unit: TorqueUnit) -> String {
    match verdict {
        Verdict::Advance {
            torque_nm: Some(nm),
        } => format!("Tighten to the slot: about {}", in_unit(*nm, unit)),
        Verdict::Advance { torque_nm: None } => {
            "Tighten to the next slot: it lies inside the range".into()
        }
        Verdict::Measure => {
            "Turn to the minimum torque and measure the angle to the next slot".into()
        }
        Verdict::ChangeWasher { .. } => "Change the washers".into(),
        Verdict::Refuse { .. } => "No answer".into(),
    }
}

/// How the washers must change; empty where they need not.
#[must_use]
pub fn washers(verdict: &Verdict) -> String {
    let Verdict::ChangeWasher {
        thinner_mm,
        thicker_mm,
    } = verdict
    else {
        return String::new();
    };
    let change = |(from, to): &(f64, f64)| format!("by {}", show::millimetre_range(*from, *to));
    format!(
        "Thinner {}, or thicker {}.",
        change(thinner_mm),
        change(thicker_mm)
    )
}

/// What a slot is worth in this joint.
#[must_use]
pub fn slots(answer: &CastleAnswer<'_>, unit: TorqueUnit) -> String {
    let added = answer.load_per_step.map_or_else(
        || "more than the bolt's yield".to_owned(),
        |load| format!("{} of clamp load", show::load(load, unit)),
    );
    let window = answer.window.map_or_else(String::new, |window| {
        format!(
            " The published range of torque is {} wide.",
            show::angle(window)
        )
    });
    format!(
        "{} from slot to slot, {} of travel, {added} in this joint.{window}",
        show::angle(answer.step),
        show::micrometres(answer.step_mm)
    )
}
