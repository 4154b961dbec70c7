//! Long form, weaker partner and lengths, each on one screen.

use clampbook_api::v1::{
    CheckJointResponse, ComputeLongFormTorqueResponse, FitLengthResponse, FitLengths, Scatter,
    TorqueUnit,
};

use super::{
    assumed, checks,
    cite::sources,
    quantity::{UNBROKEN, load, nut_factor, three_figures, torque, unbroken},
    scatter,
    text::{paragraph, paragraphs, strong},
};

/// Torque by the long form: the number first, then its parts.
pub(crate) fn long_form(answer: &ComputeLongFormTorqueResponse, unit: TorqueUnit) -> String {
    let nm = |value| torque(value, unit);
    let mut shown = format!(
        "{}   COMPUTED, NOT MAKER'S\n{}, {}, as much as K {} in the short form\n\n",
        strong(&unbroken(&answer.torque_text)),
        answer.thread,
        answer.grade,
        nut_factor(answer.equivalent_nut_factor)
    );
    let aim = format!(
        "Target {}, governed by {}; proof load {}.",
        unbroken(&answer.clamp_load_text),
        answer.governed_by.replace('-', " "),
        load(answer.proof_load_n, unit)
    );
    shown.push_str(&paragraph("Clamp load", &aim));
    let parts = format!(
        "{} stretch the bolt, {} overcome friction in the thread, {} under the head; {} loosen it.",
        nm(answer.helix_torque_nm),
        nm(answer.thread_torque_nm),
        nm(answer.bearing_torque_nm),
        nm(answer.loosening_torque_nm)
    );
    shown.push_str(&paragraph("Parts", &parts));
    let against = answer
        .yield_mpa
        .map_or_else(String::new, |mpa| format!(" of {} to yield", mega(mpa)));
    let stress = format!(
        "{}{against} while tightening (plastic section modulus; {} with the elastic one).",
        mega(answer.combined_plastic_mpa),
        mega(answer.combined_elastic_mpa)
    );
    shown.push_str(&paragraph("Stress", &stress));
    shown.push_str(&band(answer.scatter.as_ref()));
    if let Some(spread) = &answer.friction {
        let said = format!(
            "From the lowest to the highest friction the torque would be {} to {}; this setting gives {} to {}.",
            nm(spread.low_torque_nm),
            nm(spread.high_torque_nm),
            load(spread.minimum_clamp_load_n, unit),
            load(spread.maximum_clamp_load_n, unit)
        );
        shown.push_str(&paragraph("Friction", &said));
    }
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

/// Whether the joint holds: what is found first.
pub(crate) fn joint(answer: &CheckJointResponse, unit: TorqueUnit) -> String {
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
    shown.push_str(&band(answer.scatter.as_ref()));
    let partners = answer.partners.iter().map(|p| {
        format!(
            "{} bears {}.",
            p.partner.replace('-', " "),
            load(p.capacity_n, unit)
        )
    });
    shown.push_str(&paragraphs("Partners", partners));
    if let Some(engagement) = &answer.engagement {
        let there = engagement
            .available_mm
            .map_or_else(|| "unknown".to_owned(), mm);
        let trade = engagement.by_trade_mm.map_or_else(String::new, |trade| {
            format!(", {} by rule of thumb", mm(trade))
        });
        let said = format!(
            "{there} there; wanted are {} by strength{trade}.",
            mm(engagement.by_strength_mm)
        );
        shown.push_str(&paragraph("Engagement", &said));
    }
    let faces = answer.bearing_faces.iter().map(|face| {
        format!(
            "{}: {} to {}, allowed {}.",
            face.face,
            mega(face.nominal_mpa),
            mega(face.maximum_mpa),
            mega(face.allowed_mpa)
        )
    });
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
    let standard = answer.lengths.as_ref().and_then(|found| found.standard_mm);
    let first = standard.map_or_else(|| "No standard length".to_owned(), mm);
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
    let longest = found.longest_mm.map_or_else(String::new, |most| {
        format!(", at most {} in this blind hole", mm(most))
    });
    let needed = format!(
        "{} clamped; at least {} needed{longest}.",
        mm(found.grip_mm),
        mm(found.needed_mm)
    );
    let mut shown = paragraph("Length", &needed);
    if let Some(bolt) = &found.at_hand {
        let out = bolt
            .protrusion_mm
            .map_or_else(String::new, |out| format!(", {} out of the nut", mm(out)));
        let said = format!(
            "reaches {} past the clamped parts, {} engaged{out}; body {}, full thread from {}.",
            mm(bolt.reach_mm),
            mm(bolt.engagement_mm),
            mm(bolt.body_mm),
            mm(bolt.grip_length_mm)
        );
        shown.push_str(&paragraph("At hand", &said));
    }
    shown
}

fn band(band: Option<&Scatter>) -> String {
    band.map_or_else(String::new, |band| scatter(&band.text))
}

/// A length in mm, and in inches beside it.
fn mm(value: f64) -> String {
    let inches = value / 25.4;
    format!(
        "{}{UNBROKEN}mm ({inches:.3}{UNBROKEN}in)",
        super::quantity::at_most(2, value)
    )
}

fn mega(value: f64) -> String {
    format!("{}{UNBROKEN}MPa", three_figures(value))
}
