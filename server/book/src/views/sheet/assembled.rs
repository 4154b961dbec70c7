//! What goes back with a fastener: marks to line up, the stack in its order, the small parts.

use crate::record::fact::{Mark, PartSeen, Removed, Stacked};
use crate::record::job::{Joint, Position};
use crate::record::words::{MarkKind, Tick};

/// Marks to mind, as they were before parting, whether they were said before or with the removal; empty when nobody said.
pub(super) fn marks(position: &Position) -> String {
    let before = position.marked().flat_map(|(_, marked)| &marked.marks);
    let removed = position.removal().map(|(_, removed)| removed);
    let with = removed.and_then(|removed| removed.assembled.as_ref());
    let mut said = listed_once(before.chain(with.iter().flat_map(|a| &a.marks)));
    let left = MarkKind::LeftHand.spoken();
    let ticked = removed.is_some_and(|removed| removed.ticks.contains(&Tick::LeftHand));
    if ticked && !said.iter().any(|one| one.starts_with(left)) {
        said.push(left.into());
    }
    said.join("; ")
}

/// Marks to mind on a joint as a whole; empty when nobody said.
pub(super) fn marks_of_joint(joint: &Joint) -> String {
    listed_once(joint.marked().flat_map(|(_, marked)| &marked.marks)).join("; ")
}

fn listed_once<'m>(marks: impl Iterator<Item = &'m Mark>) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for mark in marks.map(Mark::spoken) {
        if !said.contains(&mark) {
            said.push(mark);
        }
    }
    said
}

/// What is stacked under it, from the head on; empty when nobody said.
pub(super) fn stack(position: &Position) -> String {
    listed(position, |removed| {
        let stack = removed.assembled.iter().flat_map(|a| &a.stack);
        stack.map(Stacked::spoken).collect()
    })
}

/// Nut, lock, washer and pin as found; empty when nobody said.
pub(super) fn parts(position: &Position) -> String {
    listed(position, |removed| {
        let parts = removed.assembled.iter().flat_map(|a| &a.parts);
        parts.map(PartSeen::spoken).collect()
    })
}

fn listed(position: &Position, list: impl Fn(&Removed) -> Vec<String>) -> String {
    let removed = position.removal().map(|(_, removed)| removed);
    removed.map(list).unwrap_or_default().join(", ")
}
