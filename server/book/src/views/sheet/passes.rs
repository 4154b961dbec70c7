//! How the tightening of a joint goes, pass by pass, and in which order.

use crate::record::fact::Layout;
use crate::record::ids::PositionNumber;
use crate::record::job::Joint;
use clampbook_engine::order::{self, tightening_order};

/// Above this torque a joint of several positions is tightened in two passes: 30 lbf·ft, US Army TM 5-3805-248-23-1.
const TWO_PASSES_ABOVE_NM: f64 = 40.674_539_4;

/// Share of the first of two passes, from the same manual.
pub(super) const FIRST_SHARE: f64 = 0.7;

/// How the fasteners of a joint are brought to their torque.
pub(super) enum Way {
    /// One torque.
    Torque {
        /// In newton metres.
        nm: f64,
        /// For people.
        full: String,
        /// What a first pass of two goes to, for people.
        first: String,
    },
    /// Published steps, each for people.
    Steps(Vec<String>),
}

/// One line per pass.
pub(super) fn lines(layout: &Layout, positions: usize, way: &Way) -> Vec<String> {
    let order = match layout {
        Layout::Ring => "crosswise, in the order of the rows",
        Layout::Grid { .. } | Layout::Line => "from the centre outwards, in the order of the rows",
        Layout::Single => "in the order of the rows",
    };
    match way {
        Way::Torque { full, .. } if positions < 2 => vec![format!("One pass: {full}.")],
        Way::Torque { nm, full, .. } if *nm <= TWO_PASSES_ABOVE_NM => {
            vec![format!("One pass {order}: {full}; then once round again.")]
        }
        Way::Torque { full, first, .. } => vec![
            format!("Pass 1 of 2 {order}: {first}."),
            format!("Pass 2 of 2, same order: {full}; then once round again."),
        ],
        Way::Steps(steps) => (1..)
            .zip(steps)
            .map(|(number, step)| match number {
                1 if positions > 1 => format!("Step 1 of {} {order}: {step}.", steps.len()),
                2.. if positions > 1 => {
                    format!("Step {number} of {}, same order: {step}.", steps.len())
                }
                _ => format!("Step {number} of {}: {step}.", steps.len()),
            })
            .collect(),
    }
}

/// Positions in the order they are tightened.
pub(super) fn order(joint: &Joint) -> Vec<PositionNumber> {
    let positions = PositionNumber::try_from(joint.positions.len()).unwrap_or(PositionNumber::MAX);
    let layout = match joint.fact.layout {
        Layout::Ring => order::Layout::Ring { positions },
        Layout::Line => order::Layout::Line { positions },
        Layout::Single => order::Layout::Single,
        Layout::Grid { rows } => order::Layout::Grid {
            rows,
            columns: positions / rows.max(1),
        },
    };
    // A layout the engine does not order is done as counted; nothing may be left off the sheet.
    match tightening_order(layout) {
        Ok(order) if order.len() == joint.positions.len() => order,
        _ => (1..=positions).collect(),
    }
}
