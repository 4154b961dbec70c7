//! Judging what goes in.

use super::{joint, position, subject};
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::{Fact, Refitted, TorqueRead};
use crate::record::job::{Job, Position, Standing};

pub(super) fn refit(job: &Job, refitted: &Refitted) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &refitted.joint)?;
    let position = position(joint, refitted.position, "refit.position")?;
    let refused = |explanation| {
        Err(Refusal::State {
            subject: subject(job, joint, refitted.position),
            explanation,
        })
    };
    let explanation = match position.standing() {
        Standing::InPlace => "nothing was removed; log the removal before the refit".into(),
        Standing::LeftOut => left_out(position),
        Standing::Empty if refitted.in_already => {
            "nothing is in; say which part went in, the original or a new one".into()
        }
        Standing::Empty | Standing::Fitted(_) => {
            says_only_what_went_in(refitted)?;
            return Ok(vec![Fact::Refitted(refitted.clone())]);
        }
    };
    refused(explanation)
}

/// Why nothing goes in.
pub(super) fn left_out(position: &Position) -> String {
    let (record, decided) = position.decision().unzip();
    format!(
        "is left out by decision of {} (entry {}); decide again before anything goes in",
        decided.map_or("", |decided| &decided.left_out_by),
        record.map_or(0, |record| record.entry)
    )
}

/// A refit says what went in, and a fastener that stays in is no other one.
fn says_only_what_went_in(refitted: &Refitted) -> Result<(), Refusal> {
    let is_torque = refitted.tightness.is_some() || refitted.torque != TorqueRead::default();
    let is_other = refitted.in_already && refitted.new_part.is_some();
    all_right([
        (
            is_torque,
            "refit.tightness",
            "is not part of a refit; log the tightening",
        ),
        (
            is_other,
            "refit.new_part",
            "is given with a fastener that was in already; leave it out, or say that a new one went in",
        ),
    ])
}

/// A corrected refit. How tight it was made at once, which only old entries say, stays as it was said.
pub(super) fn restate(before: &Refitted, refitted: &Refitted) -> Result<Refitted, Refusal> {
    says_only_what_went_in(refitted)?;
    all_right([(
        before.in_already != refitted.in_already,
        "refit.fitted_part",
        "cannot be changed between what went in and what was in already; withdraw the refit and log the right one",
    )])?;
    let mut torque = before.torque.clone();
    if before.joint != refitted.joint {
        // What one joint asked for is not what another asks for.
        (torque.wanted, torque.published) = (None, None);
    }
    Ok(Refitted {
        tightness: before.tightness,
        torque,
        ..refitted.clone()
    })
}

fn all_right<const N: usize>(wrong: [(bool, &str, &str); N]) -> Result<(), Refusal> {
    let wrong = wrong.into_iter().filter(|(is_wrong, ..)| *is_wrong);
    let wrong: Vec<Violation> = wrong
        .map(|(_, field, wrong)| Violation::new(field, wrong))
        .collect();
    match wrong.as_slice() {
        [] => Ok(()),
        _ => Err(Refusal::Invalid(wrong)),
    }
}
