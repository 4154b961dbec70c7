//! Correcting: an entry that replaces or withdraws what an earlier one said.

use super::{finding, joint, marks, part, photo, pieces, position, refit, subject, tightening};
use crate::judge::command::{Correction, Restated};
use crate::judge::refusal::{Refusal, Violation};
use crate::record::context::Context;
use crate::record::fact::{Corrected, Fact, JointAdded};
use crate::record::ids::{EntryNumber, JointId, PositionNumber};
use crate::record::job::{Job, Joint, Position, Record, Saying};

const A_JOINT: &str = "a joint";
const A_PHOTO: &str = "a photo";

/// Kinds of facts that can be corrected, as refusals call them. A joint can only be described again.
const CALLED: [(&str, &str); 12] = [
    ("removed", "a removal"),
    ("decided", "a decision"),
    ("refitted", "a refit"),
    ("tightened", "a tightening"),
    ("marked", "marks"),
    ("piece-accounted", "an account of pieces"),
    ("part-found", "a finding"),
    ("counterpart-answered", "an answer"),
    ("part-wanted", "a part wanted"),
    ("part-arrived", "an arrival"),
    ("photo-added", A_PHOTO),
    ("joint-added", A_JOINT),
];

pub(super) fn correct(
    job: &Job,
    correction: &Correction,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    if job.etag() != correction.etag {
        return Err(Refusal::Stale {
            subject: format!("jobs/{}", job.id),
            given: correction.etag.clone(),
            current: job.etag(),
        });
    }
    let with = match &correction.with {
        Some(said) => Some(Box::new(restated(job, correction, said, context)?)),
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
fn restated(
    job: &Job,
    correction: &Correction,
    said: &Restated,
    context: &Context<'_>,
) -> Result<Fact, Refusal> {
    let entry = correction.entry;
    let fact = match said {
        Restated::Fact(fact) => &**fact,
        Restated::Photo(described) => {
            let there = job.photos.get(entry);
            let there = there.ok_or_else(|| is_not(job, entry, A_PHOTO))?;
            return photo::describe(job, there, described).map(Fact::PhotoAdded);
        }
    };
    let wrong_kind = || is_not(job, entry, called(fact));
    match fact {
        Fact::JointAdded(added) => {
            let there = job.joints.added_by(entry).ok_or_else(wrong_kind)?;
            return redescribe(there, added, context);
        }
        Fact::Removed(said) => {
            let to = ("removal.position", &said.joint, said.position);
            return restate(job, entry, fact, to);
        }
        Fact::Decided(said) => {
            let to = ("decision.position", &said.joint, said.position);
            return restate(job, entry, fact, to);
        }
        Fact::Refitted(said) => {
            let to = ("refit.position", &said.joint, said.position);
            return restate(job, entry, fact, to);
        }
        Fact::Tightened(said) => match saying(job, entry) {
            Some(Saying::Tightened(there)) => {
                return tightening::restate(there, said).map(Fact::Tightened);
            }
            _ => return Err(wrong_kind()),
        },
        Fact::Marked(marked) => match marks::stands(job, entry) {
            true => marks::restate(job, entry, marked)?,
            false => return Err(wrong_kind()),
        },
        Fact::NotRefitted(accounted) => match saying(job, entry) {
            Some(Saying::Accounted(there)) => pieces::restate(there, accounted)?,
            _ => return Err(wrong_kind()),
        },
        Fact::PartFound(found) => {
            let there = job.findings.get(entry).ok_or_else(wrong_kind)?;
            finding::restate(job, there, found)?;
        }
        Fact::CounterpartAnswered(answered) => {
            let there = job.findings.answered_by(entry).ok_or_else(wrong_kind)?;
            finding::restate_answer(job, there, answered)?;
        }
        Fact::PartWanted(wanted) => {
            job.parts.wanted_by(entry).ok_or_else(wrong_kind)?;
            part::may_be_wanted(job, wanted)?;
        }
        Fact::PartArrived(arrived) => {
            job.parts.arrived_by(entry).ok_or_else(wrong_kind)?;
            part::may_have_arrived(job, arrived, context)?;
        }
        Fact::JobOpened(_)
        | Fact::AssemblyAdded(_)
        | Fact::PhotoAdded(_)
        | Fact::Corrected(_)
        | Fact::LubricationStated(_)
        | Fact::LubricationWithdrawn(_)
        | Fact::SpecificationStated(_)
        | Fact::SpecificationWithdrawn(_)
        | Fact::PersonStated(_)
        | Fact::PersonWithdrawn(_) => return Err(wrong_kind()),
    }
    Ok(fact.clone())
}

fn redescribe(there: &Joint, added: &JointAdded, context: &Context<'_>) -> Result<Fact, Refusal> {
    let mut wrong = joint::wrong_build(added, context.shop.catalogue());
    let before = there.fact.specification.as_ref();
    let named = joint::named(added, before, context.shop, &mut wrong);
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
                "the joint has {} positions; they may be renamed, but their number must stay",
                there.fact.labels.len()
            ),
        ));
    }
    if wrong.is_empty() {
        Ok(Fact::JointAdded(joint::following(added, named)))
    } else {
        Err(Refusal::Invalid(wrong))
    }
}

