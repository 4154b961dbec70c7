//! Stretch and slots, each on one screen.

use clampbook_api::v1::{
    AlignCastellatedNutResponse, ComputeStretchResponse, SlotVerdict, TorqueUnit, WasherChange,
};

use super::{
    assumed, checks,
    cite::sources,
    quantity::{UNBROKEN, at_most, load, three_figures, torque},
    text::{paragraph, paragraphs, strong},
};

/// How the joint gives: the elastic angle first.
pub(crate) fn stretch(answer: &ComputeStretchResponse, unit: TorqueUnit) -> String {
    let mut shown = format!(
        "{}   from snug to {}, elastic only   COMPUTED\n{}\n\n",
        strong(&degrees(answer.angle_degrees)),
        load(answer.clamp_load_n, unit),
        answer.thread
    );
    let gives = format!(
        "The bolt stretches by {}, the parts are compressed by {}.",
        micrometres(answer.elongation_mm),
        micrometres(answer.compression_mm)
    );
    shown.push_str(&paragraph("Stretch", &gives));
    let stiff = format!(
        "Bolt {}, parts {}; of an external load the bolt takes {} %.",
        stiffness(answer.bolt_stiffness_n_per_mm),
        stiffness(answer.member_stiffness_n_per_mm),
        at_most(1, answer.load_share * 100.0)
    );
    shown.push_str(&paragraph("Stiffness", &stiff));
    let settles = format!(
        "{} cost {} of clamp load.",
        micrometres(answer.settling_mm),
        load(answer.settling_loss_n, unit)
    );
    shown.push_str(&paragraph("Settling", &settles));
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

/// What to do about the slot: the deed first.
pub(crate) fn castle(answer: &AlignCastellatedNutResponse, unit: TorqueUnit) -> String {
    let mut shown = format!("{}\n{}\n\n", strong(&deed(answer, unit)), answer.thread);
    if !answer.why.is_empty() {
        shown.push_str(&paragraph("Why", &answer.why));
        shown.push_str(&paragraph("Instead", &answer.instead));
    }
    let change = |change: &WasherChange| {
        format!(
            "by {} to {}{UNBROKEN}mm",
            at_most(3, change.from_mm),
            at_most(3, change.to_mm)
        )
    };
    if let (Some(thinner), Some(thicker)) = (&answer.thinner, &answer.thicker) {
        let said = format!(
            "Thinner {}, or thicker {}.",
            change(thinner),
            change(thicker)
        );
        shown.push_str(&paragraph("Washers", &said));
    }
    let window = answer.window_degrees.map_or_else(String::new, |window| {
        format!(
            " The published range of torque is {} wide.",
            degrees(window)
        )
    });
    let added = answer.load_per_step_n.map_or_else(
        || "more than the bolt's yield".to_owned(),
        |newtons| format!("{} of clamp load", load(newtons, unit)),
    );
    let steps = format!(
        "{} from slot to slot, {} of travel, {added} in this joint.{window}",
        degrees(answer.step_degrees),
        micrometres(answer.step_mm)
    );
    shown.push_str(&paragraph("Slots", &steps));
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn deed(answer: &AlignCastellatedNutResponse, unit: TorqueUnit) -> String {
    match answer.verdict() {
        SlotVerdict::Advance => match answer.slot_torque_nm {
            Some(nm) => format!("Tighten to the slot: about {}", torque(nm, unit)),
            None => "Tighten to the next slot: it lies inside the range".to_owned(),
        },
        SlotVerdict::Measure => {
            "Turn to the minimum torque and measure the angle to the next slot".to_owned()
        }
        SlotVerdict::ChangeWasher => "Change the washers".to_owned(),
        SlotVerdict::Refuse => "No answer".to_owned(),
        SlotVerdict::Unspecified => format!("Verdict {}", answer.verdict),
    }
}

fn degrees(value: f64) -> String {
    format!("{}°", three_figures(value))
}

fn micrometres(mm: f64) -> String {
    format!("{}{UNBROKEN}µm", three_figures(mm * 1000.0))
}

fn stiffness(n_per_mm: f64) -> String {
    format!("{}{UNBROKEN}kN/mm", three_figures(n_per_mm / 1000.0))
}
