//! Published specifications.

use super::Spoken;
use super::fastener::purpose;
use super::told::Told;
use crate::record::fact::{SpecificationStated, SpecificationWithdrawn, SpecifiedStep};

impl Spoken for SpecificationStated {
    fn text(&self) -> String {
        let for_what = match self.grade.as_str() {
            "" => self.thread.clone(),
            grade => format!("{}, {grade}", self.thread),
        };
        let lubrication = match self.lubrication.as_str() {
            "" => "not stated",
            stated => stated,
        };
        Told::of(format!("{} revision {}", self.specification, self.revision))
            .say(&self.display_name)
            .say(steps(&self.steps))
            .torque("minimum", self.minimum.as_ref())
            .torque("maximum", self.maximum.as_ref())
            .named("for", for_what)
            .named("lubrication", lubrication)
            .named("purpose", purpose(&self.purpose))
            .when(self.unit_confirmed, "unit looked at again and as published")
            .say(&self.note)
            .named("see", &self.citation)
            .text()
    }
}

impl Spoken for SpecificationWithdrawn {
    fn text(&self) -> String {
        Told::of(format!("{} WITHDRAWN", self.specification))
            .say(&self.reason)
            .text()
    }
}

/// The steps as they are printed.
fn steps(steps: &[SpecifiedStep]) -> String {
    let said = steps.iter().map(|step| match step {
        SpecifiedStep::Torque(torque) => torque.said.clone(),
        SpecifiedStep::TurnDegrees(degrees) => format!("{degrees}° further"),
    });
    said.collect::<Vec<_>>().join(", then ")
}
