//! What a published torque implies, and the same for another lubricant.

use crate::words::Word;
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::published::{assumptions, cautions};
use clampbook_app::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::Purpose;
use clampbook_engine::published::{Published, PublishedAsk, Reading, Restated, UnitCheck};
use clampbook_engine::quantity::{Torque, TorqueUnit};

/// Examines a published torque and restates it.
pub(crate) fn restate(
    call: Call<'_>,
    request: wire::RestateTorqueRequest,
) -> Result<wire::RestateTorqueResponse, Error> {
    let (ask, found) = ask(&request)?;
    call.restate_torque(&ask, found, answer)
}

/// The question of a request, and what was found wrong with it so far; what is wrong with the rest, the engine says.
///
/// # Errors
/// Never, as long as the stand-in for an unreadable torque can be read.
fn ask(request: &wire::RestateTorqueRequest) -> Result<(PublishedAsk<'_>, Vec<Violation>), Error> {
    let mut check = Validator::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
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
fn answer(found: &Published<'_>) -> wire::RestateTorqueResponse {
    let (unit_check, readings) = match found.unit {
        UnitCheck::NotChecked => (wire::UnitCheck::Unspecified, Vec::new()),
        UnitCheck::Believable => (wire::UnitCheck::Believable, Vec::new()),
        UnitCheck::Ask { readings } => {
            (wire::UnitCheck::Ask, readings.iter().map(reading).collect())
        }
        UnitCheck::Confirmed => (wire::UnitCheck::Confirmed, Vec::new()),
    };
    wire::RestateTorqueResponse {
        torque_nm: found.torque.torque.get(),
        clamp_load_n: found.clamp_load.get(),
        share_of_proof: found.share_of_proof,
        unit_check: unit_check.into(),
        readings,
        restated: found.restated.as_ref().map(restated),
        sources: found.sources.iter().map(|c| catalogue::cited(&c)).collect(),
        assumptions: assumptions(found).into_iter().map(Into::into).collect(),
        cautions: cautions(found).into_iter().map(Into::into).collect(),
        thread: found.thread.to_string(),
        published_lubrication: found.published_lubrication.name().into(),
    }
}

/// A restated torque on the wire.
pub(crate) fn restated(restated: &Restated<'_>) -> wire::RestatedTorque {
    wire::RestatedTorque {
        torque_nm: restated.torque.get(),
        lubrication: restated.lubrication.name().into(),
        ratio: restated.ratio,
        minimum_clamp_load_n: restated.minimum.get(),
        maximum_clamp_load_n: restated.maximum.get(),
    }
}

fn reading(reading: Reading) -> wire::UnitReading {
    wire::UnitReading {
        unit: reading.unit.number(),
        torque_nm: reading.torque.get(),
        share_of_proof: reading.share_of_proof,
        factor: reading.factor,
    }
}

/// The engine's unit for a request's; newton metres when none is said.
pub(crate) fn unit(check: &mut Validator, field: &str, number: i32) -> TorqueUnit {
    check
        .word::<TorqueUnit>(field, number)
        .unwrap_or(TorqueUnit::NewtonMetre)
}
