//! Stretch and slots, each on one screen.

use clampbook_api::v1::{AlignCastellatedNutResponse, ComputeStretchResponse};

use super::{
    assumed, checks,
    cite::sources,
    text::{paragraph, paragraphs, strong, unbroken},
};

/// How the joint gives: the elastic angle first.
pub(crate) fn stretch(answer: &ComputeStretchResponse) -> String {
    let mut shown = format!(
        "{}   from snug to {}, elastic only   COMPUTED\n{}\n\n",
        strong(&answer.angle_text),
        unbroken(&answer.clamp_load_text),
        answer.thread
    );
    shown.push_str(&paragraph("Stretch", &answer.stretch_text));
    shown.push_str(&paragraph("Stiffness", &answer.stiffness_text));
    shown.push_str(&paragraph("Settling", &answer.settling_text));
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

/// What to do about the slot: the deed first.
pub(crate) fn castle(answer: &AlignCastellatedNutResponse) -> String {
    let mut shown = format!("{}\n{}\n\n", strong(&answer.text), answer.thread);
    for (heading, said) in [
        ("Why", &answer.why),
        ("Instead", &answer.instead),
        ("Washers", &answer.washers_text),
        ("Slots", &answer.slots_text),
    ] {
        if !said.is_empty() {
            shown.push_str(&paragraph(heading, said));
        }
    }
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}
