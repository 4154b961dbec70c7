//! Quantities with one unit, or none.

use super::figures::{at_most, figures};
use crate::units::{Degrees, Megapascals, NutFactor, Stiffness};

/// A nut factor K, two decimals: `0.10`.
#[must_use]
pub fn nut_factor(k: NutFactor) -> String {
    format!("{:.2}", k.get())
}

/// An angle: `60°`, `22.5°`.
#[must_use]
pub fn angle(angle: Degrees) -> String {
    format!("{}°", at_most(1, angle.get()))
}

/// A stress or a pressure: `586 MPa`.
#[must_use]
pub fn stress(stress: Megapascals) -> String {
    format!("{} MPa", figures(stress.get()))
}

/// How many times one thing is of another: `1.29`, `0.90`.
#[must_use]
pub fn ratio(value: f64) -> String {
    format!("{value:.2}")
}

/// A share, a tenth of a percent at most: `70 %`, `33.3 %`.
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{} %", at_most(1, share * 100.0))
}

/// How much something gives: `12.3 µm`.
#[must_use]
pub fn micrometres(mm: f64) -> String {
    format!("{} µm", figures(mm * 1000.0))
}

/// A way or a change of thickness that is measured to thousandths of a millimetre: `0.375 mm`.
#[must_use]
pub fn millimetres(mm: f64) -> String {
    format!("{} mm", at_most(3, mm))
}

/// From one change of thickness to another: `0.1 to 0.375 mm`.
#[must_use]
pub fn millimetre_range(from: f64, to: f64) -> String {
    format!("{} to {}", at_most(3, from), millimetres(to))
}

/// How stiff a part is: `480 kN/mm`.
#[must_use]
pub fn stiffness(stiffness: Stiffness) -> String {
    format!("{} kN/mm", figures(stiffness.get() / 1000.0))
}

/// A stress area: `58 mm²`.
#[must_use]
pub fn area(mm2: f64) -> String {
    format!("{} mm²", figures(mm2))
}
