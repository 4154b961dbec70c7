//! A specification as somebody says it, and what is wrong with that.

use crate::Validator;
use clampbook_book::bounds;
use clampbook_book::bounds::MOST_STEPS;
use clampbook_book::fact::{SpecificationStated, SpecifiedStep};
use clampbook_book::ids::SpecificationId;
use clampbook_engine::Purpose;

/// A specification as said, not yet looked at.
#[derive(Clone, Debug, Default)]
pub struct SaidSpecification<'a> {
    /// Name for people.
    pub display_name: &'a str,
    /// Thread that it is for.
    pub thread: &'a str,
    /// Grade that it is for.
    pub grade: &'a str,
    /// Lubrication that it is for.
    pub lubrication: &'a str,
    /// Purpose that it is for; clamping when nothing is said.
    pub purpose: Option<Purpose>,
    /// Its steps.
    pub steps: Vec<SaidStep<'a>>,
    /// Minimum torque allowed, with its unit.
    pub minimum_torque: &'a str,
    /// Maximum torque allowed, with its unit.
    pub maximum_torque: &'a str,
    /// Where it is printed.
    pub citation: &'a str,
    /// Whether somebody looked at its unit.
    pub unit_confirmed: bool,
    /// Anything else.
    pub note: &'a str,
}

/// A step as said.
#[derive(Clone, Copy, Debug)]
pub enum SaidStep<'a> {
    /// A torque with its unit; empty when nothing was said.
    Torque(&'a str),
    /// An angle in degrees.
    TurnDegrees(f64),
}

impl Validator {
    /// Takes a specification.
    pub fn specification(
        &mut self,
        id: Option<SpecificationId>,
        said: &SaidSpecification<'_>,
    ) -> Option<SpecificationStated> {
        let display_name = self.required_text(
            "specification.display_name",
            said.display_name,
            bounds::DISPLAY_NAME,
        );
        let thread = self.required_text("specification.thread", said.thread, bounds::DESIGNATION);
        let grade = self.text("specification.grade", said.grade, bounds::DESIGNATION);
        let lubrication = self.text(
            "specification.lubrication",
            said.lubrication,
            bounds::DESIGNATION,
        );
        let steps = self.steps(&said.steps);
        let minimum = self.torque("specification.minimum_torque", said.minimum_torque);
        let maximum = self.torque("specification.maximum_torque", said.maximum_torque);
        let citation =
            self.required_text("specification.citation", said.citation, bounds::SENTENCE);
        let note = self.text("specification.note", said.note, bounds::NOTE);
        Some(SpecificationStated {
            specification: id?,
            // Which revision it is, is decided where it is written.
            revision: 0,
            display_name,
            thread,
            grade,
            lubrication,
            purpose: said.purpose.unwrap_or_default().id().into(),
            steps: steps?,
            minimum,
            maximum,
            citation,
            unit_confirmed: said.unit_confirmed,
            note,
        })
    }

    fn steps(&mut self, steps: &[SaidStep<'_>]) -> Option<Vec<SpecifiedStep>> {
        if steps.is_empty() || steps.len() > MOST_STEPS {
            let why = format!("has {} items; allowed are 1 to {MOST_STEPS}", steps.len());
            self.wrong("specification.steps", why);
            return None;
        }
        let read: Vec<_> = steps
            .iter()
            .enumerate()
            .map(|(i, step)| {
                let field = format!("specification.steps[{i}]");
                match step {
                    SaidStep::Torque(said) if said.trim().is_empty() => {
                        self.wrong(field, "says nothing; allowed is a torque or an angle");
                        None
                    }
                    SaidStep::Torque(said) => self
                        .torque(&format!("{field}.torque"), said)
                        .map(SpecifiedStep::Torque),
                    SaidStep::TurnDegrees(degrees) => Some(SpecifiedStep::TurnDegrees(*degrees)),
                }
            })
            .collect();
        read.into_iter().collect()
    }
}
