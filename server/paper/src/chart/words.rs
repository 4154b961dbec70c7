//! What the picture says in words.

use super::Picture;
use clampbook_engine::{
    Severity,
    quantity::{show_torque, three_figures},
};

impl Picture<'_> {
    pub(super) fn worst(&self) -> String {
        let stops = self.answer.findings.iter();
        let worst = stops.max_by_key(|f| f.severity);
        match worst {
            None => "No check speaks against it.".to_owned(),
            Some(f) => {
                let word = match f.severity {
                    Severity::Stop => "STOP",
                    Severity::Caution => "CAUTION",
                    Severity::Note => "NOTE",
                };
                format!("{word}: {}", f.id.id().replace('-', " "))
            }
        }
    }

    pub(super) fn description(&self) -> String {
        let answer = self.answer;
        let yielding = answer
            .yield_load
            .map(|f| format!(", yield {}", self.load.show(f)))
            .unwrap_or_default();
        let stands_for_proof = match answer.proof_load {
            Some(_) => "proof",
            None => "0.85 of yield for proof",
        };
        format!(
            "{}: {} makes a clamp load of {}, between {} and {}; {stands_for_proof} {}{yielding}. {}",
            self.title,
            show_torque(answer.torque, self.unit),
            self.load.show(answer.clamp_load),
            self.load.show(answer.scatter.least),
            self.load.show(answer.scatter.greatest),
            self.load.show(answer.working_load),
            self.worst()
        )
    }
}

pub(super) fn percent(share: f64) -> String {
    format!("{} %", three_figures(share * 100.0).trim_end_matches(".0"))
}
