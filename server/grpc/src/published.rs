//! What a published torque implies, and the same for another lubricant.

use crate::words::Word;
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::published::{assumptions, cautions};
use clampbook_app::{Call, Error};
use clampbook_book::answers;
use clampbook_book::refusal::Violation;
use clampbook_engine::published::{Published, PublishedAsk, Reading, Restated, UnitCheck};
use clampbook_engine::quantity::{Torque, TorqueUnit};
use clampbook_engine::{Purpose, show};

/// Examines a published torque and restates it.
pub(crate) fn restate(
    call: Call<'_>,
    request: wire::RestateTorqueRequest,
) -> Result<wire::RestateTorqueResponse, Error> {
    let (ask, found) = ask(&request)?;
    let unit = unit_of(&request, &ask);
    call.restate_torque(&ask, found, |found| answer(found, unit))
}

/// The question of a request, and what was found wrong with it so far; what is wrong with the rest, the engine says.
///
/// # Errors
/// Never, as long as the stand-in for an unreadable torque can be read.
fn ask(request: &wire::RestateTorqueRequest) -> Result<(PublishedAsk<'_>, Vec<Violation>), Error> {
    let mut check = Validator::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    let _ = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let torque = check.torque_or_stand_in("torque", &request.torque)?;
    let ask = PublishedAsk {
        thread: &request.thread,
        grade: &request.grade,
        torque,
        published_lubrication: &request.published_lubrication,
        lubrication: &request.lubrication,
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

impl Validator {
    /// Takes a torque that must be said; what stands in for one that is found wrong lets the rest be judged too.
    ///
    /// # Errors
    /// Never, as long as what stands in can be read.
    pub(crate) fn torque_or_stand_in(&mut self, field: &str, said: &str) -> Result<Torque, Error> {
        match self.torque_as_said(field, said) {
            Some(torque) => Ok(torque),
            None => Torque::parse(UNREAD).map_err(|why| Error::broken(&why)),
        }
    }

    /// Takes a torque that must be said, with number and unit kept as said.
    pub(crate) fn torque_as_said(&mut self, field: &str, said: &str) -> Option<Torque> {
        if said.trim().is_empty() {
            self.wrong(field, "is required");
            return None;
        }
        // The common check says what is wrong; what passes it can be read.
        self.torque(field, said)?;
        Torque::parse(said).ok()
    }
}

/// The answer on the wire.
fn answer(found: &Published<'_>, unit: TorqueUnit) -> wire::RestateTorqueResponse {
    let (unit_check, readings) = match found.unit {
        UnitCheck::NotChecked => (wire::UnitCheck::Unspecified, Vec::new()),
        UnitCheck::Believable => (wire::UnitCheck::Believable, Vec::new()),
        UnitCheck::Ask { readings } => {
            let read = |one| reading(one, found.torque.entered);
            (wire::UnitCheck::Ask, readings.iter().map(read).collect())
        }
        UnitCheck::Confirmed => (wire::UnitCheck::Confirmed, Vec::new()),
    };
    wire::RestateTorqueResponse {
        torque_nm: found.torque.torque.get(),
        clamp_load_n: found.clamp_load.get(),
        share_of_proof: found.share_of_proof,
        unit_check: unit_check.into(),
        readings,
        restated: (found.restated.as_ref()).map(|one| restated(one, unit)),
        sources: found.sources.iter().map(|c| catalogue::cited(&c)).collect(),
        assumptions: assumptions(found).into_iter().map(Into::into).collect(),
        cautions: cautions(found).into_iter().map(Into::into).collect(),
        thread: found.thread.to_string(),
        published_lubrication: found.published_lubrication.name().into(),
        torque_text: show::entered(&found.torque),
        clamp_load_text: show::load(found.clamp_load, unit),
        share_of_proof_text: found.share_of_proof.map(show::ratio).unwrap_or_default(),
    }
}

/// A restated torque on the wire.
pub(crate) fn restated(restated: &Restated<'_>, unit: TorqueUnit) -> wire::RestatedTorque {
    wire::RestatedTorque {
        torque_nm: restated.torque.get(),
        lubrication: restated.lubrication.name().into(),
        ratio: restated.ratio,
        ratio_text: show::ratio(restated.ratio),
        text: answers::restated(restated, unit),
        minimum_clamp_load_n: restated.minimum.get(),
        maximum_clamp_load_n: restated.maximum.get(),
        torque_text: show::torque(restated.torque, unit),
        clamp_load_text: show::load_range(restated.minimum, restated.maximum, unit),
    }
}

fn reading(reading: Reading, entered: f64) -> wire::UnitReading {
    wire::UnitReading {
        unit: reading.unit.number(),
        torque_nm: reading.torque.get(),
        share_of_proof: reading.share_of_proof,
        factor: reading.factor,
        share_of_proof_text: show::ratio(reading.share_of_proof),
        factor_text: show::figures(reading.factor),
        torque_text: show::entered(&Torque {
            torque: reading.torque,
            entered,
            unit: reading.unit,
        }),
    }
}
