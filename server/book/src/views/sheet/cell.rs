//! The torque cell of a position: a number only where one may be used, so that nothing can be printed beside a stop.

use crate::reason::shown;
use crate::record::fact::Revision;
use crate::record::words::TorqueUnit;
use std::fmt;

/// Said beside every computed number.
pub(in crate::views) const COMPUTED: &str = "COMPUTED, NOT MAKER'S";

/// The torque of a position; shown as it is printed.
#[derive(Clone, Debug, PartialEq)]
pub enum TorqueCell {
    /// What the maker published.
    Published {
        /// The torque reached at the end; none where the steps end in an angle.
        last: Option<Number>,
        /// Its steps as people read them.
        steps: String,
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

impl TorqueCell {
    /// The torque in newton metres.
    #[must_use]
    pub const fn nm(&self) -> Option<f64> {
        match self {
            Self::Computed(number)
            | Self::Published {
                last: Some(number), ..
            } => Some(number.nm),
            Self::Published { last: None, .. } | Self::Stopped(_) | Self::Nothing(_) => None,
        }
    }

    /// Whether a stop is open.
    #[must_use]
    pub const fn is_stopped(&self) -> bool {
        matches!(self, Self::Stopped(_))
    }
}

impl fmt::Display for TorqueCell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published {
                steps, revision, ..
            } => write!(f, "{steps} PUBLISHED, revision {revision}"),
            Self::Computed(number) => f.write_str(&computed(number.nm, number.unit)),
            Self::Stopped(why) => write!(f, "STOP: {why}"),
            Self::Nothing(why) => f.write_str(why),
        }
    }
}

/// A computed torque for people; it is never shown without saying so.
pub(super) fn computed(nm: f64, unit: TorqueUnit) -> String {
    format!("{} {COMPUTED}", shown::torque(nm, unit))
}
