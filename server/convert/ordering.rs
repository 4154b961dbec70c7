//! `ordering.proto`: parts wanted, parts that arrived, the list of parts to order, and what waits.

use super::common;
use super::record::entry_name;
use super::words::Word;
use super::{Check, job::change};
use crate::app::Error;
use crate::app::job::Change;
use clampbook_api::v1 as wire;
use clampbook_book::bounds;
use clampbook_book::command::Command;
use clampbook_book::entry::Said;
use clampbook_book::fact::{PartArrived, PartWanted};
use clampbook_book::ids::{AssemblyId, EntryNumber, JobId, JointId};
use clampbook_book::orders::{Demand, Line, Wait};

/// Greatest number of one part.
const MOST: i32 = 1_000;

/// Logs that a part is wanted.
///
/// # Errors
/// All violations.
pub(crate) fn log_part_wanted(request: &wire::LogPartWantedRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("wanted", request.wanted.as_ref())
        .and_then(|said| wanted(&mut check, said))
        .map(|(job, wanted)| (job, Command::LogPartWanted(wanted)));
    change(check, request, parts)
}

/// Logs that a part arrived.
///
/// # Errors
/// All violations.
pub(crate) fn log_part_arrival(request: &wire::LogPartArrivalRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("arrival", request.arrival.as_ref())
        .and_then(|said| arrived(&mut check, said))
        .map(|(job, arrived)| (job, Command::LogPartArrival(arrived)));
    change(check, request, parts)
}

/// The wanted part a message describes.
pub(super) fn wanted(check: &mut Check, said: &wire::WantedPart) -> Option<(JobId, PartWanted)> {
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
pub(super) fn arrived(check: &mut Check, said: &wire::PartArrival) -> Option<(JobId, PartArrived)> {
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

impl Check {
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
pub(crate) fn part_wanted(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    wanted: &PartWanted,
) -> wire::WantedPart {
    wire::WantedPart {
        entry: entry_name(job, number),
        assembly: assembly_name(job, &wanted.assembly),
        joint: joint_name(job, wanted.joint.as_ref()),
        what: wanted.what.clone(),
        quantity: wanted.quantity.into(),
        why: wanted.why.clone(),
        part_number: wanted.part_number.clone(),
        note: wanted.note.clone(),
        said: Some(common::said(said)),
    }
}

/// An arrival as recorded.
pub(crate) fn part_arrival(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    arrived: &PartArrived,
) -> wire::PartArrival {
    wire::PartArrival {
        entry: entry_name(job, number),
        assembly: assembly_name(job, &arrived.assembly),
        what: arrived.what.clone(),
        quantity: arrived.quantity.into(),
        reference: arrived.reference.clone(),
        note: arrived.note.clone(),
        said: Some(common::said(said)),
    }
}

/// A line of the list on the wire.
pub(crate) fn line(job: &JobId, line: &Line) -> wire::PartToOrder {
    wire::PartToOrder {
        assembly: assembly_name(job, &line.assembly),
        what: line.what.clone(),
        part_number: line.part_number.clone(),
        wanted_count: int(line.wanted),
        arrived_count: int(line.arrived),
        waiting_count: int(line.waiting()),
        demands: line.demands.iter().map(|d| demand(job, d)).collect(),
        arrivals: (line.arrivals.iter())
            .map(|entry| entry_name(job, *entry))
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
        entry: entry_name(job, demand.entry),
        is_there: demand.is_there,
    }
}

/// A place that waits, on the wire.
pub(crate) fn wait(job: &JobId, wait: &Wait) -> wire::Wait {
    wire::Wait {
        assembly: assembly_name(job, &wait.assembly),
        joint: joint_name(job, wait.joint.as_ref()),
        position: wait.position.into(),
        waits_for: wait.waits_for.clone(),
        why: wait.why.clone(),
        entry: entry_name(job, wait.entry),
        on_hold: wait.on_hold,
    }
}

fn assembly_name(job: &JobId, assembly: &AssemblyId) -> String {
    format!("jobs/{job}/assemblies/{assembly}")
}

fn joint_name(job: &JobId, joint: Option<&JointId>) -> String {
    joint.map_or_else(String::new, |joint| format!("jobs/{job}/joints/{joint}"))
}

fn int(count: u32) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX)
}
