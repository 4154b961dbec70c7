//! Judging what goes in.

use super::{joint, position, subject};
use crate::judge::refusal::Refusal;
use crate::reason::effective::{self, EffectiveJoint, Value};
use crate::record::context::Context;
use crate::record::fact::{Fact, Refitted, Wanted};
use crate::record::job::{Job, Joint, Standing};
use clampbook_engine::Answer;
use clampbook_engine::source::Basis;

pub(super) fn refit(
    job: &Job,
    refitted: &Refitted,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &refitted.joint)?;
    let position = position(joint, refitted.position, "refit.position")?;
    if position.standing() == Standing::InPlace {
        return Err(Refusal::State {
            subject: subject(job, joint, refitted.position),
            explanation: "nothing was removed; log the removal before the refit".into(),
        });
    }
    if let Some((record, decided)) = position.decision().filter(|_| position.is_left_out()) {
        return Err(Refusal::State {
            subject: subject(job, joint, refitted.position),
            explanation: format!(
                "is left out by decision of {} (entry {}); decide again before anything goes in",
                decided.left_out_by, record.entry
            ),
        });
    }
    Ok(vec![Fact::Refitted(asked_for(joint, refitted, context))])
}

/// The refit with what the record asks for now: what is published, else the computed torque.
pub(super) fn asked_for(joint: &Joint, refitted: &Refitted, context: &Context<'_>) -> Refitted {
    let effective = EffectiveJoint::new(joint, context.shop);
    let (wanted, published) = match effective.value() {
        Value::Published(stated) => (None, Some(effective::wanted(stated))),
        Value::Computed(answer) => (Some(wanted(&answer)), None),
        Value::Nothing(_) => (None, None),
    };
    Refitted {
        wanted,
        published,
        ..refitted.clone()
    }
}

/// The computed torque as it now is, to be kept with the refit.
fn wanted(answer: &Answer<'_>) -> Wanted {
    Wanted {
        torque_nm: answer.torque.get(),
        minimum_clamp_load_n: answer.scatter.minimum.get(),
        maximum_clamp_load_n: answer.scatter.maximum.get(),
        nut_factor: answer.nut_factor.get(),
        catalog_edition: clampbook_engine::EDITION.into(),
        own_tests: answer
            .sources
            .iter()
            .find(|cited| cited.basis == Basis::Shop)
            .map(|cited| cited.source.citation.to_string())
            .unwrap_or_default(),
    }
}
