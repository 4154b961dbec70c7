//! What goes back with a fastener: marks to line up, the stack in its order, the small parts.

use crate::fact::{Mark, PartSeen, Removed, Stacked};
use crate::job::Position;
use crate::words::{MarkKind, Tick};

/// Marks to mind, as they were before parting; empty when nobody said.
pub(super) fn marks(position: &Position) -> String {
    let Some((_, removed)) = position.removal() else {
        return String::new();
    };
    let marks = removed.assembled.iter().flat_map(|a| &a.marks);
    let mut said: Vec<String> = marks.map(Mark::spoken).collect();
    let left = MarkKind::LeftHand.spoken();
    if removed.ticks.contains(&Tick::LeftHand) && !said.iter().any(|one| one.starts_with(left)) {
        said.push(left.into());
    }
    said.join("; ")
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
