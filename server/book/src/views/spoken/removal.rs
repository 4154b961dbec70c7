//! How a fastener came out.

use super::Spoken;
use super::told::{Told, place};
use crate::record::fact::{Assembled, LengthSeen, Mark, PartSeen, Removed, Stacked};
use crate::record::words::{Method, Tick};

impl Spoken for Removed {
    fn text(&self) -> String {
        let ticks: Vec<_> = self.ticks.iter().copied().map(Tick::spoken).collect();
        let methods: Vec<_> = self.methods.iter().copied().map(Method::spoken).collect();
        let length = match &self.length {
            Some(LengthSeen::Measured(length)) => length.said.as_str(),
            Some(LengthSeen::Compared(word)) => word.spoken(),
            None => "",
        };
        let told = Told::of(place(&self.joint, self.position))
            .say(format!("came out {}", self.outcome.spoken()))
            .say(ticks.join(", "))
            .named("by", methods.join(", "))
            .value("heated", self.heat_colour.map(|colour| colour.spoken()))
            .named("heated at", &self.heated_place)
            .named("thread", &self.thread)
            .named("length", length)
            .named("head marking", &self.head_marking)
            .named("grade", &self.grade)
            .torque("broke loose at", self.breakaway.as_ref());
        let told = match &self.assembled {
            Some(assembled) => built(told, assembled),
            None => told,
        };
        told.named("kept in", &self.kept_in).say(&self.note).text()
    }
}

fn built(told: Told, assembled: &Assembled) -> Told {
    let marks: Vec<_> = assembled.marks.iter().map(Mark::spoken).collect();
    let stack: Vec<_> = assembled.stack.iter().map(Stacked::spoken).collect();
    let parts: Vec<_> = assembled.parts.iter().map(PartSeen::spoken).collect();
    told.named("marked", marks.join(", "))
        .named("stack", stack.join(", "))
        .named("with", parts.join(", "))
}
