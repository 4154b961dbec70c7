//! How what is in was tightened, and what the record asked for.

use super::Spoken;
use super::told::{Told, place};
use crate::reason::shown;
use crate::record::fact::{Tightened, TorqueRead, Wanted, WantedByMaker};
use crate::record::words::Tightness;
use crate::views::sheet::COMPUTED;

impl Spoken for Tightened {
    fn text(&self) -> String {
        let told = Told::of(place(&self.joint, self.position));
        with_torque(told, self.step.tightness(), &self.torque)
            .say(&self.note)
            .text()
    }
}

/// How tight something is, what was read and what was asked for.
pub(super) fn with_torque(told: Told, tightness: Tightness, torque: &TorqueRead) -> Told {
    let tight = match tightness {
        Tightness::Final => "at its final torque".to_owned(),
        loose => format!("{}, NOT TIGHT", loose.spoken()),
    };
    let told = told
        .say(tight)
        .torque("read", torque.reading.as_ref())
        .named("with", &torque.tool);
    let told = match &torque.published {
        Some(maker) => asked_by_maker(told, maker, torque),
        None => told,
    };
    match &torque.wanted {
        Some(wanted) => asked(told, wanted, torque),
        None => told,
    }
}

fn asked_by_maker(told: Told, maker: &WantedByMaker, read: &TorqueRead) -> Told {
    let torque = |nm| shown::asked(nm, read);
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

fn asked(told: Told, wanted: &Wanted, read: &TorqueRead) -> Told {
    let torque = shown::asked(wanted.torque_nm, read);
    let (minimum, maximum) = (wanted.minimum_clamp_load_n, wanted.maximum_clamp_load_n);
    told.named("the record asks for", format!("{torque}, {COMPUTED}"))
        .named("clamp load", shown::asked_loads(minimum, maximum, read))
        .named("K", shown::nut_factor(wanted.nut_factor))
        .named("from", &wanted.own_tests)
        .named("catalogue", &wanted.catalog_edition)
}
