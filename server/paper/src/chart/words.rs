//! What the picture says in words.

use super::Picture;
use clampbook_engine::{Severity, show, units::Newtons};
use std::borrow::Cow;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

impl Picture<'_> {
    /// The worst check in words; of several as serious the one furthest beyond its limit.
    pub(super) fn worst(&self) -> String {
        let found = self.answer.findings.iter();
        let worst = found.max_by(|a, b| {
            let by_severity = a.severity.cmp(&b.severity);
            by_severity.then(a.share.total_cmp(&b.share))
        });
        match worst {
            None => "No check speaks against it.".to_owned(),
            Some(f) => {
                let word = match f.severity {
                    Severity::Stop => "STOP",
                    Severity::Caution => "CAUTION",
                    Severity::Note => "NOTE",
                };
                format!("{word}: {}", f.id.text())
            }
        }
    }

    pub(super) fn shown_load(&self, load: Newtons) -> String {
        show::load(load, self.unit)
    }

    pub(super) fn description(&self) -> String {
        let answer = self.answer;
        let yielding = answer
            .yield_load
            .map(|f| format!(", yield {}", self.shown_load(f)))
            .unwrap_or_default();
        let stands_for_proof = match answer.proof_load {
            Some(_) => "proof",
            None => "0.85 of yield for proof",
        };
        format!(
            "{}: {} makes a clamp load of {}, between {} and {}; {stands_for_proof} {}{yielding}. {}",
            self.title,
            show::torque(answer.torque, self.unit),
            self.shown_load(answer.clamp_load),
            self.shown_load(answer.scatter.minimum),
            self.shown_load(answer.scatter.maximum),
            self.shown_load(answer.working_load),
            self.worst()
        )
    }
}

/// A sentence in lines of at most so many letters, broken at blanks.
pub(super) fn lines_of(sentence: &str, letters: usize) -> Vec<Cow<'_, str>> {
    let at_blanks = Options::new(letters)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit)
        .break_words(false);
    textwrap::wrap(sentence, at_blanks)
}

pub(super) fn percent(share: f64) -> String {
    format!("{} %", show::figures(share * 100.0))
}
