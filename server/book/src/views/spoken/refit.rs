//! What went back into a position.

use super::Spoken;
use super::fastener::in_full;
use super::tightening::with_torque;
use super::told::{Told, place};
use crate::record::fact::{FittedWith, PieceFitted, Refitted};

impl Spoken for Refitted {
    fn text(&self) -> String {
        let part = match &self.new_part {
            Some(part) => format!("new in, {}", in_full(part)),
            None if self.in_already => "in already".to_owned(),
            None => "original in".to_owned(),
        };
        let told = Told::of(place(&self.joint, self.position)).say(part);
        let told = match self.with.as_deref() {
            Some(with) => beside(told, with),
            None => told,
        };
        let told = match self.tightness {
            Some(tightness) => with_torque(told, tightness, &self.torque),
            None => told,
        };
        told.say(&self.note).text()
    }
}

/// What went in beside the fastener.
fn beside(told: Told, with: &FittedWith) -> Told {
    let pieces: Vec<_> = with.pieces.iter().map(piece).collect();
    told.when(with.as_it_came_out, "the rest as it came out")
        .named("with it", pieces.join(", "))
        .torque("lock nut turned at", with.prevailing_torque.as_ref())
}

fn piece(piece: &PieceFitted) -> String {
    let new = if piece.is_new { "new " } else { "" };
    let said = match piece.said.as_str() {
        "" => String::new(),
        said => format!(" ({said})"),
    };
    format!("{} x {new}{}{said}", piece.count, piece.what.spoken())
}
