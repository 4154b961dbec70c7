//! Torques as printed, for joints no torque is computed for and for plain clamping: copied, never computed.

use crate::{
    purpose::Purpose,
    units::{NEWTON_METRES_PER_POUND_FORCE_FOOT, NEWTON_METRES_PER_POUND_FORCE_INCH, NewtonMetres},
};
use clampbook_data::{Origin, PUBLISHED_TORQUES, PublishedTorqueRow, PublishedUnit};

/// One printed torque with what it holds for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PublishedTorque {
    row: &'static PublishedTorqueRow,
    purpose: Purpose,
}

/// All printed torques, in the order of the table.
pub fn published_torques() -> impl Iterator<Item = PublishedTorque> {
    PUBLISHED_TORQUES.iter().filter_map(|row| {
        let purpose = Purpose::from_id(row.purpose)?;
        Some(PublishedTorque { row, purpose })
    })
}

impl PublishedTorque {
    /// Stable id.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// What it is for.
    #[must_use]
    pub const fn purpose(&self) -> Purpose {
        self.purpose
    }

    /// Size as the table names it.
    #[must_use]
    pub const fn size(&self) -> &'static str {
        self.row.size
    }

    /// Thread, may be empty.
    #[must_use]
    pub const fn thread(&self) -> &'static str {
        self.row.thread
    }

    /// Form of the seat.
    #[must_use]
    pub const fn seat(&self) -> &'static str {
        self.row.seat
    }

    /// Material of tube and fitting, of stud or of head.
    #[must_use]
    pub const fn material(&self) -> &'static str {
        self.row.material
    }

    /// Lubrication it holds for.
    #[must_use]
    pub const fn lubrication(&self) -> &'static str {
        self.row.lubrication
    }

    /// Minimum and maximum torque.
    #[must_use]
    pub fn range(&self) -> (NewtonMetres, NewtonMetres) {
        let unit = match self.row.unit {
            PublishedUnit::PoundForceFeet => NEWTON_METRES_PER_POUND_FORCE_FOOT,
            PublishedUnit::PoundForceInches => NEWTON_METRES_PER_POUND_FORCE_INCH,
            PublishedUnit::NewtonMetres => 1.0,
        };
        let in_unit = |value: f64| NewtonMetres::computed(value * unit);
        (in_unit(self.row.low), in_unit(self.row.high))
    }

    /// The torque with its unit, as printed.
    #[must_use]
    pub fn printed(&self) -> String {
        let unit = match self.row.unit {
            PublishedUnit::PoundForceFeet => "lbf·ft",
            PublishedUnit::PoundForceInches => "lbf·in",
            PublishedUnit::NewtonMetres => "N·m",
        };
        if self.row.low < self.row.high {
            format!("{} to {} {unit}", self.row.low, self.row.high)
        } else {
            format!("{} {unit}", self.row.high)
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
