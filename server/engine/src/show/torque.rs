//! Torques: the unit asked for, and one other in brackets.
//!
//! Feet and inches are confused where the number could be either, so below 20 lbf·ft it is inches that stand in brackets.
//!
//! Conversions: NIST SP 811 (2008), appendix B.8; see [`crate::units`].

use super::figures::figures;
use crate::{
    quantity::{Torque, TorqueUnit},
    units::{NEWTON_METRES_PER_POUND_FORCE_FOOT, NewtonMetres},
};

/// Below this lbf·ft and lbf·in are confused.
const SMALL: f64 = 20.0 * NEWTON_METRES_PER_POUND_FORCE_FOOT;

/// The unit in brackets beside another.
fn other(torque: NewtonMetres, unit: TorqueUnit) -> TorqueUnit {
    match unit {
        TorqueUnit::NewtonMetre | TorqueUnit::PoundForceFoot if torque.get() < SMALL => {
            TorqueUnit::PoundForceInch
        }
        TorqueUnit::NewtonMetre => TorqueUnit::PoundForceFoot,
        TorqueUnit::PoundForceFoot
        | TorqueUnit::PoundForceInch
        | TorqueUnit::KilogramForceMetre => TorqueUnit::NewtonMetre,
    }
}

/// The number of a torque in a unit, unrounded.
#[must_use]
pub const fn number_in(torque: NewtonMetres, unit: TorqueUnit) -> f64 {
    torque.get() / unit.newton_metres()
}

/// A torque for people.
///
/// ```
/// use clampbook_engine::{quantity::TorqueUnit, show, units::NewtonMetres};
/// let torque = NewtonMetres::new(74.8264)?;
/// assert_eq!(show::torque(torque, TorqueUnit::NewtonMetre), "74.8 N·m (55.2 lbf·ft)");
/// assert_eq!(show::torque(torque, TorqueUnit::PoundForceFoot), "55.2 lbf·ft (74.8 N·m)");
/// let small = NewtonMetres::new(18.0)?;
/// assert_eq!(show::torque(small, TorqueUnit::NewtonMetre), "18 N·m (159 lbf·in)");
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn torque(torque: NewtonMetres, unit: TorqueUnit) -> String {
    beside(&figures(number_in(torque, unit)), torque, unit)
}

/// What a wrench is set to, its number rounded to the marks already. It carries brackets only where feet and inches are
/// confused: the torque at the nut, which stands behind it, carries them anyway.
#[must_use]
pub fn setting(number: &str, torque: NewtonMetres, unit: TorqueUnit) -> String {
    if torque.get() < SMALL {
        beside(number, torque, unit)
    } else {
        format!("{number} {}", unit.symbol())
    }
}

/// A number with its unit, and the torque in the other unit.
fn beside(number: &str, torque: NewtonMetres, unit: TorqueUnit) -> String {
    let other = other(torque, unit);
    format!(
        "{number} {} ({} {})",
        unit.symbol(),
        figures(number_in(torque, other)),
        other.symbol()
    )
}

/// A torque with the number and the unit that it was entered with, and the other unit in brackets.
///
/// ```
/// use clampbook_engine::{quantity::Torque, show};
/// assert_eq!(show::entered(&Torque::parse("55 ft-lb")?), "55 lbf·ft (74.6 N·m)");
/// # Ok::<(), clampbook_engine::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn entered(entered: &Torque) -> String {
    beside(&entered.entered.to_string(), entered.torque, entered.unit)
}

/// What a table prints for a size, in newton metres alone, for the print itself stands beside it: `102 to 115 N·m`.
#[must_use]
pub fn newton_metres(low: NewtonMetres, high: NewtonMetres) -> String {
    let (low, high) = (figures(low.get()), figures(high.get()));
    match low == high {
        true => format!("{high} N·m"),
        false => format!("{low} to {high} N·m"),
    }
}

/// The minimum and the maximum torque: `68.4 to 137 N·m (50.4 to 101 lbf·ft)`.
#[must_use]
pub fn torque_range(minimum: NewtonMetres, maximum: NewtonMetres, unit: TorqueUnit) -> String {
    let span = |unit: TorqueUnit| {
        format!(
            "{} to {} {}",
            figures(number_in(minimum, unit)),
            figures(number_in(maximum, unit)),
            unit.symbol()
        )
    };
    format!("{} ({})", span(unit), span(other(minimum, unit)))
}