/// A corrected removal, decision or refit, maybe for another position.
fn restate(
    job: &Job,
    entry: EntryNumber,
    fact: &Fact,
    (field, joint_id, number): (&str, &JointId, PositionNumber),
) -> Result<Fact, Refusal> {
    let (from_joint, from, record) = found(job, entry)
        .filter(|(_, _, record)| record.saying.kind() == fact.kind())
        .ok_or_else(|| is_not(job, entry, called(fact)))?;
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
    match (fact, &record.saying) {
        (Fact::Refitted(refitted), Saying::Refitted(before)) => {
            refit::restate(before, refitted).map(Fact::Refitted)
        }
        _ => Ok(fact.clone()),
    }
}

fn withdraw(job: &Job, correction: &Correction) -> Result<(), Refusal> {
    if let Some(judged) = finding::withdraw(job, correction) {
        return judged;
    }
    if let Some(judged) = photo::withdraw(job, correction) {
        return judged;
    }
    if marks::stands(job, correction.entry) || part::is_of(job, correction.entry) {
        return Ok(());
    }
    let (joint, position, _) = found(job, correction.entry)
        .ok_or_else(|| is_not(job, correction.entry, &all_that_can_be_withdrawn()))?;
    let last = position.records.last().map_or(0, |r| r.entry);
    if last != correction.entry {
        return Err(Refusal::State {
            subject: subject(job, joint, position.number),
            explanation: format!(
                "entry {} is based on entry {}; withdraw entry {last} first",
                last, correction.entry
            ),
        });
    }
    Ok(())
}

/// The position that an entry says something about, and what.
fn found(job: &Job, entry: EntryNumber) -> Option<(&Joint, &Position, &Record)> {
    let (id, number) = job.place_of(entry)?;
    let joint = job.joint(&id)?;
    let position = joint.position(number)?;
    let record = position.records.iter().find(|r| r.entry == entry)?;
    Some((joint, position, record))
}

fn saying(job: &Job, entry: EntryNumber) -> Option<&Saying> {
    found(job, entry).map(|(_, _, record)| &record.saying)
}

fn called(fact: &Fact) -> &'static str {
    let kind = CALLED.iter().find(|(kind, _)| *kind == fact.kind());
    kind.map_or("of that kind", |(_, called)| called)
}

fn all_that_can_be_withdrawn() -> String {
    let all: Vec<&str> = (CALLED.iter().map(|(_, called)| *called))
        .filter(|called| ![A_JOINT, A_PHOTO].contains(called))
        .collect();
    format!("{} or {A_PHOTO}", all.join(", "))
}

/// The entry to be corrected says nothing that stands and is of the kind that it would have to be.
fn is_not(job: &Job, entry: EntryNumber, wanted: &str) -> Refusal {
    let name = format!("jobs/{}/entries/{entry}", job.id);
    if entry == 0 || entry > job.last {
        return Refusal::NotFound { name };
    }
    Refusal::State {
        subject: name,
        explanation: format!(
            "is not {wanted}, or stands no more; a correction replaces an entry by one of its own kind, and \
             the entry that was corrected before is corrected again under its own first number"
        ),
    }
}
