//! Correcting: an entry that replaces or withdraws what an earlier one said.

use super::{
    finding, fitting, joint, marking, part, photo, position, specifying, subject, wrong_build,
};
use crate::command::Correction;
use crate::fact::{Corrected, Fact, JointAdded, Refitted};
use crate::job::{Job, Joint, Position, Record, Saying};
use crate::refusal::{Refusal, Violation};
use crate::shop::Shop;

pub(super) fn correct(
    job: &Job,
    correction: &Correction,
    shop: &Shop,
) -> Result<Vec<Fact>, Refusal> {
    if job.etag() != correction.etag {
        return Err(Refusal::Stale {
            subject: format!("jobs/{}", job.id),
            given: correction.etag.clone(),
            current: job.etag(),
        });
    }
    let with = match &correction.with {
        Some(fact) => Some(Box::new(restated(job, correction, fact, shop)?)),
        None => {
            withdraw(job, correction)?;
            None
        }
    };
    Ok(vec![Fact::Corrected(Corrected {
        replaces: correction.entry,
        with,
        reason: correction.reason.clone(),
    })])
}

/// What takes the entry's place.
fn restated(job: &Job, correction: &Correction, fact: &Fact, shop: &Shop) -> Result<Fact, Refusal> {
    match fact {
        Fact::JointAdded(added) => return redescribe(job, correction, added, shop),
        Fact::Marked(marked) => match marking::stands(job, correction.entry) {
            true => marking::restate(job, correction.entry, marked)?,
            false => return Err(wrong_kind(job, correction, "marks that still stand")),
        },
        Fact::PartFound(found) => match job.findings.get(correction.entry) {
            Some(there) => finding::restate(job, there, found)?,
            None => return Err(wrong_kind(job, correction, "a finding that still stands")),
        },
        Fact::CounterpartAnswered(answered) => match job.findings.answered_by(correction.entry) {
            Some(there) => finding::answer_anew(job, there, answered)?,
            None => return Err(wrong_kind(job, correction, "an answer that still stands")),
        },
        Fact::PartWanted(wanted) => match job.parts.wanted_by(correction.entry) {
            Some(_) => part::may_be_wanted(job, wanted)?,
            None => return Err(wrong_kind(job, correction, "a part wanted")),
        },
        Fact::PartArrived(arrived) => match job.parts.arrived_by(correction.entry) {
            Some(_) => part::may_have_arrived(job, arrived, shop)?,
            None => return Err(wrong_kind(job, correction, "an arrival")),
        },
        _ => return restate(job, correction, fact, shop),
    }
    Ok(fact.clone())
}

fn redescribe(
    job: &Job,
    correction: &Correction,
    added: &JointAdded,
    shop: &Shop,
) -> Result<Fact, Refusal> {
    let Some(there) = job.joints.added_by(correction.entry) else {
        return Err(wrong_kind(job, correction, "a joint"));
    };
    let mut wrong = wrong_build(added, shop.catalogue());
    let before = there.fact.specification.as_ref();
    let named = specifying::named(added, before, shop, &mut wrong);
    if there.fact.joint != added.joint {
        wrong.push(Violation::new(
            "joint.name",
            format!("is {} and cannot be changed", there.fact.joint),
        ));
    }
    if there.fact.assembly != added.assembly {
        wrong.push(Violation::new(
            "joint.assembly",
            format!("is {} and cannot be changed", there.fact.assembly),
        ));
    }
    if there.fact.labels.len() != added.labels.len() {
        wrong.push(Violation::new(
            "joint.positions",
            format!(
                "the joint has {} positions; they may be renamed, not counted anew",
                there.fact.labels.len()
            ),
        ));
    }
    if wrong.is_empty() {
        Ok(Fact::JointAdded(specifying::following(added, named)))
    } else {
        Err(Refusal::Invalid(wrong))
    }
}

