//! Findings on parts other than fasteners, and what was seen on the other side.

use crate::words::Word;
use crate::{Validator, flag, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{CounterpartAnswered, PartFound, Shown};
use clampbook_book::findings::Finding;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::spoken::{self, Spoken};
use wire::counterpart_answer::Shown as WireShown;

/// Logs a finding.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogFindingRequest,
) -> Result<wire::LogFindingResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("finding", request.finding.as_ref())
        .and_then(|finding| found(&mut check, "finding", finding));
    let logged = call.log_finding(check.change(&request, parts)?).await?;
    let one = &logged.finding;
    Ok(wire::LogFindingResponse {
        finding: Some(finding(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
    })
}

/// Answers what a finding asks about the other side.
pub(crate) async fn answer(
    call: Call<'_>,
    request: wire::AnswerCounterpartRequest,
) -> Result<wire::AnswerCounterpartResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("answer", request.answer.as_ref())
        .and_then(|answer| answered(&mut check, "answer", answer));
    let logged = call.answer_counterpart(check.change(&request, parts)?);
    let logged = logged.await?;
    let one = &logged.answer;
    Ok(wire::AnswerCounterpartResponse {
        answer: Some(on_wire(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
    })
}

/// The finding a message describes, under the path of its field.
pub(crate) fn found(
    check: &mut Validator,
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
    let kind = check.required_word(&field("kind"), finding.kind);
    let severity = check.required_word(&field("severity"), finding.severity);
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
            kind: kind?,
            severity: severity?,
            criticality,
            cause,
            reading,
            note,
        },
    ))
}

/// The answer a message describes, under the path of its field.
pub(crate) fn answered(
    check: &mut Validator,
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
    check: &mut Validator,
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
pub(crate) fn standing(job: &JobId, standing: &Finding) -> wire::Finding {
    let answer = standing.answer.as_ref();
    wire::Finding {
        counterpart_answer: answer.map(|a| on_wire(job, a.entry, &a.said, &a.answered)),
        text: spoken::finding(standing),
        ..finding(job, standing.entry, &standing.said, &standing.found)
    }
}

/// A finding as recorded.
fn finding(job: &JobId, number: EntryNumber, said: &Said, found: &PartFound) -> wire::Finding {
    wire::Finding {
        entry: names::entry(job, number),
        assembly: names::assembly(job, &found.assembly),
        joint: found
            .joint
            .as_ref()
            .map(|joint| names::joint(job, joint))
            .unwrap_or_default(),
        part: found.part.clone(),
        kind: found.kind.number(),
        severity: found.severity.number(),
        criticality: found.criticality.map(Word::number).unwrap_or_default(),
        cause: found.cause.clone(),
        reading: found.reading.clone(),
        note: found.note.clone(),
        said: Some(request::said(said)),
        counterpart_answer: None,
        text: found.text(),
    }
}

/// An answer as recorded.
fn on_wire(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    answered: &CounterpartAnswered,
) -> wire::CounterpartAnswer {
    let shown = match &answered.shown {
        Shown::Reading(said) => WireShown::Reading(said.clone()),
        Shown::Photo(said) => WireShown::Photo(said.clone()),
        Shown::AddedPhoto(photo) => WireShown::AddedPhoto(names::entry(job, *photo)),
        Shown::NoSuchPart(who) => WireShown::NoSuchPartSays(who.clone()),
    };
    wire::CounterpartAnswer {
        entry: names::entry(job, number),
        finding: names::entry(job, answered.finding),
        shown: Some(shown),
        note: answered.note.clone(),
        said: Some(request::said(said)),
        text: answered.text(),
    }
}
