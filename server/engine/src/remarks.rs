//! What belongs to every computed number beside the number itself: findings, assumptions, cautions,
//! sources.

use crate::{
    answer::{CheckId, Severity},
    source::{Basis, Cited, Origin, Source, UsedFor},
};

/// One thing found, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// Stable id.
    pub id: &'static str,
    /// How serious.
    pub severity: Severity,
    /// Value over limit, 1 being at the limit.
    pub share: f64,
    /// One plain sentence.
    pub text: String,
}

/// Everything that goes along with computed numbers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remarks<'c> {
    /// What was found, in the order it was looked at.
    pub findings: Vec<Remark>,
    /// What was taken for granted.
    pub assumptions: Vec<&'static str>,
    /// What to be careful about.
    pub cautions: Vec<&'static str>,
    /// Where the values come from.
    pub sources: Vec<Cited<'c>>,
}

impl<'c> Remarks<'c> {
    pub(crate) fn find(&mut self, id: &'static str, severity: Severity, share: f64, text: String) {
        self.findings.push(Remark {
            id,
            severity,
            share,
            text,
        });
    }

    pub(crate) fn found(&mut self, id: CheckId, severity: Severity, share: f64) {
        self.find(id.id(), severity, share, id.text().to_owned());
    }

    pub(crate) fn assume(&mut self, text: &'static str) {
        if !self.assumptions.contains(&text) {
            self.assumptions.push(text);
        }
    }

    pub(crate) fn mind(&mut self, text: &'static str) {
        if !self.cautions.contains(&text) {
            self.cautions.push(text);
        }
    }

    /// What a row of the tables cites.
    pub(crate) fn cite_row(&mut self, origin: &'static Origin, used_for: UsedFor) {
        self.cite(origin.sources, used_for, origin.basis);
    }

    pub(crate) fn cite(&mut self, sources: &[&'c Source], used_for: UsedFor, basis: Basis) {
        for source in sources {
            let cited = Cited {
                source,
                used_for,
                basis,
            };
            if !self.sources.contains(&cited) {
                self.sources.push(cited);
            }
        }
        if basis == Basis::Memory {
            self.mind(crate::Caution::FromMemory.text());
        }
    }

    /// The most serious finding, if there is any.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|f| f.severity).max()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clampbook_data::cite;

    #[test]
    fn everything_is_said_once() {
        let mut list = Remarks::default();
        for _ in 0..2 {
            list.assume("one");
            list.assume("two");
            list.mind("three");
            list.mind("four");
            list.cite(
                &[cite::ISO_965_1, cite::ISO_4014],
                UsedFor::Rule,
                Basis::Found,
            );
            list.cite(&[cite::ISO_4014], UsedFor::Thread, Basis::Found);
        }
        assert_eq!(list.assumptions, ["one", "two"]);
        assert_eq!(list.cautions, ["three", "four"]);
        let cited: Vec<_> = (list.sources.iter())
            .map(|c| (c.source.id.as_ref(), c.used_for))
            .collect();
        assert_eq!(
            cited,
            [
                ("iso-965-1", UsedFor::Rule),
                ("iso-4014", UsedFor::Rule),
                ("iso-4014", UsedFor::Thread),
            ]
        );
    }

    #[test]
    fn what_is_from_memory_brings_its_caution() {
        let mut list = Remarks::default();
        list.cite(&[cite::ISO_4014], UsedFor::Rule, Basis::Found);
        assert_eq!(list.cautions, [""; 0]);
        list.cite(&[cite::ISO_4014], UsedFor::Rule, Basis::Memory);
        assert_eq!(list.cautions, [crate::Caution::FromMemory.text()]);
    }

    #[test]
    fn the_worst_finding_counts() {
        let mut list = Remarks::default();
        assert_eq!(list.worst(), None);
        list.found(CheckId::NominalAgainstProof, Severity::Caution, 0.95);
        list.find("other", Severity::Note, 1.0, String::new());
        assert_eq!(list.worst(), Some(Severity::Caution));
        assert_eq!(list.findings[0].id, "nominal-against-proof");
        assert_eq!(list.findings[0].share, 0.95);
    }
}
