//! Long form, weaker partner and lengths, each on one screen.

use clampbook_api::v1::{
    CheckJointResponse, ComputeLongFormTorqueResponse, FitLengthResponse, FitLengths,
};

use super::{
    assumed, checks,
    cite::sources,
    scatter,
    text::{paragraph, paragraphs, strong, unbroken},
};

/// Torque by the long form: the number first, then its parts.
pub(crate) fn long_form(answer: &ComputeLongFormTorqueResponse) -> String {
    let mut shown = format!(
        "{}   COMPUTED, NOT MAKER'S\n{}, {}, as much as K {} in the short form\n\n",
        strong(&unbroken(&answer.torque_text)),
        answer.thread,
        answer.grade,
        answer.equivalent_nut_factor_text
    );
    shown.push_str(&paragraph("Clamp load", &answer.target_text));
    shown.push_str(&paragraph("Parts", &answer.parts_text));
    shown.push_str(&paragraph("Stress", &answer.stress_text));
    shown.push_str(&scatter(answer.scatter.as_ref()));
    if let Some(spread) = &answer.friction {
        shown.push_str(&paragraph("Friction", &spread.text));
    }
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

/// Whether the joint holds: what is found first.
pub(crate) fn joint(answer: &CheckJointResponse) -> String {
    let verdict = match answer.checks.len() {
        0 => "Nothing weaker found".to_owned(),
        1 => "1 finding".to_owned(),
        many => format!("{many} findings"),
    };
    let mut shown = format!(
        "{}   at {} and {}   COMPUTED, NOT MAKER'S\n{}, {}\n\n",
        strong(&verdict),
        unbroken(&answer.torque_text),
        unbroken(&answer.clamp_load_text),
        answer.thread,
        answer.grade
    );
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&scatter(answer.scatter.as_ref()));
    let partners = answer.partners.iter().map(|partner| &partner.text);
    shown.push_str(&paragraphs("Partners", partners));
    if let Some(engagement) = &answer.engagement {
        shown.push_str(&paragraph("Engagement", &engagement.text));
    }
    let faces = answer.bearing_faces.iter().map(|face| &face.text);
    shown.push_str(&paragraphs("Pressure", faces));
    if let Some(found) = &answer.lengths {
        shown.push_str(&lengths(found));
    }
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

/// Which length: the one to buy first.
pub(crate) fn length(answer: &FitLengthResponse) -> String {
    let standard = answer.lengths.as_ref().map(|found| &found.standard_text);
    let first = match standard.filter(|text| !text.is_empty()) {
        Some(text) => unbroken(text),
        None => "No standard length".to_owned(),
    };
    let mut shown = format!("{}   {}\n\n", strong(&first), answer.thread);
    if let Some(found) = &answer.lengths {
        shown.push_str(&lengths(found));
    }
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn lengths(found: &FitLengths) -> String {
    let mut shown = paragraph("Length", &found.text);
    if let Some(bolt) = &found.at_hand {
        shown.push_str(&paragraph("At hand", &bolt.text));
    }
    shown
}
