//! Deciding on what came out, and putting something back.

use super::{joint, position, subject};
use crate::effective;
use crate::fact::{Decided, Fact, PieceAccounted, Refitted, Thing, Wanted};
use crate::job::{Job, Joint, Standing};
use crate::refusal::{Refusal, Violation};
use crate::shop::Shop;
use crate::target;
use crate::words::Disposition;
use clampbook_engine::Catalogue;
use clampbook_engine::source::Basis;

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
    if decided.disposition == Disposition::LeaveOut && position.refit().is_some() {
        return Err(Refusal::State {
            subject: subject(job, joint, decided.position),
            explanation: "a fastener is in; log its removal before leaving it out".into(),
        });
    }
    Ok(vec![Fact::Decided(decided.clone())])
}

pub(super) fn refit(job: &Job, refitted: &Refitted, shop: &Shop) -> Result<Vec<Fact>, Refusal> {
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
    Ok(vec![Fact::Refitted(asked_for(joint, refitted, shop))])
}

pub(super) fn account(job: &Job, accounted: &PieceAccounted) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &accounted.joint)?;
    let position = position(joint, accounted.position, "account.position")?;
    if position.removal().is_none() {
        return Err(Refusal::State {
            subject: subject(job, joint, accounted.position),
            explanation:
                "nothing was removed; log the removal before saying what happened to its pieces"
                    .into(),
        });
    }
    Ok(vec![Fact::PieceAccounted(accounted.clone())])
}

/// Whether an account may be corrected: for the same pieces out of the same position.
pub(super) fn account_anew(there: &PieceAccounted, anew: &PieceAccounted) -> Result<(), Refusal> {
    let what = match anew.what {
        Thing::Fastener => "account.fastener",
        Thing::Piece(_) => "account.piece",
        Thing::SmallPart(_) => "account.small_part",
    };
    let kept = [
        (
            "account.joint",
            there.joint == anew.joint,
            there.joint.to_string(),
        ),
        (
            "account.position",
            there.position == anew.position,
            there.position.to_string(),
        ),
        (
            what,
            there.what.plain() == anew.what.plain(),
            there.what.spoken().to_owned(),
        ),
    ];
    let moved = kept.into_iter().filter(|(_, stays, _)| !stays);
    let wrong: Vec<Violation> = moved
        .map(|(field, _, was)| {
            let wrong = format!(
                "was {was} and cannot be changed; withdraw the account and log the right one"
            );
            Violation::new(field, wrong)
        })
        .collect();
    match wrong.as_slice() {
        [] => Ok(()),
        _ => Err(Refusal::Invalid(wrong)),
    }
}

/// The refit with what the record asks for now: what is published, else the computed torque.
pub(super) fn asked_for(joint: &Joint, refitted: &Refitted, shop: &Shop) -> Refitted {
    let published = effective::published(&joint.fact, shop).map(effective::wanted);
    Refitted {
        wanted: match published {
            Some(_) => None,
            None => wanted(joint, shop.catalogue()),
        },
        published,
        ..refitted.clone()
    }
}

/// The computed torque as it now is, to be kept with the refit.
fn wanted(joint: &Joint, catalogue: &Catalogue) -> Option<Wanted> {
    let answer = target::answer(&joint.fact, catalogue)?;
    Some(Wanted {
        torque_nm: answer.torque.get(),
        least_clamp_load_n: answer.scatter.least.get(),
        greatest_clamp_load_n: answer.scatter.greatest.get(),
        nut_factor: answer.nut_factor.get(),
        catalog_edition: clampbook_engine::EDITION.into(),
        own_tests: answer
            .sources
            .iter()
            .find(|cited| cited.basis == Basis::Shop)
            .map(|cited| cited.source.citation.to_string())
            .unwrap_or_default(),
    })
}
