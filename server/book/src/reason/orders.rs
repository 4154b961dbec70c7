//! Parts to order: what positions, findings and people ask for, by assembly, against what arrived.
//!
//! Nothing of it is stored but what people said: parts wanted by hand and arrivals ([`Parts`]). The rest follows from the record.

mod asked;
mod designation;
mod waits;

pub use crate::record::parts::{Arrived, Parts, Wanted};
pub use asked::By;
pub(crate) use asked::{Beside, beside};
pub use designation::designation;
pub use waits::{Wait, waits};

use crate::record::context::Context;
use crate::record::ids::{AssemblyId, EntryNumber, JointId, PositionNumber};
use crate::record::job::Job;
use std::collections::HashMap;

/// Something that asks for a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// What asks for it.
    pub by: By,
    /// The joint it is for; nothing for a whole assembly.
    pub joint: Option<JointId>,
    /// The position; 0 for a whole joint or assembly.
    pub position: PositionNumber,
    /// What, in standard words.
    pub what: String,
    /// Its number with maker or dealer; may be empty.
    pub part_number: String,
    /// How many.
    pub quantity: u32,
    /// Why, in words.
    pub why: String,
    /// The entry that asks for it.
    pub entry: EntryNumber,
    /// Whether it is there: in the hole, or arrived in time for it.
    pub is_there: bool,
}

/// One line of the list: a part of an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The assembly.
    pub assembly: AssemblyId,
    /// What, in standard words.
    pub what: String,
    /// Its number with maker or dealer; may be empty.
    pub part_number: String,
    /// How many are wanted.
    pub wanted: u32,
    /// How many are there: arrived, or in their holes already.
    pub arrived: u32,
    /// What asks for it, oldest first; empty for what arrived and is not wanted any more.
    pub demands: Vec<Demand>,
    /// Entries that say it arrived.
    pub arrivals: Vec<EntryNumber>,
}

impl Line {
    /// How many are still waited for.
    #[must_use]
    pub const fn waiting(&self) -> u32 {
        self.wanted.saturating_sub(self.arrived)
    }
}

/// The list of a job, or of one of its assemblies, in the order of its assemblies.
#[must_use]
pub fn list(job: &Job, assembly: Option<&AssemblyId>, context: &Context<'_>) -> Vec<Line> {
    job.assemblies
        .iter()
        .map(|added| &added.assembly)
        .filter(|id| assembly.is_none_or(|wanted| wanted == *id))
        .flat_map(|id| of_assembly(job, id, context))
        .collect()
}

fn of_assembly(job: &Job, assembly: &AssemblyId, context: &Context<'_>) -> Vec<Line> {
    let mut list = Lines::default();
    for demand in asked::demands(job, assembly, context) {
        let line = list.called(assembly, &demand.what);
        line.wanted += demand.quantity;
        if line.part_number.is_empty() {
            line.part_number.clone_from(&demand.part_number);
        }
        line.demands.push(demand);
    }
    for arrived in job.parts.arrived().filter(|a| a.fact.assembly == *assembly) {
        let line = list.called(assembly, &arrived.fact.what);
        line.arrived += u32::from(arrived.fact.quantity);
        line.arrivals.push(arrived.entry);
    }
    for line in &mut list.lines {
        hand_out(line);
    }
    list.lines
}

/// Lines found by what they are called.
#[derive(Default)]
struct Lines {
    lines: Vec<Line>,
    places: HashMap<String, usize>,
}

impl Lines {
    /// The line of a part, made when there is none.
    fn called(&mut self, assembly: &AssemblyId, what: &str) -> &mut Line {
        let next = self.lines.len();
        let at = *self.places.entry(key(what)).or_insert(next);
        if at == next {
            self.lines.push(Line {
                assembly: assembly.clone(),
                what: what.to_owned(),
                part_number: String::new(),
                wanted: 0,
                arrived: 0,
                demands: Vec::new(),
                arrivals: Vec::new(),
            });
        }
        &mut self.lines[at]
    }
}

/// What two texts that mean one part have in common: capitals, blanks and marks between words do not count.
fn key(what: &str) -> String {
    let kept = what
        .chars()
        .filter(|c| c.is_alphanumeric() || "/.-".contains(*c));
    kept.flat_map(char::to_lowercase).collect()
}

/// Gives what arrived to those that asked first; what is in its hole has come already, logged or not.
fn hand_out(line: &mut Line) {
    let fitted: u32 = (line.demands.iter())
        .filter(|demand| demand.is_there)
        .map(|demand| demand.quantity)
        .sum();
    let mut left = line.arrived.saturating_sub(fitted);
    line.arrived = if line.arrived > fitted {
        line.arrived
    } else {
        fitted
    };
    for demand in line.demands.iter_mut().filter(|demand| !demand.is_there) {
        demand.is_there = left >= demand.quantity;
        left = left.saturating_sub(demand.quantity);
    }
}

/// The line of an assembly that a text means.
#[must_use]
pub fn line_called(
    job: &Job,
    assembly: &AssemblyId,
    what: &str,
    context: &Context<'_>,
) -> Option<Line> {
    let mut lines = of_assembly(job, assembly, context).into_iter();
    lines.find(|line| key(&line.what) == key(what))
}
