//! A decision on what came out, read from the wire: which of its fields go with what is decided.

use crate::convert::Check;
use crate::convert::fitting::made_spec;
use crate::convert::job::new_part;
use clampbook_api::v1 as wire;
use clampbook_book::bounds;
use clampbook_book::fact::{Decided, FastenerSpec};
use clampbook_book::ids::JobId;
use clampbook_book::words::{Disposition, HoleCheck};

pub(in crate::convert) fn decided(
    check: &mut Check,
    decision: &wire::Decision,
) -> Option<(JobId, Decided)> {
    let joint = check.joint_name("decision.joint", &decision.joint);
    let position = check.position("decision.position", decision.position);
    let disposition = check.required_word("decision.disposition", decision.disposition);
    let is = |wanted| disposition == Some(wanted);
    let replacement = replacement(check, decision, disposition);
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
            is(Disposition::Make) && !made_of.is_empty(),
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
    let waits_for = check.word("decision.waits_for", decision.waits_for);
    if is(Disposition::Hold) && decision.waits_for == 0 {
        check.wrong(
            "decision.waits_for",
            "is required on hold: measuring, hardness, a crack test or a part",
        );
    } else if !is(Disposition::Hold) && waits_for.is_some() {
        check.wrong("decision.waits_for", "is for hold only; leave it out");
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
    if decision.baking_shown && !is(Disposition::PlateAndBake) {
        check.wrong(
            "decision.baking_shown",
            "is for plate and bake only; leave it out",
        );
    }
    let left_out_by = left_out_by(check, decision, is(Disposition::LeaveOut));
    let (job, joint) = joint?;
    Some((
        job,
        Decided {
            joint,
            position: position?,
            disposition: disposition?,
            replacement,
            hole_check,
            grade_shown,
            citation,
            reason,
            waits_for,
            hole_repair,
            baking_shown: decision.baking_shown,
            left_out_by,
        },
    ))
}

/// The new fastener: bought, or made, whose grade may be unknown.
fn replacement(
    check: &mut Check,
    decision: &wire::Decision,
    disposition: Option<Disposition>,
) -> Option<FastenerSpec> {
    const FIELD: &str = "decision.replacement";
    match (disposition, &decision.replacement) {
        (Some(Disposition::Make), Some(part)) => made_spec(check, FIELD, part),
        (disposition, part) => {
            let wanted = matches!(disposition, Some(Disposition::Replace | Disposition::Make));
            new_part(check, FIELD, part.as_ref(), wanted)
        }
    }
}

/// Who decided that nothing goes back.
fn left_out_by(check: &mut Check, decision: &wire::Decision, is_left_out: bool) -> String {
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
