//! What was decided for a fastener and its hole.

use super::Spoken;
use super::fastener::in_full;
use super::told::{Told, place};
use crate::record::fact::Decided;

impl Spoken for Decided {
    fn text(&self) -> String {
        let with = self.replacement.as_ref().map(in_full);
        let with = with.map(|part| format!(" with {part}")).unwrap_or_default();
        Told::of(place(&self.joint, self.position))
            .say(format!("{}{with}", self.kind.spoken()))
            .value("waits for", self.hold_reason.map(|what| what.spoken()))
            .named("by", &self.left_out_by)
            .value("hole", self.hole_check.map(|check| check.spoken()))
            .named("hole repaired with", &self.hole_repair)
            .named("grade shown", &self.grade_shown)
            .when(self.baking_shown, "baking shown")
            .named("see", &self.citation)
            .named("because", &self.reason)
            .text()
    }
}
