//! Judging what became of pieces that did not go back.

use super::{joint, position, stays, subject};
use crate::judge::refusal::Refusal;
use crate::record::fact::{Fact, NotRefitted, Thing};
use crate::record::job::Job;

pub(super) fn account(job: &Job, accounted: &NotRefitted) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &accounted.joint)?;
    let position = position(joint, accounted.position, "not_refitted.position")?;
    if position.removal().is_none() {
        return Err(Refusal::State {
            subject: subject(job, joint, accounted.position),
            explanation:
                "nothing was removed; log the removal before saying what happened to its pieces"
                    .into(),
        });
    }
    Ok(vec![Fact::NotRefitted(accounted.clone())])
}

/// Whether an account may be corrected: for the same pieces out of the same position.
pub(super) fn restate(there: &NotRefitted, said: &NotRefitted) -> Result<(), Refusal> {
    let what = match said.what {
        Thing::Fastener => "not_refitted.fastener",
        Thing::Piece(_) => "not_refitted.piece",
        Thing::SmallPart(_) => "not_refitted.small_part",
    };
    let kept = [
        (
            "not_refitted.joint",
            there.joint == said.joint,
            there.joint.to_string(),
        ),
        (
            "not_refitted.position",
            there.position == said.position,
            there.position.to_string(),
        ),
        (
            what,
            there.what.plain() == said.what.plain(),
            there.what.spoken().to_owned(),
        ),
    ];
    stays(kept, "the account")
}
