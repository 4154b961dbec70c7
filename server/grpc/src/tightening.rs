//! Tightenings, and how tight a position is by the last one.

use crate::request::int;
use crate::words::Word;
use crate::{Validator, flag, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::command::Tightening;
use clampbook_book::entry::Said;
use clampbook_book::fact::{Tightened, TorqueRead};
use clampbook_book::ids::{EntryNumber, JobId, PositionNumber};
use clampbook_book::job::{Joint, Position};
use clampbook_book::shown;
use clampbook_book::spoken::Spoken;
use clampbook_book::words::Step;

/// Logs how far positions of one joint were tightened.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogTighteningRequest,
) -> Result<wire::LogTighteningResponse, Error> {
    let mut check = Validator::default();
    let joint = check.joint_name("joint", &request.joint);
    let positions: Vec<PositionNumber> = (request.positions.iter().enumerate())
        .filter_map(|(i, number)| check.position(&format!("positions[{i}]"), *number))
        .collect();
    let step = check.required_word("step", request.step);
    let reading = check.torque("torque_reading", &request.torque_reading);
    let tool = check.text("tool", &request.tool, bounds::SHORT);
    let note = check.text("note", &request.note, bounds::NOTE);
    let parts = joint.zip(step).map(|((job, joint), step)| {
        let asked = Tightening {
            joint,
            positions,
            step,
            reading,
            tool,
            note,
        };
        (job, asked)
    });
    let change = check.change(&request, parts)?;
    let job = change.job.clone();
    let logged = call.log_tightening(change).await?;
    Ok(wire::LogTighteningResponse {
        tightenings: logged
            .tightenings
            .iter()
            .map(|one| tightening(&job, one.entry, &one.said, &one.fact))
            .collect(),
        flags: flag::flags(&job, &logged.flags),
    })
}

/// The tightening a message describes.
pub(crate) fn tightened(
    check: &mut Validator,
    said: &wire::Tightening,
) -> Option<(JobId, Tightened)> {
    let joint = check.joint_name("tightening.joint", &said.joint);
    let position = check.position("tightening.position", said.position);
    let step = check.required_word("tightening.step", said.step);
    let reading = check.torque("tightening.torque_reading", &said.torque_reading);
    let tool = check.text("tightening.tool", &said.tool, bounds::SHORT);
    let note = check.text("tightening.note", &said.note, bounds::NOTE);
    let (job, joint) = joint?;
    let tightened = Tightened {
        joint,
        position: position?,
        step: step?,
        note,
        torque: TorqueRead {
            reading,
            tool,
            ..TorqueRead::default()
        },
    };
    Some((job, tightened))
}

/// How a position was last tightened; nothing while its fastener is in by hand.
pub(crate) fn standing(
    job: &JobId,
    joint: &Joint,
    position: &Position,
) -> Option<wire::Tightening> {
    let tight = position.tight()?;
    let step = Step::ALL
        .iter()
        .find(|step| step.tightness() == tight.tightness)?;
    let tightened = Tightened {
        joint: joint.fact.joint.clone(),
        position: position.number,
        step: *step,
        note: tight.note.to_owned(),
        torque: tight.torque.clone(),
    };
    let record = tight.record;
    Some(tightening(job, record.entry, &record.said, &tightened))
}

/// A tightening as recorded.
fn tightening(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    tightened: &Tightened,
) -> wire::Tightening {
    let torque = &tightened.torque;
    let reading = torque.reading.as_ref();
    let wanted = torque.wanted_nm();
    let followed = torque
        .published
        .as_ref()
        .map(|published| &published.followed);
    wire::Tightening {
        entry: names::entry(job, number),
        joint: names::joint(job, &tightened.joint),
        position: tightened.position.into(),
        step: tightened.step.number(),
        torque_reading: reading.map(|read| read.said.clone()).unwrap_or_default(),
        torque_reading_nm: reading.map(|read| read.nm),
        tool: torque.tool.clone(),
        note: tightened.note.clone(),
        wanted_torque_nm: wanted,
        wanted_torque_text: wanted
            .map(|nm| shown::asked(nm, torque))
            .unwrap_or_default(),
        catalog_edition: torque
            .wanted
            .as_ref()
            .map(|wanted| wanted.catalog_edition.clone())
            .unwrap_or_default(),
        specification: followed
            .map(|followed| names::specification(&followed.specification))
            .unwrap_or_default(),
        specification_revision: followed.map_or(0, |followed| int(followed.revision)),
        said: Some(request::said(said)),
        text: tightened.text(),
    }
}
