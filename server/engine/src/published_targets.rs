//! Clamp loads and turns of the nut as printed: copied, never computed.

use crate::units::{Degrees, NEWTONS_PER_POUND_FORCE, Newtons};
use clampbook_data::{Origin, PUBLISHED_TARGETS, PublishedTargetRow, TargetUnit};

/// One printed target with what it holds for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PublishedTarget {
    row: &'static PublishedTargetRow,
}

/// What is printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A clamp load, with the value aimed at and the maximum where they are printed.
    ClampLoad {
        /// Minimum clamp load.
        minimum: Newtons,
        /// Clamp load aimed at.
        nominal: Option<Newtons>,
        /// Maximum clamp load.
        maximum: Option<Newtons>,
    },
    /// A turn of the nut from snug.
    Turn(Degrees),
}

/// All printed targets, in the order of the table.
pub fn published_targets() -> impl Iterator<Item = PublishedTarget> {
    PUBLISHED_TARGETS.iter().map(|row| PublishedTarget { row })
}

impl PublishedTarget {
    /// Stable id.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Size as the table names it, or length of the bolt for a turn.
    #[must_use]
    pub const fn size(&self) -> &'static str {
        self.row.size
    }

    /// Thread, may be empty.
    #[must_use]
    pub const fn thread(&self) -> &'static str {
        self.row.thread
    }

    /// Grade or material of the bolt.
    #[must_use]
    pub const fn grade(&self) -> &'static str {
        self.row.grade
    }

    /// What the value holds for.
    #[must_use]
    pub const fn lubrication(&self) -> &'static str {
        self.row.lubrication
    }

    /// The target itself.
    #[must_use]
    pub fn target(&self) -> Target {
        let newtons = match self.row.unit {
            TargetUnit::Degrees => return Target::Turn(Degrees::computed(self.row.low)),
            TargetUnit::PoundForce => NEWTONS_PER_POUND_FORCE,
            TargetUnit::Kip => 1000.0 * NEWTONS_PER_POUND_FORCE,
        };
        let load = |value: f64| Newtons::computed(value * newtons);
        Target::ClampLoad {
            minimum: load(self.row.low),
            nominal: self.row.nominal.map(load),
            maximum: self.row.high.map(load),
        }
    }

    /// The target with its unit, as printed.
    #[must_use]
    pub fn printed(&self) -> String {
        let unit = match self.row.unit {
            TargetUnit::PoundForce => "lbf",
            TargetUnit::Kip => "kip",
            TargetUnit::Degrees => "degrees",
        };
        match self.row.high {
            Some(high) => format!("{} to {high} {unit}", self.row.low),
            None => format!("{} {unit}", self.row.low),
        }
    }

    /// Rule that goes with it.
    #[must_use]
    pub const fn rule(&self) -> &'static str {
        self.row.rule
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}
