//! The typed cells of the sheet: a number only where one may be used, so that nothing can be printed beside a stop. Each is
//! shown as it is printed.

use crate::reason::shown;
use crate::record::fact::{Revision, SaidTorque};
use crate::record::words::TorqueUnit;
use std::fmt;

/// Said beside every computed number.
pub(in crate::views) const COMPUTED: &str = "COMPUTED, NOT MAKER'S";

/// The torque of a position.
#[derive(Clone, Debug, PartialEq)]
pub enum TorqueCell {
    /// What the maker published.
    Published {
        /// Its steps.
        steps: Vec<Goal>,
        /// The revision in force.
        revision: Revision,
    },
    /// What the engine computed.
    Computed(Number),
    /// A stop is open: there is no torque, and why.
    Stopped(String),
    /// There is no torque, and why.
    Nothing(String),
}

/// A torque with the unit that people chose to see it in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// In newton metres, not rounded.
    pub nm: f64,
    /// Shown in this unit.
    pub unit: TorqueUnit,
}

/// What one step of tightening goes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Goal {
    /// A torque as published.
    Published {
        /// As printed by the maker.
        printed: SaidTorque,
        /// Shown in this unit.
        unit: TorqueUnit,
    },
    /// A share of the published torque.
    ShareOfPublished {
        /// The torque.
        number: Number,
        /// The share.
        share: f64,
    },
    /// A torque that the engine computed.
    Computed(Number),
    /// So many degrees further.
    Turn(f64),
}

impl TorqueCell {
    /// The torque that is reached at the end, in newton metres; none where the steps end in an angle.
    #[must_use]
    pub fn nm(&self) -> Option<f64> {
        match self {
            Self::Computed(number) => Some(number.nm),
            Self::Published { steps, .. } => steps.last()?.nm(),
            Self::Stopped(_) | Self::Nothing(_) => None,
        }
    }

    /// Whether a stop is open.
    #[must_use]
    pub const fn is_stopped(&self) -> bool {
        matches!(self, Self::Stopped(_))
    }

    /// Whether the torque is the maker's.
    #[must_use]
    pub const fn is_published(&self) -> bool {
        matches!(self, Self::Published { .. })
    }
}

impl Goal {
    /// The torque in newton metres; none for an angle.
    #[must_use]
    pub const fn nm(&self) -> Option<f64> {
        match self {
            Self::Published { printed, .. } => Some(printed.nm),
            Self::ShareOfPublished { number, .. } | Self::Computed(number) => Some(number.nm),
            Self::Turn(_) => None,
        }
    }

    /// Whether the maker published it; a share of what is published is computed.
    #[must_use]
    pub const fn is_published(&self) -> bool {
        matches!(self, Self::Published { .. } | Self::Turn(_))
    }

    /// How much further it is turned, in degrees; none for a torque.
    #[must_use]
    pub const fn turn_degrees(&self) -> Option<f64> {
        match self {
            Self::Turn(degrees) => Some(*degrees),
            Self::Published { .. } | Self::ShareOfPublished { .. } | Self::Computed(_) => None,
        }
    }
}

impl fmt::Display for TorqueCell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published { steps, revision } => {
                let steps: Vec<String> = steps.iter().map(Goal::to_string).collect();
                write!(
                    f,
                    "{} PUBLISHED, revision {revision}",
                    steps.join(", then ")
                )
            }
            Self::Computed(number) => write!(f, "{number} {COMPUTED}"),
            Self::Stopped(why) => write!(f, "STOP: {why}"),
            Self::Nothing(why) => f.write_str(why),
        }
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&shown::torque(self.nm, self.unit))
    }
}

impl fmt::Display for Goal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published { printed, unit } => f.write_str(&shown::published(printed, *unit)),
            Self::ShareOfPublished { number, share } => {
                write!(f, "{number}, {share} of the published torque")
            }
            Self::Computed(number) => write!(f, "{number} {COMPUTED}"),
            Self::Turn(degrees) => write!(f, "{} further", shown::angle(*degrees)),
        }
    }
}
