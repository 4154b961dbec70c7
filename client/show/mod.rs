//! Answers as people read them: one file per kind, each a pure function from message to text.

pub(crate) mod catalog;
pub(crate) mod flag;
pub(crate) mod identify;
pub(crate) mod job;
pub(crate) mod joint;
pub(crate) mod journal;
pub(crate) mod many;
pub(crate) mod parts;
pub(crate) mod procedure;
pub(crate) mod published;
pub(crate) mod published_rows;
mod quantity;
pub(crate) mod recorded;
pub(crate) mod strength;
pub(crate) mod stretch;
pub(crate) mod text;
pub(crate) mod torque;
pub(crate) mod wrench;

use clampbook_api::v1::{Basis, Check, Severity, Source};

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

/// A publication; with a word where the value was not simply read in it.
fn source(source: &Source) -> String {
    match source.basis() {
        Basis::Found | Basis::FoundAndComputed => source.citation.clone(),
        Basis::Memory => format!(
            "{} (FROM MEMORY, check before relying on it)",
            source.citation
        ),
        _ => format!("{} ({})", source.citation, Basis::said_of(source.basis)),
    }
}

/// Publications, one line for each thing they were used for.
fn sources(sources: &[Source]) -> String {
    let mut shown: Vec<(&str, String)> = Vec::new();
    for one in sources {
        match shown
            .iter_mut()
            .find(|(used_for, _)| *used_for == one.used_for)
        {
            Some((_, line)) => {
                line.push_str("; ");
                line.push_str(&source(one));
            }
            None => shown.push((&one.used_for, source(one))),
        }
    }
    let lines = shown.into_iter().map(|(used_for, line)| match used_for {
        "" => line,
        _ => format!("{used_for}: {line}"),
    });
    text::paragraphs("Sources", lines)
}

/// Publications of many rows, each once.
fn sources_once<'a>(sources: impl Iterator<Item = &'a Source>) -> String {
    let mut once: Vec<&Source> = Vec::new();
    for one in sources {
        let is_there = |known: &&Source| (&known.source, known.basis) == (&one.source, one.basis);
        if !once.iter().any(is_there) {
            once.push(one);
        }
    }
    text::paragraphs("Sources", once.into_iter().map(source))
}
