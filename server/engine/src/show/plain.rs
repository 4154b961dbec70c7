//! Quantities with one unit, or none.

use super::figures::{at_most, figures};
use crate::units::{Degrees, Megapascals, NutFactor};

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
