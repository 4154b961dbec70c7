//! `published.proto` and its requests.

use super::words::Word;
use super::{Check, catalog};
use crate::app::Error;
use clampbook_api::v1 as wire;
use clampbook_book::refusal::Violation;
use clampbook_engine::published::{Published, PublishedAsk, Reading, Restated, UnitCheck};
use clampbook_engine::quantity::{Torque, TorqueUnit};
use clampbook_engine::{Caution, Purpose, show};

/// The question of a request, and what was found wrong with it so far; what is wrong with the rest, the engine says.
///
/// # Errors
/// Never, as long as the stand-in for an unreadable torque can be read.
pub(crate) fn ask(
    request: &wire::RestateTorqueRequest,
) -> Result<(PublishedAsk<'_>, Vec<Violation>), Error> {
    let mut check = Check::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    let _ = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let torque = check.torque_or_stand_in("torque", &request.torque)?;
    let ask = PublishedAsk {
        thread: &request.thread,
        grade: &request.grade,
        torque,
        published_condition: &request.published_condition,
        condition: &request.condition,
        flat_seats: request.flat_seats,
        purpose: purpose.unwrap_or_default(),
        unit_is_confirmed: request.unit_confirmed,
    };
    Ok((ask, check.into_violations()))
}

/// The unit of the answer's texts: the one asked for, else that of the published torque.
pub(crate) fn unit_of(request: &wire::RestateTorqueRequest, ask: &PublishedAsk<'_>) -> TorqueUnit {
    TorqueUnit::from_wire(request.torque_unit()).unwrap_or(ask.torque.unit)
}

/// Stands in for a torque that cannot be read, which is found wrong, so that the rest is judged too.
const UNREAD: &str = "1 N·m";

impl Check {
    /// Takes a torque that must be said; what stands in for one that is found wrong lets the rest be judged too.
    ///
    /// # Errors
    /// Never, as long as what stands in can be read.
    pub(super) fn torque_or_stand_in(&mut self, field: &str, said: &str) -> Result<Torque, Error> {
        match self.torque_as_said(field, said) {
            Some(torque) => Ok(torque),
            None => Torque::parse(UNREAD).map_err(|why| Error::broken(&why)),
        }
    }

    /// Takes a torque that must be said, with number and unit kept as said.
    pub(super) fn torque_as_said(&mut self, field: &str, said: &str) -> Option<Torque> {
        if said.trim().is_empty() {
            self.wrong(field, "is required and was not given");
            return None;
        }
        // The common check says what is wrong; what passes it can be read.
        self.torque(field, said)?;
        Torque::parse(said).ok()
    }
}

const SHORT_FORM: &str = "T2 = T1 K2/K1 at the same clamp load: flat seats, nut or head turned freely, no run-on torque.";
const UNIT_NOT_CHECKED: &str =
    "No grade was said, so whether the unit is believable was not checked.";
const NOT_PUBLISHED: &str =
    "Restated, not published: with the lubrication it is published for, the published value wins.";
const ASK_UNIT: &str = "The published torque would make a clamp load that is not believable: look again which unit it is in, then say so.";
const CONFIRMED: &str =
    "The clamp load is not believable by the proof load; the unit was said to be looked at.";

/// The answer on the wire.
pub(crate) fn answer(found: &Published<'_>, unit: TorqueUnit) -> wire::RestateTorqueResponse {
    let mut assumptions = vec![SHORT_FORM];
    let mut cautions = Vec::new();
    let (unit_check, readings) = match found.unit {
        UnitCheck::NotChecked => {
            assumptions.push(UNIT_NOT_CHECKED);
            (wire::UnitCheck::Unspecified, Vec::new())
        }
        UnitCheck::Believable => (wire::UnitCheck::Believable, Vec::new()),
        UnitCheck::Ask { readings } => {
            cautions.push(ASK_UNIT);
            {
                let read = |one| reading(one, found.torque.entered);
                (wire::UnitCheck::Ask, readings.iter().map(read).collect())
            }
        }
        UnitCheck::Confirmed => {
            cautions.push(CONFIRMED);
            (wire::UnitCheck::Confirmed, Vec::new())
        }
    };
    if found.restated.is_some() {
        cautions.push(NOT_PUBLISHED);
    }
    if found.uses_memory() {
        cautions.push(Caution::FromMemory.text());
    }
    wire::RestateTorqueResponse {
        torque_nm: found.torque.torque.get(),
        clamp_load_n: found.clamp_load.get(),
        share_of_proof: found.share_of_proof,
        unit_check: unit_check.into(),
        readings,
        restated: found
            .restated
            .as_ref()
            .map(|restated| self::restated(restated, unit)),
        sources: found.sources.iter().map(|c| catalog::cited(&c)).collect(),
        assumptions: assumptions.into_iter().map(Into::into).collect(),
        cautions: cautions.into_iter().map(Into::into).collect(),
        thread: found.thread.to_string(),
        published_condition: found.published_condition.name().into(),
        torque_text: show::entered(&found.torque),
        clamp_load_text: show::load(found.clamp_load, unit),
    }
}

/// A restated torque on the wire.
pub(super) fn restated(restated: &Restated<'_>, unit: TorqueUnit) -> wire::RestatedTorque {
    wire::RestatedTorque {
        torque_nm: restated.torque.get(),
        condition: restated.condition.name().into(),
        ratio: restated.ratio,
        least_clamp_load_n: restated.least.get(),
        greatest_clamp_load_n: restated.greatest.get(),
        torque_text: show::torque(restated.torque, unit),
        clamp_load_text: show::load_range(restated.least, restated.greatest, unit),
    }
}

fn reading(reading: Reading, entered: f64) -> wire::UnitReading {
    wire::UnitReading {
        unit: reading.unit.number(),
        torque_nm: reading.torque.get(),
        share_of_proof: reading.share_of_proof,
        factor: reading.factor,
        torque_text: show::entered(&Torque {
            torque: reading.torque,
            entered,
            unit: reading.unit,
        }),
    }
}

/// The engine's unit for a request's; newton metres when none is said.
pub(super) fn unit(check: &mut Check, field: &str, number: i32) -> TorqueUnit {
    check
        .word::<TorqueUnit>(field, number)
        .unwrap_or(TorqueUnit::NewtonMetre)
}
