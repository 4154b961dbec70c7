//! What was found on parts other than fasteners, and what the other side shows.

use super::Spoken;
use super::told::Told;
use crate::record::fact::{CounterpartAnswered, PartFound};

impl Spoken for PartFound {
    fn text(&self) -> String {
        let place = match &self.joint {
            Some(joint) => format!("{}, {joint}", self.assembly),
            None => self.assembly.to_string(),
        };
        Told::of(place).say(what(self)).text()
    }
}

impl Spoken for CounterpartAnswered {
    fn text(&self) -> String {
        format!("Finding {}, {}", self.finding, other_side(self))
    }
}

/// What was found, without its place.
pub(in crate::views) fn what(found: &PartFound) -> String {
    let (fault, verdict) = (found.kind.spoken(), found.severity.spoken());
    let class = found.criticality.map(|class| class.spoken());
    Told::of(&found.part)
        .say(format!("{fault}, {verdict}"))
        .value("class", class)
        .named("cause", &found.cause)
        .named("read", &found.reading)
        .say(&found.note)
        .text()
}

/// What the other side shows.
pub(in crate::views) fn other_side(answered: &CounterpartAnswered) -> String {
    Told::of("other side")
        .say(answered.shown.spoken())
        .say(&answered.note)
        .text()
}
