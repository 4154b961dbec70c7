//! Loads: in the unit that goes with the torque's.

use super::figures::figures;
use crate::{
    quantity::TorqueUnit,
    units::{NEWTONS_PER_POUND_FORCE, Newtons},
};

/// Unit of a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadUnit {
    /// Kilonewton.
    Kilonewton,
    /// Pound-force.
    PoundForce,
}

impl LoadUnit {
    /// The unit that goes with a torque's.
    #[must_use]
    pub const fn beside(unit: TorqueUnit) -> Self {
        match unit {
            TorqueUnit::PoundForceFoot | TorqueUnit::PoundForceInch => Self::PoundForce,
            TorqueUnit::NewtonMetre | TorqueUnit::KilogramForceMetre => Self::Kilonewton,
        }
    }

    /// Symbol as shown.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Kilonewton => "kN",
            Self::PoundForce => "lbf",
        }
    }

    /// The number of a load in this unit, unrounded.
    ///
    /// # Sources
    /// NIST SP 811 (2008), appendix B.8: 1 lbf is 4.448 221 615 260 5 N exactly.
    #[must_use]
    pub const fn number(self, load: Newtons) -> f64 {
        match self {
            Self::Kilonewton => load.get() / 1000.0,
            Self::PoundForce => load.get() / NEWTONS_PER_POUND_FORCE,
        }
    }
}

/// A load for people, in the unit that goes with the torque's.
///
/// ```
/// use clampbook_engine::{quantity::TorqueUnit, show::load, units::Newtons};
/// let clamp = Newtons::new(41_000.0)?;
/// assert_eq!(load(clamp, TorqueUnit::NewtonMetre), "41 kN");
/// assert_eq!(load(clamp, TorqueUnit::PoundForceFoot), "9220 lbf");
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn load(load: Newtons, beside: TorqueUnit) -> String {
    let unit = LoadUnit::beside(beside);
    format!("{} {}", figures(unit.number(load)), unit.symbol())
}

/// The minimum and the maximum load: `26.7 to 55.4 kN`.
#[must_use]
pub fn load_range(minimum: Newtons, maximum: Newtons, beside: TorqueUnit) -> String {
    let unit = LoadUnit::beside(beside);
    format!(
        "{} to {} {}",
        figures(unit.number(minimum)),
        figures(unit.number(maximum)),
        unit.symbol()
    )
}
