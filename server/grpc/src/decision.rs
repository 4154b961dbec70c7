//! Decisions on what came out.

use crate::replacement::{made_spec, new_part, spec};
use crate::words::Word;
use crate::{Validator, flag, replacement, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{Decided, FastenerSpec};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::spoken::Spoken;
use clampbook_book::words::{DecisionKind, HoleCheck};

/// Logs a decision.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogDecisionRequest,
) -> Result<wire::LogDecisionResponse, Error> {
    let mut check = Validator::default();
    let etag = check.etag(&request.etag);
    let parts = check
        .required("decision", request.decision.as_ref())
        .and_then(|decision| decided(&mut check, decision));
    let change = check.change(&request, parts)?;
    let logged = call.log_decision(change, etag).await?;
    let one = &logged.decision;
    Ok(wire::LogDecisionResponse {
        decision: Some(decision(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
        etag: logged.etag,
        checks: replacement::checks(&logged.checks),
    })
}

/// The decision a message describes: which of its fields go with what is decided.
pub(crate) fn decided(
    check: &mut Validator,
    decision: &wire::Decision,
) -> Option<(JobId, Decided)> {
    let joint = check.joint_name("decision.joint", &decision.joint);
    let position = check.position("decision.position", decision.position);
    let kind = check.required_word("decision.kind", decision.kind);
    let is = |wanted| kind == Some(wanted);
    let replacement = wanted_part(check, decision, kind);
    let hole_check = check.word("decision.hole_check", decision.hole_check);
    let grade_shown = check.text(
        "decision.grade_shown",
        &decision.grade_shown,
        bounds::DESIGNATION,
    );
    let citation = check.text("decision.citation", &decision.citation, bounds::SENTENCE);
    let made_of = replacement.as_ref().map_or("", |part| &part.grade);
    let shown = [
        (!grade_shown.is_empty(), "a grade shown"),
        (
            is(DecisionKind::Make) && !made_of.is_empty(),
            "the grade of a fastener that is made",
        ),
        (decision.baking_shown, "baking shown"),
    ];
    for (_, what) in shown
        .iter()
        .filter(|(said, _)| *said && citation.is_empty())
    {
        check.wrong(
            "decision.citation",
            format!("is required with {what}: say what shows it"),
        );
    }
    let reason = check.required_text("decision.reason", &decision.reason, bounds::NOTE);
    let hold_reason = check.word("decision.hold_reason", decision.hold_reason);
    if is(DecisionKind::Hold) && decision.hold_reason == 0 {
        check.wrong(
            "decision.hold_reason",
            "is required on hold: measuring, hardness, a crack test or a part",
        );
    } else if !is(DecisionKind::Hold) && hold_reason.is_some() {
        check.wrong("decision.hold_reason", "is for hold only; leave it out");
    }
    let hole_repair = check.text(
        "decision.hole_repair",
        &decision.hole_repair,
        bounds::SENTENCE,
    );
    if !hole_repair.is_empty() && hole_check != Some(HoleCheck::Repaired) {
        check.wrong(
            "decision.hole_repair",
            "is for a hole that was repaired only; say so in decision.hole_check",
        );
    }
    if decision.baking_shown && !is(DecisionKind::PlateAndBake) {
        check.wrong(
            "decision.baking_shown",
            "is for plate and bake only; leave it out",
        );
    }
    let left_out_by = left_out_by(check, decision, is(DecisionKind::LeaveOut));
    let (job, joint) = joint?;
    Some((
        job,
        Decided {
            joint,
            position: position?,
            kind: kind?,
            replacement,
            hole_check,
            grade_shown,
            citation,
            reason,
            hold_reason,
            hole_repair,
            baking_shown: decision.baking_shown,
            left_out_by,
        },
    ))
}

/// The new fastener: bought, or made, whose grade may be unknown.
fn wanted_part(
    check: &mut Validator,
    decision: &wire::Decision,
    kind: Option<DecisionKind>,
) -> Option<FastenerSpec> {
    const FIELD: &str = "decision.replacement";
    match (kind, &decision.replacement) {
        (Some(DecisionKind::Make), Some(part)) => made_spec(check, FIELD, part),
        (kind, part) => {
            let wanted = matches!(kind, Some(DecisionKind::Replace | DecisionKind::Make));
            new_part(check, FIELD, part.as_ref(), wanted)
        }
    }
}

/// Who decided that nothing goes back.
fn left_out_by(check: &mut Validator, decision: &wire::Decision, is_left_out: bool) -> String {
    const FIELD: &str = "decision.left_out_by";
    if is_left_out {
        return check.required_text(FIELD, &decision.left_out_by, bounds::SHORT);
    }
    let said = check.text(FIELD, &decision.left_out_by, bounds::SHORT);
    if !said.is_empty() {
        check.wrong(FIELD, "is only for leaving a fastener out; do not give it");
    }
    said
}

/// A decision as recorded.
pub(crate) fn decision(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    decided: &Decided,
) -> wire::Decision {
    wire::Decision {
        entry: names::entry(job, number),
        joint: names::joint(job, &decided.joint),
        position: decided.position.into(),
        kind: decided.kind.number(),
        replacement: decided.replacement.as_ref().map(spec),
        hole_check: decided.hole_check.map(Word::number).unwrap_or_default(),
        grade_shown: decided.grade_shown.clone(),
        citation: decided.citation.clone(),
        reason: decided.reason.clone(),
        said: Some(request::said(said)),
        hold_reason: decided.hold_reason.map(Word::number).unwrap_or_default(),
        hole_repair: decided.hole_repair.clone(),
        baking_shown: decided.baking_shown,
        left_out_by: decided.left_out_by.clone(),
        text: decided.text(),
    }
}
