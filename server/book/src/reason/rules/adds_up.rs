//! Nothing is left over: what came out is what went back, was replaced, or is explained.

use super::{Flag, Looks, On, Rule};
use crate::record::context::Context;
use crate::record::fact::Thing;
use crate::record::ids::EntryNumber;
use crate::record::job::{Job, Joint, Position};
use crate::record::words::{Outcome, Severity, SmallPartCondition};
use std::collections::BTreeMap;

pub(super) const DOES_NOT_ADD_UP: Rule = Rule {
    id: "does-not-add-up",
    title: "What came out does not add up with what went back",
    raised_when: "At the positions of an assembly that are at their final torque again, more came out than went back, was replaced or is accounted for; counted by kind, with washers, shims, locks and the fasteners themselves: caution. What came out of a position that is left out on purpose is written off by that decision.",
    cleared_by: "Log the named piece with a refit, or that everything went back as it came out; or log that it was found, written off or explained.",
    source: "common practice",
    looks: Looks::Job(does_not_add_up),
};

/// How many of each kind.
type Counts = BTreeMap<Thing, u32>;

/// What came out of positions that are closed, and how much of it went back.
#[derive(Default)]
struct Sum {
    out: u32,
    back: u32,
    /// Positions that more came out of than went back to, and the entries that say so.
    places: Vec<String>,
    entries: Vec<EntryNumber>,
}

fn does_not_add_up(job: &Job, _: &Context<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for assembly in &job.assemblies {
        let mut sums: BTreeMap<Thing, Sum> = BTreeMap::new();
        let of_it = |joint: &&Joint| joint.fact.assembly == assembly.assembly;
        for joint in job.joints.iter().filter(of_it) {
            for position in joint.positions.iter().filter(|p| is_closed(p)) {
                add(joint, position, &mut sums);
            }
        }
        for (thing, sum) in sums.into_iter().filter(|(_, sum)| sum.out > sum.back) {
            flags.push(Flag {
                rule: rule.id,
                severity: Severity::Caution,
                on: On::Assembly(assembly.assembly.clone()),
                position: 0,
                cause: format!(
                    "does not add up: {} x {} left over, of {} that came out ({})",
                    sum.out - sum.back,
                    thing.spoken(),
                    sum.out,
                    sum.places.join(", ")
                ),
                clears: rule.cleared_by,
                entries: sum.entries,
            });
        }
    }
}

fn is_closed(position: &Position) -> bool {
    position.at_final().is_some()
}

fn add(joint: &Joint, position: &Position, sums: &mut BTreeMap<Thing, Sum>) {
    let Some((record, _)) = position.removal() else {
        return;
    };
    let (out, back) = (came_out(position), went_back(position));
    for (thing, count) in &back {
        sums.entry(*thing).or_default().back += count;
    }
    for (thing, count) in out {
        let sum = sums.entry(thing).or_default();
        sum.out += count;
        if count > back.get(&thing).copied().unwrap_or_default() {
            let place = format!("{} hole {}", joint.fact.display_name, position.number);
            sum.places.push(place);
            sum.entries.push(record.entry);
        }
    }
}

/// What came out of a position.
fn came_out(position: &Position) -> Counts {
    let mut out = Counts::new();
    let Some((_, removed)) = position.removal() else {
        return out;
    };
    if removed.outcome != Outcome::MissingBefore {
        out.insert(Thing::Fastener, 1);
    }
    let assembled = removed.assembled.iter();
    for piece in assembled.clone().flat_map(|a| &a.stack) {
        *out.entry(Thing::Piece(piece.piece)).or_default() += u32::from(piece.count);
    }
    let parts = assembled.flat_map(|a| &a.parts);
    for part in parts.filter(|part| part.found != SmallPartCondition::Missing) {
        *out.entry(Thing::SmallPart(part.part).plain()).or_default() += 1;
    }
    out
}

/// What went back, was replaced or is accounted for.
fn went_back(position: &Position) -> Counts {
    let mut back = Counts::new();
    let original = |(_, refitted): (_, &crate::record::fact::Refitted)| refitted.new_part.is_none();
    let decision = position.decision();
    let replaced = decision.is_some_and(|(_, d)| d.is_replacement());
    if replaced || position.refit().is_some_and(original) {
        back.insert(Thing::Fastener, 1);
    }
    let with = || {
        position
            .refits()
            .filter_map(|refitted| refitted.with.as_ref())
    };
    for piece in with().flat_map(|with| &with.pieces) {
        *back.entry(piece.what.plain()).or_default() += u32::from(piece.count);
    }
    if with().any(|with| with.as_it_came_out) {
        let others = came_out(position).into_iter();
        back.extend(others.filter(|(thing, _)| *thing != Thing::Fastener));
    }
    for accounted in position.accounted() {
        *back.entry(accounted.what.plain()).or_default() += u32::from(accounted.count);
    }
    back
}
