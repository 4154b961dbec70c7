//! What a sheet's assemblies still wait for, in short.

use super::{Scope, parts::called};
use crate::reason::orders::{self, Line};
use crate::record::context::Context;
use crate::record::job::Job;

/// One line for each part that is not there, with the places that want it, after one for each position on hold.
pub(super) fn lines(job: &Job, scope: &Scope, context: &Context<'_>) -> Vec<String> {
    let assembly = scope.assembly.as_ref();
    let holds = orders::waits(job, assembly, context)
        .into_iter()
        .filter(|wait| wait.on_hold)
        .map(|wait| {
            let joint = wait.joint.as_ref().and_then(|id| job.joint(id));
            let place = joint.map_or_else(String::new, |joint| super::title(job, joint));
            format!("{place}, hole {}: {}", wait.position, wait.hold_reason)
        });
    let list = orders::list(job, assembly, context);
    let missing = list.iter().filter(|line| line.waiting() > 0);
    holds.chain(missing.map(|line| part(job, line))).collect()
}

fn part(job: &Job, line: &Line) -> String {
    let number = match line.part_number.as_str() {
        "" => String::new(),
        number => format!(", no. {number}"),
    };
    let places = places(job, line);
    let for_them = match places.as_str() {
        "" => String::new(),
        places => format!(", for {places}"),
    };
    format!(
        "{}: {} of {} x {}{number}{for_them}",
        called(job, &line.assembly),
        line.waiting(),
        line.wanted,
        line.what
    )
}

/// Joints that want a part, each with its holes.
fn places(job: &Job, line: &Line) -> String {
    let mut places: Vec<(&str, Vec<String>)> = Vec::new();
    for demand in line.demands.iter().filter(|demand| !demand.is_there) {
        let Some(joint) = demand.joint.as_ref().and_then(|id| job.joint(id)) else {
            continue;
        };
        let name = joint.fact.display_name.as_str();
        let at = places.iter().position(|(known, _)| *known == name);
        let at = at.unwrap_or_else(|| {
            places.push((name, Vec::new()));
            places.len() - 1
        });
        if demand.position > 0 {
            places[at].1.push(demand.position.to_string());
        }
    }
    let spoken = |(name, holes): &(&str, Vec<String>)| match holes.as_slice() {
        [] => (*name).to_owned(),
        holes => format!("{name} hole {}", holes.join(", ")),
    };
    let all: Vec<String> = places.iter().map(spoken).collect();
    all.join("; ")
}
