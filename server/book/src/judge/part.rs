//! Logging that parts are wanted, and that they arrived.

use crate::judge::bounds::MOST_PARTS;
use crate::judge::refusal::{Refusal, Violation};
use crate::reason::orders;
use crate::record::context::Context;
use crate::record::fact::{Fact, PartArrived, PartWanted};
use crate::record::ids::EntryNumber;
use crate::record::job::Job;

/// Lines of a list that a refusal names; an answer must stay small.
const MOST_NAMED: usize = 10;

pub(super) fn want(job: &Job, wanted: &PartWanted) -> Result<Vec<Fact>, Refusal> {
    may_be_wanted(job, wanted)?;
    is_not_full(job)?;
    Ok(vec![Fact::PartWanted(wanted.clone())])
}

pub(super) fn arrive(
    job: &Job,
    arrived: &PartArrived,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    may_have_arrived(job, arrived, context)?;
    is_not_full(job)?;
    Ok(vec![Fact::PartArrived(arrived.clone())])
}

/// Whether a part may be said to be wanted.
pub(super) fn may_be_wanted(job: &Job, wanted: &PartWanted) -> Result<(), Refusal> {
    super::belongs(job, "wanted.joint", &wanted.assembly, wanted.joint.as_ref())
}

/// Whether a part may be said to have arrived: only what the assembly's list holds.
pub(super) fn may_have_arrived(
    job: &Job,
    arrived: &PartArrived,
    context: &Context<'_>,
) -> Result<(), Refusal> {
    super::belongs(job, "arrival.what", &arrived.assembly, None)?;
    if orders::line_called(job, &arrived.assembly, &arrived.what, context).is_some() {
        return Ok(());
    }
    let lines = orders::list(job, Some(&arrived.assembly), context);
    let allowed = match lines.as_slice() {
        [] => "nothing of this assembly is wanted; log what is wanted first".to_owned(),
        lines => {
            let names = lines
                .iter()
                .take(MOST_NAMED)
                .map(|line| format!("\"{}\"", line.what));
            let names: Vec<String> = names.collect();
            let more = match lines.len().saturating_sub(MOST_NAMED) {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            format!("allowed is what is on the list: {}{more}", names.join(", "))
        }
    };
    let wrong = format!("\"{}\" is not wanted; {allowed}", arrived.what);
    Err(Refusal::Invalid(vec![Violation::new(
        "arrival.what",
        wrong,
    )]))
}

/// Whether an entry is about parts and stands.
pub(super) fn is_of(job: &Job, entry: EntryNumber) -> bool {
    job.parts.wanted_by(entry).is_some() || job.parts.arrived_by(entry).is_some()
}

fn is_not_full(job: &Job) -> Result<(), Refusal> {
    if job.parts.len() < MOST_PARTS {
        return Ok(());
    }
    Err(Refusal::State {
        subject: format!("jobs/{}", job.id),
        explanation: format!("has {MOST_PARTS} entries about parts, the maximum for a job"),
    })
}
