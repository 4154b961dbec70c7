//! How the tightening of a joint goes, pass by pass, and in which order.

use super::cell::Goal;
use crate::record::fact::Layout;
use crate::record::ids::PositionNumber;
use crate::record::job::Joint;
use clampbook_engine::sequence::{self, tightening_order};
use std::fmt;

/// Above this torque a joint of several positions is tightened in two passes: 30 lbf·ft, US Army TM 5-3805-248-23-1.
const TWO_PASSES_ABOVE_NM: f64 = 40.674_539_4;

/// Share of the first of two passes, from the same manual.
pub(super) const FIRST_SHARE: f64 = 0.7;

/// How the fasteners of a joint are brought to their torque.
pub(super) enum Way {
    /// One torque.
    Torque {
        /// The torque.
        full: Goal,
        /// What a first pass of two goes to.
        first: Goal,
    },
    /// Published steps.
    Steps(Vec<Goal>),
}

/// One pass over the positions of a joint; shown as it is printed.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// Its number, from 1.
    pub number: usize,
    /// How many there are.
    pub count: usize,
    /// Whether it is a step that the maker published.
    pub is_step: bool,
    /// In which order the positions are done; nothing to order where there is one.
    pub order: Option<&'static str>,
    /// What it goes to.
    pub goal: Goal,
    /// Whether all are gone round once more.
    pub once_more: bool,
}

impl fmt::Display for Pass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.is_step, self.count) {
            (false, 1) => f.write_str("One pass")?,
            (false, count) => write!(f, "Pass {} of {count}", self.number)?,
            (true, count) => write!(f, "Step {} of {count}", self.number)?,
        }
        match self.order {
            Some(order) if self.number == 1 => write!(f, " {order}")?,
            Some(_) => f.write_str(", same order")?,
            None => {}
        }
        let once_more = if self.once_more {
            "; then once round again"
        } else {
            ""
        };
        write!(f, ": {}{once_more}.", self.goal)
    }
}

/// The passes of a joint.
pub(super) fn passes(layout: &Layout, positions: usize, way: &Way) -> Vec<Pass> {
    let order = match layout {
        Layout::Ring => "crosswise, in the order of the rows",
        Layout::Grid { .. } | Layout::Line => "from the centre outwards, in the order of the rows",
        Layout::Single => "in the order of the rows",
    };
    let several = positions > 1;
    let (goals, is_step) = match way {
        Way::Torque { full, first }
            if several && full.nm().is_some_and(|nm| nm > TWO_PASSES_ABOVE_NM) =>
        {
            (vec![first, full], false)
        }
        Way::Torque { full, .. } => (vec![full], false),
        Way::Steps(steps) => (steps.iter().collect(), true),
    };
    let count = goals.len();
    let pass = |(number, goal): (usize, &Goal)| Pass {
        number,
        count,
        is_step,
        order: several.then_some(order),
        goal: goal.clone(),
        once_more: several && !is_step && number == count,
    };
    (1..).zip(goals).map(pass).collect()
}

/// Positions in the order they are tightened.
pub(super) fn order(joint: &Joint) -> Vec<PositionNumber> {
    let positions = PositionNumber::try_from(joint.positions.len()).unwrap_or(PositionNumber::MAX);
    let layout = match joint.fact.layout {
        Layout::Ring => sequence::Layout::Ring { positions },
        Layout::Line => sequence::Layout::Line { positions },
        Layout::Single => sequence::Layout::Single,
        Layout::Grid { rows } => sequence::Layout::Grid {
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
