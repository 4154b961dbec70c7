//! Lubrications of the shop's own.

use super::Spoken;
use super::told::Told;
use crate::record::fact::{LubricationStated, LubricationWithdrawn};

impl Spoken for LubricationStated {
    fn text(&self) -> String {
        let (low, high) = (self.low_nut_factor, self.high_nut_factor);
        let lubricated = match self.lubricated {
            true => "thread and turned face lubricated",
            false => "not lubricated",
        };
        let tests = format!(
            "{} tests by {} on {}",
            self.test_count, self.tested_by, self.tested_on
        );
        Told::of(format!("{} revision {}", self.lubrication, self.revision))
            .say(&self.display_name)
            .say(format!("K {}, tests {low} to {high}", self.nut_factor))
            .say(lubricated)
            .say(tests)
            .say(&self.tested)
            .say(&self.note)
            .text()
    }
}

impl Spoken for LubricationWithdrawn {
    fn text(&self) -> String {
        Told::of(format!("{} WITHDRAWN", self.lubrication))
            .say(&self.reason)
            .text()
    }
}
