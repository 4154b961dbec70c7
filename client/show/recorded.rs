//! What was recorded by a changing command, and what follows from it at once.

use clampbook_api::v1::{
    CorrectEntryResponse, Decision, Disposition, FittedPart, Flag, ImportRemovalsResponse,
    LogAlikeRemovalsResponse, LogDecisionResponse, LogRefitResponse, LogRemovalResponse, Refit,
    Removal, RemovalCondition, Tightness,
};

use super::{flag::block, quantity::torque, text::strong};
use crate::{args::Word, name};

/// A removal.
pub(crate) fn removal(answer: &LogRemovalResponse) -> String {
    let said = answer.removal.as_ref().map(removed).unwrap_or_default();
    said + &follows(&answer.flags)
}

/// Removals that went alike.
pub(crate) fn alike(answer: &LogAlikeRemovalsResponse) -> String {
    let said: String = answer.removals.iter().map(removed).collect();
    said + &follows(&answer.flags)
}

fn removed(removal: &Removal) -> String {
    let how = format!("came out {}", RemovalCondition::said_of(removal.condition));
    line(&removal.entry, &removal.joint, removal.position, &how)
}

/// A whole strip-down, or a check of one.
pub(crate) fn import(answer: &ImportRemovalsResponse, checked_only: bool) -> String {
    let deed = if checked_only {
        "checked, nothing written"
    } else {
        "recorded"
    };
    format!(
        "{} removals {deed}.\n{}",
        answer.removal_count,
        follows(&answer.flags)
    )
}

/// A decision.
pub(crate) fn decision(answer: &LogDecisionResponse) -> String {
    let said = answer.decision.as_ref().map(decided).unwrap_or_default();
    said + &follows(&answer.flags)
}

fn decided(decision: &Decision) -> String {
    let with = decision
        .replacement
        .as_ref()
        .map(|new| format!(" with {} {} {}", new.thread, new.length, new.grade))
        .unwrap_or_default();
    let what = format!("{}{with}", Disposition::said_of(decision.disposition));
    line(&decision.entry, &decision.joint, decision.position, &what)
}

/// A refit.
pub(crate) fn refit(answer: &LogRefitResponse) -> String {
    let said = answer.refit.as_ref().map(refitted).unwrap_or_default();
    said + &follows(&answer.flags)
}

fn refitted(refit: &Refit) -> String {
    let part = FittedPart::said_of(refit.fitted_part);
    let tightness = match refit.tightness() {
        Tightness::Final => "at its final torque".to_owned(),
        _ => format!("{}, NOT TIGHT", Tightness::said_of(refit.tightness)),
    };
    // Reading and wanted value stand in newton metres, whatever was said, so that they can be compared.
    let number = |value: Option<f64>| {
        value.map(|value| torque(value, clampbook_api::v1::TorqueUnit::NewtonMetre))
    };
    let reading = number(refit.torque_reading_nm)
        .map(|read| format!(", read {read}"))
        .unwrap_or_default();
    let wanted = number(refit.wanted_torque_nm)
        .map(|wanted| format!(", the record asks for {wanted} (COMPUTED, NOT MAKER'S)"))
        .unwrap_or_default();
    let what = format!("{part} in, {tightness}{reading}{wanted}");
    line(&refit.entry, &refit.joint, refit.position, &what)
}

/// A correction.
pub(crate) fn correction(answer: &CorrectEntryResponse) -> String {
    let name = answer.entry.as_ref().map_or("", |entry| &entry.name);
    format!("Corrected by {}.\n{}", strong(name), follows(&answer.flags))
}

fn line(entry: &str, joint: &str, position: i32, what: &str) -> String {
    format!(
        "{} position {position}: {what}  (entry {})\n",
        strong(name::id(joint)),
        name::id(entry)
    )
}

fn follows(flags: &[Flag]) -> String {
    match flags {
        [] => String::new(),
        flags => format!("\n{}", block(flags)),
    }
}
