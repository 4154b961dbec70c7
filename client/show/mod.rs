//! Answers as people read them: one file per kind, each a pure function from message to text.

pub(crate) mod catalog;
pub(crate) mod flag;
pub(crate) mod job;
pub(crate) mod joint;
pub(crate) mod journal;
mod quantity;
pub(crate) mod recorded;
pub(crate) mod text;
pub(crate) mod torque;

use clampbook_api::v1::{Severity, Source};

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

/// A publication and how the value was obtained from it.
fn source(source: &Source) -> String {
    use clampbook_api::v1::Basis;

    let how = match source.basis() {
        Basis::Memory => "FROM MEMORY, check before relying on it".to_owned(),
        _ => Basis::said_of(source.basis),
    };
    let used_for = match source.used_for.as_str() {
        "" => String::new(),
        what => format!("{what}: "),
    };
    format!("{used_for}{} ({how})", source.citation)
}
