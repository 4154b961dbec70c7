//! The unit of the load axis.

use clampbook_engine::{
    quantity::{TorqueUnit, three_figures},
    units::{NEWTONS_PER_POUND_FORCE, Newtons},
};

/// Clamp loads are told in the unit that goes with the torque's.
#[derive(Clone, Copy)]
pub(super) enum LoadUnit {
    Kilonewton,
    PoundForce,
}

impl LoadUnit {
    pub(super) const fn beside(unit: TorqueUnit) -> Self {
        match unit {
            TorqueUnit::PoundForceFoot | TorqueUnit::PoundForceInch => Self::PoundForce,
            TorqueUnit::NewtonMetre | TorqueUnit::KilogramForceMetre => Self::Kilonewton,
        }
    }

    pub(super) const fn symbol(self) -> &'static str {
        match self {
            Self::Kilonewton => "kN",
            Self::PoundForce => "lbf",
        }
    }

    pub(super) fn of(self, load: Newtons) -> f64 {
        match self {
            Self::Kilonewton => load.get() / 1000.0,
            Self::PoundForce => load.get() / NEWTONS_PER_POUND_FORCE,
        }
    }

    pub(super) fn show(self, load: Newtons) -> String {
        format!("{} {}", three_figures(self.of(load)), self.symbol())
    }
}
