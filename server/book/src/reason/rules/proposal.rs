//! What the rules propose to decide on a position. A proposal decides nothing: a person takes it or not, with a reason.

use super::{Flag, Rule, again, damage, force, grade, heat, length, loose};
use crate::record::words::{DecisionKind, HoldReason, Severity};

/// Flags that the fastener as it came out does not answer.
const REPLACE: [&Rule; 8] = [
    &grade::WEAKER,
    &force::FORCED_OUT,
    &damage::BROKEN_OR_MISSING,
    &damage::THREAD_DAMAGED,
    &damage::UNFIT,
    &heat::HEATED,
    &again::YIELD_BOLT,
    &again::LOCK_NUT,
];

/// Flags that something to be found out would answer, and what.
const HOLD: [(&Rule, HoldReason); 3] = [
    (&grade::UNKNOWN, HoldReason::Hardness),
    (&length::ODD, HoldReason::Measuring),
    (&loose::LOOSE_ON_ARRIVAL, HoldReason::Measuring),
];

/// What is proposed, and what a hold waits for; nothing for notes, for whole joints and assemblies, and where no decision
/// on the fastener is the answer.
#[must_use]
pub fn proposal(flag: &Flag) -> Option<(DecisionKind, Option<HoldReason>)> {
    if flag.position == 0 || flag.severity == Severity::Note {
        return None;
    }
    if REPLACE.iter().any(|rule| rule.id == flag.rule) {
        return Some((DecisionKind::Replace, None));
    }
    let (_, what) = HOLD.iter().find(|(rule, _)| rule.id == flag.rule)?;
    Some((DecisionKind::Hold, Some(*what)))
}
