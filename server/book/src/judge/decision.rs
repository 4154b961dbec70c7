//! Judging what is decided on what came out.

use super::{joint, position, subject};
use crate::judge::refusal::Refusal;
use crate::record::fact::{Decided, Fact};
use crate::record::job::Job;
use crate::record::words::DecisionKind;

pub(super) fn decide_on(job: &Job, decided: &Decided, etag: &str) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &decided.joint)?;
    let position = position(joint, decided.position, "decision.position")?;
    if position.etag() != etag {
        return Err(Refusal::Stale {
            subject: subject(job, joint, decided.position),
            given: etag.into(),
            current: position.etag(),
        });
    }
    if position.removal().is_none() {
        return Err(Refusal::State {
            subject: subject(job, joint, decided.position),
            explanation: "nothing was removed; log the removal before deciding on it".into(),
        });
    }
    if decided.kind == DecisionKind::LeaveOut && position.refit().is_some() {
        return Err(Refusal::State {
            subject: subject(job, joint, decided.position),
            explanation: "a fastener is in; log its removal before leaving it out".into(),
        });
    }
    Ok(vec![Fact::Decided(decided.clone())])
}
