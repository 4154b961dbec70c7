//! What became of pieces that did not go back.

use super::Spoken;
use super::told::{Told, place};
use crate::record::fact::NotRefitted;

impl Spoken for NotRefitted {
    fn text(&self) -> String {
        let (what, became) = (self.what.spoken(), self.became.spoken());
        Told::of(place(&self.joint, self.position))
            .say(format!("{} x {what} {became}", self.count))
            .say(&self.why)
            .text()
    }
}
