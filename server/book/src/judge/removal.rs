//! Logging removals: one, several alike, or a whole strip-down.

use super::{joint, no_position, position, subject};
use crate::judge::command::{AlikeRemovals, ImportedRemoval};
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::{Fact, Removed};
use crate::record::ids::{JointId, PositionNumber};
use crate::record::job::{Job, Joint, Position, Standing};
use std::collections::HashMap;

pub(super) fn log(job: &Job, removed: &Removed) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &removed.joint)?;
    let position = position(joint, removed.position, "removal.position")?;
    can_come_out(job, joint, position)?;
    Ok(vec![Fact::Removed(removed.clone())])
}

pub(super) fn log_alike(job: &Job, alike: &AlikeRemovals) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &alike.joint)?;
    let numbers: Vec<PositionNumber> = if alike.positions.is_empty() {
        joint
            .positions
            .iter()
            .filter(|p| p.standing() == Standing::InPlace)
            .map(|p| p.number)
            .collect()
    } else {
        alike.positions.clone()
    };
    if numbers.is_empty() {
        return Err(Refusal::State {
            subject: joint.name(&job.id),
            explanation: "no position is in place any more; nothing is left to log".into(),
        });
    }
    let wrong: Vec<Violation> = numbers
        .iter()
        .enumerate()
        .filter(|(_, number)| joint.position(**number).is_none())
        .map(|(i, number)| no_position(joint, *number, &format!("positions[{i}]")))
        .collect();
    if !wrong.is_empty() {
        return Err(Refusal::Invalid(wrong));
    }
    numbers
        .into_iter()
        .map(|number| {
            can_come_out(job, joint, position(joint, number, "positions")?)?;
            Ok(Fact::Removed(Removed {
                methods: alike.methods.clone(),
                heat_colour: alike.heat_colour,
                kept_in: alike.kept_in.clone(),
                ..Removed::new(alike.joint.clone(), number, alike.outcome)
            }))
        })
        .collect()
}

pub(super) fn import(job: &Job, lines: &[ImportedRemoval]) -> Result<Vec<Fact>, Refusal> {
    let mut seen: HashMap<(&JointId, PositionNumber), u64> = HashMap::new();
    let mut wrong = Vec::new();
    for ImportedRemoval { line, removed } in lines {
        let column = |name: &str| format!("line {line}, column {name}");
        let Some(joint) = job.joint(&removed.joint) else {
            wrong.push(Violation::new(
                "csv",
                format!(
                    "{}: joint {} does not exist in this job",
                    column("joint"),
                    removed.joint
                ),
            ));
            continue;
        };
        let Some(position) = joint.position(removed.position) else {
            let there_is_none = no_position(joint, removed.position, "csv");
            wrong.push(Violation::new(
                "csv",
                format!("{}: {}", column("position"), there_is_none.wrong),
            ));
            continue;
        };
        if let Some(first) = seen.insert((&removed.joint, removed.position), *line) {
            wrong.push(Violation::new(
                "csv",
                format!("{}: the same position as line {first}", column("position")),
            ));
        } else if let Err(refusal) = can_come_out(job, joint, position) {
            wrong.push(Violation::new(
                "csv",
                format!("{}: {refusal}", column("position")),
            ));
        }
    }
    if wrong.is_empty() {
        Ok(lines
            .iter()
            .map(|l| Fact::Removed(l.removed.clone()))
            .collect())
    } else {
        Err(Refusal::Invalid(wrong))
    }
}

fn can_come_out(job: &Job, joint: &Joint, position: &Position) -> Result<(), Refusal> {
    if !matches!(position.standing(), Standing::Empty | Standing::LeftOut) {
        return Ok(());
    }
    let entry = position.removal().map_or(0, |(record, _)| record.entry);
    Err(Refusal::State {
        subject: subject(job, joint, position.number),
        explanation: format!(
            "is empty already, by entry {entry}; correct that entry instead of logging it twice"
        ),
    })
}
