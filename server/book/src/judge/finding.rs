//! Logging what was found on parts, and answering what that asks about the other side.

use super::photo;
use crate::judge::bounds::MOST_FINDINGS;
use crate::judge::command::Correction;
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::{CounterpartAnswered, Fact, PartFound, Shown};
use crate::record::findings::Finding;
use crate::record::ids::EntryNumber;
use crate::record::job::Job;

pub(super) fn log(job: &Job, found: &PartFound) -> Result<Vec<Fact>, Refusal> {
    super::belongs(job, "finding.joint", &found.assembly, found.joint.as_ref())?;
    if job.findings.len() >= MOST_FINDINGS {
        return Err(Refusal::State {
            subject: format!("jobs/{}", job.id),
            explanation: format!("has {MOST_FINDINGS} findings, the maximum for a job"),
        });
    }
    Ok(vec![Fact::PartFound(found.clone())])
}

pub(super) fn answer(job: &Job, answered: &CounterpartAnswered) -> Result<Vec<Fact>, Refusal> {
    let finding = job
        .findings
        .get(answered.finding)
        .ok_or_else(|| no_finding(job, answered.finding))?;
    if let Some(answer) = &finding.answer {
        return Err(Refusal::State {
            subject: name(job, finding.entry),
            explanation: format!(
                "was answered by entry {}; correct that entry instead of answering twice",
                answer.entry
            ),
        });
    }
    if job.other_side_of(finding).is_none() {
        return Err(Refusal::State {
            subject: name(job, finding.entry),
            explanation: "asks nothing about another side: only a class A or B part ruined by wear, heat or crack does, \
                          in an assembly that has a counterpart whose same part is not known to be ruined too"
                .into(),
        });
    }
    shows_it(job, answered, "answer.added_photo")?;
    Ok(vec![Fact::CounterpartAnswered(answered.clone())])
}

/// Whether an added photo, if that is what is shown, shows the other side.
fn shows_it(job: &Job, answered: &CounterpartAnswered, field: &str) -> Result<(), Refusal> {
    match answered.shown {
        Shown::AddedPhoto(photo) => photo::shows_other_side(job, answered.finding, photo, field),
        _ => Ok(()),
    }
}

/// Whether a finding may be corrected.
pub(super) fn restate(job: &Job, finding: &Finding, found: &PartFound) -> Result<(), Refusal> {
    super::belongs(job, "finding.joint", &found.assembly, found.joint.as_ref())?;
    if let Some(answer) = &finding.answer
        && !finding.is_about(found)
    {
        return Err(rests_on(job, finding.entry, answer.entry));
    }
    match job.answer_by_photo_of(finding.entry) {
        Some(answer) if found.assembly != finding.found.assembly => {
            Err(rests_on(job, finding.entry, answer))
        }
        _ => Ok(()),
    }
}

/// Whether an answer may be corrected.
pub(super) fn restate_answer(
    job: &Job,
    finding: &Finding,
    answered: &CounterpartAnswered,
) -> Result<(), Refusal> {
    if answered.finding == finding.entry {
        return shows_it(job, answered, "counterpart_answer.added_photo");
    }
    Err(Refusal::Invalid(vec![Violation::new(
        "counterpart_answer.finding",
        format!(
            "was entry {} and cannot be changed; withdraw the answer instead",
            finding.entry
        ),
    )]))
}

/// Whether the finding or answer of a correction may be withdrawn; nothing when it is neither.
pub(super) fn withdraw(job: &Job, correction: &Correction) -> Option<Result<(), Refusal>> {
    if job.findings.answered_by(correction.entry).is_some() {
        return Some(Ok(()));
    }
    let finding = job.findings.get(correction.entry)?;
    let answer = (finding.answer.as_ref().map(|answer| answer.entry))
        .or_else(|| job.answer_by_photo_of(finding.entry));
    Some(match answer {
        Some(answer) => Err(rests_on(job, finding.entry, answer)),
        None => Ok(()),
    })
}

pub(super) fn rests_on(job: &Job, entry: EntryNumber, answer: EntryNumber) -> Refusal {
    Refusal::State {
        subject: name(job, entry),
        explanation: format!(
            "entry {answer} is based on entry {entry}; withdraw entry {answer} first"
        ),
    }
}

pub(super) fn no_finding(job: &Job, entry: EntryNumber) -> Refusal {
    if entry == 0 || entry > job.last {
        return Refusal::NotFound {
            name: name(job, entry),
        };
    }
    Refusal::State {
        subject: name(job, entry),
        explanation: "is not a finding, or it was withdrawn".into(),
    }
}

fn name(job: &Job, entry: EntryNumber) -> String {
    format!("jobs/{}/entries/{entry}", job.id)
}
