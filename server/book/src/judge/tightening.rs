//! Judging how what is in is tightened: several positions of a joint by one command, all or none.

use super::refit::left_out;
use super::{joint, no_position, stays};
use crate::judge::command::Tightening;
use crate::judge::refusal::{Refusal, Violation};
use crate::reason::effective::{self, EffectiveJoint, Value};
use crate::reason::{rules, shown};
use crate::record::context::Context;
use crate::record::fact::{Fact, Tightened, TorqueRead, Wanted};
use crate::record::ids::PositionNumber;
use crate::record::job::{Job, Joint, Position, Standing};
use crate::record::words::Severity;
use clampbook_engine::Answer;
use clampbook_engine::source::Basis;
use std::collections::{BTreeMap, BTreeSet};

pub(super) fn tighten(
    job: &Job,
    asked: &Tightening,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &asked.joint)?;
    let numbers = numbers(joint, asked)?;
    can_be_tightened(job, joint, &numbers)?;
    let stopped = stopped(job, joint, &numbers, context);
    let asked_for = asked_for(job, joint, context);
    let tightened = numbers.into_iter().map(|position| {
        let of_record = match stopped.contains(&0) || stopped.contains(&position) {
            true => TorqueRead::default(),
            false => asked_for.clone(),
        };
        Fact::Tightened(Tightened {
            joint: asked.joint.clone(),
            position,
            step: asked.step,
            note: asked.note.clone(),
            torque: TorqueRead {
                reading: asked.reading.clone(),
                tool: asked.tool.clone(),
                ..of_record
            },
        })
    });
    Ok(tightened.collect())
}

/// The positions that are meant: those named, else all of the joint that are not left out.
fn numbers(joint: &Joint, asked: &Tightening) -> Result<Vec<PositionNumber>, Refusal> {
    let numbers: Vec<PositionNumber> = match asked.positions.as_slice() {
        [] => (joint.positions.iter())
            .filter(|position| !position.is_left_out())
            .map(|position| position.number)
            .collect(),
        named => named.to_vec(),
    };
    let mut seen = BTreeSet::new();
    let mut wrong: Vec<Violation> = (numbers.iter().enumerate())
        .filter_map(|(i, number)| {
            let field = format!("positions[{i}]");
            match (joint.position(*number), seen.insert(*number)) {
                (None, _) => Some(no_position(joint, *number, &field)),
                (Some(_), false) => {
                    Some(Violation::new(field, format!("repeats position {number}")))
                }
                (Some(_), true) => None,
            }
        })
        .collect();
    if asked.reading.is_some() && numbers.len() > 1 {
        wrong.push(Violation::new(
            "torque_reading",
            format!(
                "is of one position, and {} are named; log each with its own reading, or leave the reading out",
                numbers.len()
            ),
        ));
    }
    match wrong.as_slice() {
        [] => Ok(numbers),
        _ => Err(Refusal::Invalid(wrong)),
    }
}

/// Refused are all together when one cannot be tightened, with the positions of each cause.
fn can_be_tightened(job: &Job, joint: &Joint, numbers: &[PositionNumber]) -> Result<(), Refusal> {
    let mut causes: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for position in numbers.iter().filter_map(|number| joint.position(*number)) {
        if let Some(cause) = hindrance(position) {
            let holes = causes.entry(cause).or_default();
            holes.push(position.number.to_string());
        }
    }
    if numbers.is_empty() {
        causes.insert("every position is left out by decision".into(), Vec::new());
    }
    if causes.is_empty() {
        return Ok(());
    }
    let causes: Vec<String> = (causes.into_iter())
        .map(|(cause, holes)| match holes.as_slice() {
            [] => cause,
            [one] => format!("position {one} {cause}"),
            _ => format!("positions {}: each {cause}", holes.join(", ")),
        })
        .collect();
    Err(Refusal::State {
        subject: joint.name(&job.id),
        explanation: causes.join("; "),
    })
}

fn hindrance(position: &Position) -> Option<String> {
    match position.standing() {
        Standing::Fitted(_) => None,
        Standing::LeftOut => Some(left_out(position)),
        Standing::Empty => Some("is empty; log the refit before the tightening".into()),
        Standing::InPlace => {
            Some("was never removed; only what went back in can be tightened here".into())
        }
    }
}

/// Positions with an open stop, 0 for the whole joint: the sheet has no torque there, so the record asks for none.
fn stopped(
    job: &Job,
    joint: &Joint,
    numbers: &[PositionNumber],
    context: &Context<'_>,
) -> BTreeSet<PositionNumber> {
    let flags = rules::flags_at(job, joint, numbers, context);
    let stops = flags.iter().filter(|flag| flag.severity == Severity::Stop);
    stops.map(|flag| flag.position).collect()
}

/// What the record asks for now: what is published, else the computed torque.
fn asked_for(job: &Job, joint: &Joint, context: &Context<'_>) -> TorqueRead {
    let effective = EffectiveJoint::new(joint, context.shop);
    let (wanted, published) = match effective.value() {
        Value::Published(stated) => (None, Some(effective::wanted(stated))),
        Value::Computed(answer) => (Some(wanted(&answer)), None),
        Value::Nothing(_) => (None, None),
    };
    let family = shown::family(effective.question().as_ref().map(|asked| asked.thread()));
    TorqueRead {
        unit: Some(shown::unit_at(job.torque_unit(), family)),
        wanted,
        published,
        ..TorqueRead::default()
    }
}

/// The computed torque as it now is, to be kept with the tightening.
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

/// A corrected tightening. What was asked for when it was said stays with it; it is of the same position.
pub(super) fn restate(before: &Tightened, said: &Tightened) -> Result<Tightened, Refusal> {
    let kept = [
        (
            "tightening.joint",
            before.joint == said.joint,
            before.joint.to_string(),
        ),
        (
            "tightening.position",
            before.position == said.position,
            before.position.to_string(),
        ),
    ];
    stays(kept, "the tightening")?;
    Ok(Tightened {
        torque: TorqueRead {
            unit: before.torque.unit,
            wanted: before.torque.wanted.clone(),
            published: before.torque.published.clone(),
            ..said.torque.clone()
        },
        ..said.clone()
    })
}