fn restate(job: &Job, correction: &Correction, fact: &Fact, shop: &Shop) -> Result<Fact, Refusal> {
    let (field, joint_id, number) = match fact {
        Fact::Removed(removed) => ("removal.position", &removed.joint, removed.position),
        Fact::Decided(decided) => ("decision.position", &decided.joint, decided.position),
        Fact::Refitted(refitted) => ("refit.position", &refitted.joint, refitted.position),
        Fact::JobOpened(_)
        | Fact::AssemblyAdded(_)
        | Fact::JointAdded(_)
        | Fact::Marked(_)
        | Fact::PieceAccounted(_)
        | Fact::PartFound(_)
        | Fact::CounterpartAnswered(_)
        | Fact::PartWanted(_)
        | Fact::PartArrived(_)
        | Fact::PhotoAdded(_)
        | Fact::Corrected(_)
        | Fact::ConditionStated(_)
        | Fact::ConditionWithdrawn(_)
        | Fact::SpecificationStated(_)
        | Fact::SpecificationWithdrawn(_) => {
            return Err(wrong_kind(job, correction, "that kind"));
        }
    };
    let (from_joint, from) = found(job, correction)?;
    let record = from
        .records
        .iter()
        .find(|r| r.entry == correction.entry && r.saying.kind() == fact.kind())
        .ok_or_else(|| wrong_kind(job, correction, fact.kind()))?;
    let to_joint = joint(job, joint_id)?;
    let to = position(to_joint, number, field)?;
    let moves = (to_joint.entry, to.number) != (from_joint.entry, from.number);
    if moves && (from.records.len() > 1 || !to.records.is_empty()) {
        return Err(Refusal::State {
            subject: subject(job, from_joint, from.number),
            explanation: "an entry can be moved to another position only when it is the one entry of \
                          its position and nothing was said about the other; withdraw later entries first"
                .into(),
        });
    }
    let Fact::Refitted(refitted) = fact else {
        return Ok(fact.clone());
    };
    // What was asked for when it was said stays with it, unless it was said of another joint.
    Ok(Fact::Refitted(match record {
        Record {
            saying: Saying::Refitted(before),
            ..
        } if to_joint.entry == from_joint.entry => Refitted {
            wanted: before.wanted.clone(),
            published: before.published.clone(),
            ..refitted.clone()
        },
        _ => fitting::asked_for(to_joint, refitted, shop),
    }))
}

fn withdraw(job: &Job, correction: &Correction) -> Result<(), Refusal> {
    if let Some(judged) = finding::withdraw(job, correction) {
        return judged;
    }
    if let Some(judged) = photo::withdraw(job, correction) {
        return judged;
    }
    if marking::stands(job, correction.entry) || part::is_of(job, correction.entry) {
        return Ok(());
    }
    let (joint, position) = found(job, correction)?;
    let last = position.records.last().map_or(0, |r| r.entry);
    if last != correction.entry {
        return Err(Refusal::State {
            subject: subject(job, joint, position.number),
            explanation: format!(
                "entry {} rests on entry {}; withdraw entry {last} first",
                last, correction.entry
            ),
        });
    }
    Ok(())
}

/// Where the entry to be corrected stands.
fn found<'j>(job: &'j Job, correction: &Correction) -> Result<(&'j Joint, &'j Position), Refusal> {
    job.place_of(correction.entry)
        .and_then(|(id, number)| {
            let joint = job.joint(&id)?;
            Some((joint, joint.position(number)?))
        })
        .ok_or_else(|| {
            if correction.entry == 0 || correction.entry > job.last {
                Refusal::NotFound {
                    name: format!("jobs/{}/entries/{}", job.id, correction.entry),
                }
            } else {
                wrong_kind(
                    job,
                    correction,
                    "a removal, a decision, a refit, marks, a finding, an answer or a photo that still stands",
                )
            }
        })
}

fn wrong_kind(job: &Job, correction: &Correction, wanted: &str) -> Refusal {
    Refusal::State {
        subject: format!("jobs/{}/entries/{}", job.id, correction.entry),
        explanation: format!(
            "is not {wanted}; a correction replaces an entry by one of its own kind, and the entry that \
             was corrected before is corrected again under its own first number"
        ),
    }
}
