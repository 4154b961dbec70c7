//! Parts to order, parts that arrive, and what waits.

use crate::page::{Sizes, of_list};
use crate::request::int;
use crate::words::Word;
use crate::{Validator, flag, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{PartArrived, PartWanted};
use clampbook_book::ids::{EntryNumber, JobId, JointId};
use clampbook_book::orders::{Demand, Line, Wait};
use clampbook_book::spoken::Spoken;

/// Maximum number of one part.
const MOST: i32 = 1_000;

const LINES: Sizes = Sizes {
    default: 100,
    most: 500,
};

/// The parts to order of a job or of one of its assemblies.
pub(crate) async fn list(
    call: Call<'_>,
    request: wire::ListPartsToOrderRequest,
) -> Result<wire::ListPartsToOrderResponse, Error> {
    let mut check = Validator::default();
    let scope = check.job_or_assembly_name("parent", &request.parent);
    let list = format!("ListPartsToOrder {}", request.parent);
    let page = check.numbered_page(&list, request.page_size, &request.page_token, LINES);
    let ((job, assembly), (size, after)) = check.finish(scope.zip(page))?;
    let lines = call.parts_to_order(&job, assembly).await?;
    let (lines, next_page_token) = of_list(&list, lines, size, after);
    Ok(wire::ListPartsToOrderResponse {
        parts: lines.iter().map(|l| line(&job, l)).collect(),
        next_page_token,
    })
}

/// What waits in a job or in one of its assemblies.
pub(crate) async fn waits(
    call: Call<'_>,
    request: wire::ListWaitsRequest,
) -> Result<wire::ListWaitsResponse, Error> {
    let mut check = Validator::default();
    let scope = check.job_or_assembly_name("parent", &request.parent);
    let list = format!("ListWaits {}", request.parent);
    let page = check.numbered_page(&list, request.page_size, &request.page_token, LINES);
    let ((job, assembly), (size, after)) = check.finish(scope.zip(page))?;
    let waits = call.waits(&job, assembly).await?;
    let (waits, next_page_token) = of_list(&list, waits, size, after);
    Ok(wire::ListWaitsResponse {
        waits: waits.iter().map(|w| wait(&job, w)).collect(),
        next_page_token,
    })
}

/// Logs that a part is wanted.
pub(crate) async fn log_wanted(
    call: Call<'_>,
    request: wire::LogPartWantedRequest,
) -> Result<wire::LogPartWantedResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("wanted", request.wanted.as_ref())
        .and_then(|said| wanted(&mut check, said));
    let logged = call.log_part_wanted(check.change(&request, parts)?).await?;
    let one = &logged.wanted;
    Ok(wire::LogPartWantedResponse {
        wanted: Some(part_wanted(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
    })
}

/// Logs that a part arrived.
pub(crate) async fn log_arrival(
    call: Call<'_>,
    request: wire::LogPartArrivalRequest,
) -> Result<wire::LogPartArrivalResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("arrival", request.arrival.as_ref())
        .and_then(|said| arrived(&mut check, said));
    let logged = call.log_part_arrival(check.change(&request, parts)?);
    let logged = logged.await?;
    let one = &logged.arrival;
    Ok(wire::LogPartArrivalResponse {
        arrival: Some(part_arrival(&one.job, one.entry, &one.said, &one.fact)),
        part: logged.line.as_ref().map(|found| line(&one.job, found)),
        flags: flag::flags(&one.job, &logged.flags),
    })
}

/// The wanted part a message describes.
pub(crate) fn wanted(
    check: &mut Validator,
    said: &wire::WantedPart,
) -> Option<(JobId, PartWanted)> {
    let ids = check.assembly_name("wanted.assembly", &said.assembly);
    let job = ids.as_ref().map(|(job, _)| job);
    let joint = check.own_joint("wanted.joint", &said.joint, job);
    let what = check.required_text("wanted.what", &said.what, bounds::SENTENCE);
    let quantity = check.quantity("wanted.quantity", said.quantity);
    let why = check.required_text("wanted.why", &said.why, bounds::SENTENCE);
    let part_number = check.text("wanted.part_number", &said.part_number, bounds::SHORT);
    let note = check.text("wanted.note", &said.note, bounds::NOTE);
    let (job, assembly) = ids?;
    let wanted = PartWanted {
        assembly,
        joint,
        what,
        quantity: quantity?,
        why,
        part_number,
        note,
    };
    Some((job, wanted))
}

/// The arrival a message describes.
pub(crate) fn arrived(
    check: &mut Validator,
    said: &wire::PartArrival,
) -> Option<(JobId, PartArrived)> {
    let ids = check.assembly_name("arrival.assembly", &said.assembly);
    let what = check.required_text("arrival.what", &said.what, bounds::SENTENCE);
    let quantity = check.quantity("arrival.quantity", said.quantity);
    let reference = check.text("arrival.reference", &said.reference, bounds::SHORT);
    let note = check.text("arrival.note", &said.note, bounds::NOTE);
    let (job, assembly) = ids?;
    let arrived = PartArrived {
        assembly,
        what,
        quantity: quantity?,
        reference,
        note,
    };
    Some((job, arrived))
}

impl Validator {
    /// Takes how many of a part.
    fn quantity(&mut self, field: &str, number: i32) -> Option<u16> {
        let quantity = u16::try_from(number)
            .ok()
            .filter(|_| (1..=MOST).contains(&number));
        if quantity.is_none() {
            let wrong = format!("{number} is not a number of parts; allowed are 1 to {MOST}");
            self.wrong(field, wrong);
        }
        quantity
    }
}

/// A wanted part as recorded.
fn part_wanted(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    wanted: &PartWanted,
) -> wire::WantedPart {
    wire::WantedPart {
        entry: names::entry(job, number),
        assembly: names::assembly(job, &wanted.assembly),
        joint: joint_name(job, wanted.joint.as_ref()),
        what: wanted.what.clone(),
        quantity: wanted.quantity.into(),
        why: wanted.why.clone(),
        part_number: wanted.part_number.clone(),
        note: wanted.note.clone(),
        said: Some(request::said(said)),
        text: wanted.text(),
    }
}

/// An arrival as recorded.
fn part_arrival(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    arrived: &PartArrived,
) -> wire::PartArrival {
    wire::PartArrival {
        entry: names::entry(job, number),
        assembly: names::assembly(job, &arrived.assembly),
        what: arrived.what.clone(),
        quantity: arrived.quantity.into(),
        reference: arrived.reference.clone(),
        note: arrived.note.clone(),
        said: Some(request::said(said)),
        text: arrived.text(),
    }
}

/// A line of the list on the wire.
fn line(job: &JobId, line: &Line) -> wire::PartToOrder {
    wire::PartToOrder {
        assembly: names::assembly(job, &line.assembly),
        what: line.what.clone(),
        part_number: line.part_number.clone(),
        wanted_count: int(line.wanted),
        arrived_count: int(line.arrived),
        waiting_count: int(line.waiting()),
        demands: line.demands.iter().map(|d| demand(job, d)).collect(),
        arrivals: (line.arrivals.iter())
            .map(|entry| names::entry(job, *entry))
            .collect(),
    }
}

fn demand(job: &JobId, demand: &Demand) -> wire::PartDemand {
    wire::PartDemand {
        kind: demand.by.number(),
        joint: joint_name(job, demand.joint.as_ref()),
        position: demand.position.into(),
        quantity: int(demand.quantity),
        why: demand.why.clone(),
        entry: names::entry(job, demand.entry),
        is_there: demand.is_there,
    }
}

/// A place that waits, on the wire.
fn wait(job: &JobId, wait: &Wait) -> wire::Wait {
    wire::Wait {
        assembly: names::assembly(job, &wait.assembly),
        joint: joint_name(job, wait.joint.as_ref()),
        position: wait.position.into(),
        hold_reason: wait.hold_reason.clone(),
        why: wait.why.clone(),
        entry: names::entry(job, wait.entry),
        on_hold: wait.on_hold,
    }
}

fn joint_name(job: &JobId, joint: Option<&JointId>) -> String {
    joint.map_or_else(String::new, |joint| names::joint(job, joint))
}
