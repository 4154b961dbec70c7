//! `finding.proto`: what was found on parts, and what was seen on the other side.

use super::common;
use super::record::entry_name;
use super::words::Word;
use super::{Check, job::change};
use clampbook_api::v1 as wire;
use clampbook_app::Error;
use clampbook_app::job::Change;
use clampbook_book::bounds;
use clampbook_book::command::Command;
use clampbook_book::entry::Said;
use clampbook_book::fact::{CounterpartAnswered, PartFound, Shown};
use clampbook_book::findings::Finding;
use clampbook_book::ids::{EntryNumber, JobId};
use wire::counterpart_answer::Shown as WireShown;

/// Logs a finding.
///
/// # Errors
/// All violations.
pub(crate) fn log_finding(request: &wire::LogFindingRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("finding", request.finding.as_ref())
        .and_then(|finding| found(&mut check, "finding", finding))
        .map(|(job, found)| (job, Command::LogFinding(found)));
    change(check, request, parts)
}

/// Answers what a finding asks about the other side.
///
/// # Errors
/// All violations.
pub(crate) fn answer_counterpart(
    request: &wire::AnswerCounterpartRequest,
) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("answer", request.answer.as_ref())
        .and_then(|answer| answered(&mut check, "answer", answer))
        .map(|(job, answered)| (job, Command::AnswerCounterpart(answered)));
    change(check, request, parts)
}

/// The finding a message describes, under the path of its field.
pub(super) fn found(
    check: &mut Check,
    path: &str,
    finding: &wire::Finding,
) -> Option<(JobId, PartFound)> {
    let field = |name: &str| format!("{path}.{name}");
    let assembly = check.assembly_name(&field("assembly"), &finding.assembly);
    let joint = check.own_joint(
        &field("joint"),
        &finding.joint,
        assembly.as_ref().map(|(job, _)| job),
    );
    let part = check.required_text(&field("part"), &finding.part, bounds::SHORT);
    let fault = check.required_word(&field("kind"), finding.kind);
    let verdict = check.required_word(&field("severity"), finding.severity);
    let criticality = check.word(&field("criticality"), finding.criticality);
    if finding.joint.is_empty() && finding.criticality == 0 {
        check.wrong(
            field("criticality"),
            "is required without a joint: A, B or C",
        );
    }
    let cause = check.text(&field("cause"), &finding.cause, bounds::SENTENCE);
    let reading = check.text(&field("reading"), &finding.reading, bounds::SENTENCE);
    let note = check.text(&field("note"), &finding.note, bounds::NOTE);
    let (job, assembly) = assembly?;
    Some((
        job,
        PartFound {
            assembly,
            joint,
            part,
            fault: fault?,
            verdict: verdict?,
            criticality,
            cause,
            reading,
            note,
        },
    ))
}

/// The answer a message describes, under the path of its field.
pub(super) fn answered(
    check: &mut Check,
    path: &str,
    answer: &wire::CounterpartAnswer,
) -> Option<(JobId, CounterpartAnswered)> {
    let field = |name: &str| format!("{path}.{name}");
    let finding = check.entry_name(&field("finding"), &answer.finding);
    let shown = match &answer.shown {
        Some(WireShown::Reading(said)) => Some(Shown::Reading(check.required_text(
            &field("reading"),
            said,
            bounds::SENTENCE,
        ))),
        Some(WireShown::Photo(said)) => Some(Shown::Photo(check.required_text(
            &field("photo"),
            said,
            bounds::SENTENCE,
        ))),
        Some(WireShown::NoSuchPartSays(said)) => Some(Shown::NoSuchPart(check.required_text(
            &field("no_such_part_says"),
            said,
            bounds::SHORT,
        ))),
        Some(WireShown::AddedPhoto(name)) => check
            .entry_name(&field("added_photo"), name)
            .map(|photo| own_photo(check, &field("added_photo"), photo, finding.as_ref())),
        None => {
            check.wrong(
                field("reading"),
                "is required, or a photo, or who says that there is no such part",
            );
            None
        }
    };
    let note = check.text(&field("note"), &answer.note, bounds::NOTE);
    let (job, finding) = finding?;
    Some((
        job,
        CounterpartAnswered {
            finding,
            shown: shown?,
            note,
        },
    ))
}

/// A photo of the job that the finding belongs to.
fn own_photo(
    check: &mut Check,
    field: &str,
    (owner, photo): (JobId, EntryNumber),
    finding: Option<&(JobId, EntryNumber)>,
) -> Shown {
    if finding.is_some_and(|(job, _)| *job != owner) {
        check.wrong(field, "belongs to another job");
    }
    Shown::AddedPhoto(photo)
}

/// A finding that stands, with its answer.
pub(super) fn standing(job: &JobId, standing: &Finding) -> wire::Finding {
    let answer = standing.answer.as_ref();
    wire::Finding {
        counterpart_answer: answer.map(|a| self::answer(job, a.entry, &a.said, &a.answered)),
        ..finding(job, standing.entry, &standing.said, &standing.found)
    }
}

/// A finding as recorded.
pub(crate) fn finding(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    found: &PartFound,
) -> wire::Finding {
    wire::Finding {
        entry: entry_name(job, number),
        assembly: format!("jobs/{job}/assemblies/{}", found.assembly),
        joint: found
            .joint
            .as_ref()
            .map(|joint| format!("jobs/{job}/joints/{joint}"))
            .unwrap_or_default(),
        part: found.part.clone(),
        kind: found.fault.number(),
        severity: found.verdict.number(),
        criticality: found.criticality.map(Word::number).unwrap_or_default(),
        cause: found.cause.clone(),
        reading: found.reading.clone(),
        note: found.note.clone(),
        said: Some(common::said(said)),
        counterpart_answer: None,
    }
}

/// An answer as recorded.
pub(crate) fn answer(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    answered: &CounterpartAnswered,
) -> wire::CounterpartAnswer {
    let shown = match &answered.shown {
        Shown::Reading(said) => WireShown::Reading(said.clone()),
        Shown::Photo(said) => WireShown::Photo(said.clone()),
        Shown::AddedPhoto(photo) => WireShown::AddedPhoto(entry_name(job, *photo)),
        Shown::NoSuchPart(who) => WireShown::NoSuchPartSays(who.clone()),
    };
    wire::CounterpartAnswer {
        entry: entry_name(job, number),
        finding: entry_name(job, answered.finding),
        shown: Some(shown),
        note: answered.note.clone(),
        said: Some(common::said(said)),
    }
}
