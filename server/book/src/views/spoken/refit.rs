//! What went back into a position, how tight, and what the record asked for.

use super::Spoken;
use super::fastener::in_full;
use super::told::{Told, place};
use crate::reason::shown;
use crate::record::fact::{FittedWith, PieceFitted, Refitted, Wanted, WantedByMaker};
use crate::record::words::Tightness;
use crate::views::sheet::COMPUTED;

impl Spoken for Refitted {
    fn text(&self) -> String {
        let part = match &self.new_part {
            Some(part) => format!("new in, {}", in_full(part)),
            None => "original in".to_owned(),
        };
        let tightness = match self.tightness {
            Tightness::Final => "at its final torque".to_owned(),
            loose => format!("{}, NOT TIGHT", loose.spoken()),
        };
        let told = Told::of(place(&self.joint, self.position))
            .say(part)
            .say(tightness)
            .torque("read", self.reading.as_ref())
            .named("with", &self.tool);
        let told = match self.with.as_deref() {
            Some(with) => beside(told, with),
            None => told,
        };
        let told = told.say(&self.note);
        let told = match &self.published {
            Some(maker) => asked_by_maker(told, maker, self),
            None => told,
        };
        match &self.wanted {
            Some(wanted) => asked(told, wanted, self),
            None => told,
        }
        .text()
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

fn asked_by_maker(told: Told, maker: &WantedByMaker, refit: &Refitted) -> Told {
    let torque = |nm| shown::asked(nm, refit.reading.as_ref());
    let of = &maker.followed;
    let from = format!("PUBLISHED, {} revision {}", of.specification, of.revision);
    let asked = match maker.torque_nm {
        Some(nm) => format!("{}, {from}", torque(nm)),
        None => format!("the steps that are {from}"),
    };
    told.named("the record asks for", asked)
        .value("minimum", maker.minimum_nm.map(torque))
        .value("maximum", maker.maximum_nm.map(torque))
}

fn asked(told: Told, wanted: &Wanted, refit: &Refitted) -> Told {
    let torque = shown::asked(wanted.torque_nm, refit.reading.as_ref());
    let loads = format!(
        "{:.1} to {:.1} kN",
        wanted.minimum_clamp_load_n / 1000.0,
        wanted.maximum_clamp_load_n / 1000.0
    );
    told.named("the record asks for", format!("{torque}, {COMPUTED}"))
        .named("clamp load", loads)
        .named("K", shown::nut_factor(wanted.nut_factor))
        .named("from", &wanted.own_tests)
        .named("catalogue", &wanted.catalog_edition)
}
