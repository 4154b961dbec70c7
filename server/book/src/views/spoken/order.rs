//! Parts that are wanted, and parts that arrived.

use super::Spoken;
use super::told::Told;
use crate::record::fact::{PartArrived, PartWanted};

impl Spoken for PartWanted {
    fn text(&self) -> String {
        let place = match &self.joint {
            Some(joint) => format!("{}, {joint}", self.assembly),
            None => self.assembly.to_string(),
        };
        Told::of(place)
            .say(format!("{} x {} wanted", self.quantity, self.what))
            .named("no.", &self.part_number)
            .say(&self.why)
            .say(&self.note)
            .text()
    }
}

impl Spoken for PartArrived {
    fn text(&self) -> String {
        Told::of(self.assembly.to_string())
            .say(format!("{} x {} arrived", self.quantity, self.what))
            .say(&self.reference)
            .say(&self.note)
            .text()
    }
}
