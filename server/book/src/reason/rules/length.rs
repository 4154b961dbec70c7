//! Odd lengths: one of the fasteners of a joint is longer or shorter than the rest.

use super::scene::{Case, Scene};
use super::{Flag, Looks, Rule, stack};
use crate::reason::shown;
use crate::reason::sizes::MEASURING_ERROR_MM;
use crate::record::fact::LengthSeen;
use crate::record::words::{Compared, Severity};
use clampbook_engine::length::{LengthGroup, Lengths, Measured, odd_lengths};
use clampbook_engine::thread::System;

/// Pitch taken when the joint's thread is not known, in millimetres. Common practice.
const USUAL_PITCH_MM: f64 = 1.5;

pub(super) const ODD: Rule = Rule {
    id: "odd-length",
    title: "Fastener is longer or shorter than its neighbours",
    raised_when: "Its length differs from the joint's others by more than the pitch, the measuring error and the standard's length tolerance, or it was laid beside them and differs: caution; note when what was stacked under it, as measured, makes the difference within one pitch. Without a majority the whole joint gets the caution.",
    cleared_by: "A decision that cites a parts list, or the stack and depth as measured, for a length that belongs there; the hole measured where the stack makes the difference; or a replacement of the joint's common length.",
    source: "ISO 4759-1 for length tolerances; common practice for the rest",
    looks: Looks::Joint(odd),
};

/// A fastener that is longer or shorter than its neighbours.
pub(super) struct OddOne<'a> {
    pub(super) case: Case<'a>,
    /// Longer or shorter.
    pub(super) word: Compared,
    cause: String,
    /// Whether what was stacked under it makes the difference.
    stacked: bool,
}

fn odd(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let (odd, lengths) = odd_ones(scene);
    for one in odd.into_iter().filter(|one| !explained(&one.case)) {
        let severity = match (one.stacked, one.case.hole_is_measured()) {
            (true, true) => continue,
            (true, false) => Severity::Note,
            (false, _) => Severity::Caution,
        };
        flags.push(scene.flag(rule, severity, &one.case, one.cause));
    }
    if let Lengths::NoMajority(groups) = &lengths
        && !scene.all_cases().all(|case| explained(&case))
    {
        let cause = format!(
            "{} lengths and no majority: {}; ask what else is stacked under the longer ones",
            groups.len(),
            groups
                .iter()
                .map(|group| spoken(group, scene.family()))
                .collect::<Vec<_>>()
                .join(", ")
        );
        let entries = scene.all_cases().map(|case| case.record.entry).collect();
        flags.push(scene.raise(rule, Severity::Caution, 0, cause, entries));
    }
}

/// The odd ones among what is to go in, explained or not, and what the measured lengths say.
pub(super) fn odd_ones<'a>(scene: &Scene<'a>) -> (Vec<OddOne<'a>>, Lengths) {
    let measured: Vec<Measured> = scene
        .all_cases()
        .filter_map(|case| {
            Some(Measured {
                position: case.position.number.into(),
                length_mm: length_mm(&case)?,
                uncertainty_mm: MEASURING_ERROR_MM,
            })
        })
        .collect();
    let lengths = odd_lengths(&measured, pitch_mm(scene));
    let odd = scene
        .cases()
        .filter_map(|case| {
            let found = compared(&case).or_else(|| stands_out(scene, &case, &lengths))?;
            let (word, cause, stacked) = found;
            Some(OddOne {
                case,
                word,
                cause,
                stacked,
            })
        })
        .collect();
    (odd, lengths)
}

/// The length that counts: of the new part if there is one, else of the removed fastener if it goes back.
pub(super) fn length_mm(case: &Case<'_>) -> Option<f64> {
    if let Some(part) = case.new_part() {
        return Some(part.length.mm);
    }
    match &case.removed.length {
        Some(LengthSeen::Measured(length)) => Some(length.mm),
        _ => None,
    }
}

/// Whether a citation says that the length belongs there.
pub(super) fn explained(case: &Case<'_>) -> bool {
    case.decided.is_some_and(|d| !d.citation.is_empty())
}

fn pitch_mm(scene: &Scene<'_>) -> f64 {
    scene.thread.map_or(USUAL_PITCH_MM, |t| t.pitch().get())
}

fn compared(case: &Case<'_>) -> Option<(Compared, String, bool)> {
    match case.removed.length {
        _ if case.new_part().is_some() => None,
        Some(LengthSeen::Compared(word @ (Compared::Longer | Compared::Shorter))) => {
            let stack = match stack::spoken(case) {
                Some(pieces) => format!("; under it: {pieces}; measure both"),
                None => String::new(),
            };
            let cause = format!(
                "{} than its neighbours, laid side by side{stack}",
                word.spoken()
            );
            Some((word, cause, false))
        }
        _ => None,
    }
}

fn stands_out(
    scene: &Scene<'_>,
    case: &Case<'_>,
    lengths: &Lengths,
) -> Option<(Compared, String, bool)> {
    let Lengths::Odd { majority, odd } = lengths else {
        return None;
    };
    let own = odd
        .iter()
        .find(|group| group.positions.contains(&case.position.number.into()))?;
    let by = own.mean_mm - majority.mean_mm;
    let word = if by > 0.0 {
        Compared::Longer
    } else {
        Compared::Shorter
    };
    let (why, stacked) = stack::explains(scene, case, &majority.positions, by, pitch_mm(scene));
    let cause = format!(
        "{} {} than the others ({}){why}",
        shown::length(by.abs(), scene.family()),
        word.spoken(),
        spoken(majority, scene.family())
    );
    Some((word, cause, stacked))
}

fn spoken(group: &LengthGroup, family: System) -> String {
    let positions: Vec<String> = group.positions.iter().map(u32::to_string).collect();
    format!(
        "{} at position {}",
        shown::length(group.mean_mm, family),
        positions.join(", ")
    )
}
