//! Pressure under head, nut or washer.

use crate::units::{Megapascals, Millimetres, Newtons};
use std::f64::consts::FRAC_PI_4;

/// Pressure of a clamp load on a ring.
///
/// p = F / (π/4 (dw² − dh²))
///
/// * `f`: clamp load, in N
/// * `outer`: outer diameter of the face dw, in mm
/// * `hole`: diameter of the hole dh, in mm, less than `outer`
///
/// Returns the pressure, in MPa.
///
/// # Sources
/// VDI 2230 part 1 (2003), equation R10/4.
/// # Example
/// M12 under a hexagon head, dw 16.63, dh 13.5 mm: the ring has 74.1 mm² (π/4 (276.56 − 182.25)),
/// so 41.9 kN press with 566 MPa.
/// ```
/// # use clampbook_engine::{strength::bearing::pressure, units::*};
/// let mm = Millimetres::new;
/// let p = pressure(Newtons::new(41_900.0)?, mm(16.63)?, mm(13.5)?);
/// assert!((p.get() - 566.0).abs() < 1.0);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn pressure(f: Newtons, outer: Millimetres, hole: Millimetres) -> Megapascals {
    let ring = FRAC_PI_4 * (outer.get().powi(2) - hole.get().powi(2));
    Megapascals::computed(f.get() / ring)
}
