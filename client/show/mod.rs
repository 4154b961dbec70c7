//! Answers as people read them: one file per kind, each a pure function from message to text.

pub(crate) mod catalog;
mod cite;
#[cfg(test)]
mod content;
pub(crate) mod effective;
pub(crate) mod flag;
pub(crate) mod identify;
pub(crate) mod job;
pub(crate) mod joint;
pub(crate) mod journal;
pub(crate) mod lubrications;
pub(crate) mod many;
pub(crate) mod ordering;
pub(crate) mod parts;
pub(crate) mod people;
pub(crate) mod photo;
pub(crate) mod procedure;
pub(crate) mod published;
pub(crate) mod published_rows;
pub(crate) mod recorded;
pub(crate) mod search;
pub(crate) mod specs;
pub(crate) mod strength;
pub(crate) mod stretch;
pub(crate) mod text;
pub(crate) mod torque;
pub(crate) mod wrench;

use clampbook_api::v1::{Check, Scatter, Severity};

use crate::args::Word;

/// A severity as a word of its own colour.
fn severity(number: i32) -> String {
    let word = Severity::said_of(number).to_uppercase();
    match Severity::try_from(number) {
        Ok(Severity::Stop) => text::stop(&word),
        Ok(Severity::Caution) => text::caution(&word),
        _ => word,
    }
}

/// What checks found, one line each.
fn checks(checks: &[Check]) -> String {
    let lines = checks
        .iter()
        .map(|check| format!("{} {}", severity(check.severity), check.text));
    text::paragraphs("Checks", lines)
}

/// What was taken for granted, in one paragraph; nothing when nothing was.
fn assumed(assumptions: &[String]) -> String {
    match assumptions {
        [] => String::new(),
        _ => text::paragraph("Assumed", &assumptions.join(" ")),
    }
}

/// What the clamp load may really be, where it is known.
fn scatter(scatter: Option<&Scatter>) -> String {
    scatter.map_or_else(String::new, |scatter| band(&scatter.text))
}

/// The band of the clamp load.
fn band(loads: &str) -> String {
    let said = format!("{loads} at this setting (wrench and friction).");
    text::paragraph("Scatter", &said)
}
