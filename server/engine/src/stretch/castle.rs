//! Castellated nuts: how far from slot to slot, and what the next slot means.

use crate::units::{Degrees, Millimetres, greater};

/// Angle from one possible alignment to the next.
///
/// 360°/slots with one cross hole; two holes at 90° halve it where 90° is no multiple of it
///
/// * `slots`: of the nut, even
/// * `holes`: cross holes through the bolt, 1 or 2 (at 90°)
///
/// Returns the maximum angle to the next alignment, in degrees.
///
/// # Sources
/// Geometry; DIN 935 and 937 (6 slots to M39, 8 above).
/// # Example
/// Six slots: 60°, with two holes 30°. Eight slots: 45°, and a second hole gains nothing.
/// ```
/// # use clampbook_engine::stretch::castle::slot_step;
/// assert_eq!(slot_step(6, 1).get(), 60.0);
/// assert_eq!(slot_step(6, 2).get(), 30.0);
/// assert_eq!(slot_step(8, 1).get(), 45.0);
/// assert_eq!(slot_step(8, 2).get(), 45.0);
/// ```
#[must_use]
pub fn slot_step(slots: u32, holes: u32) -> Degrees {
    let step = 360.0 / f64::from(slots);
    if holes < 2 {
        return Degrees::computed(step);
    }
    let second = 90.0 % step;
    let rest = step - second;
    Degrees::computed(greater(second, rest))
}

/// How far a nut moves along its thread.
///
/// s = P·θ/360°
///
/// * `p`: pitch, in mm
/// * `angle`: θ, in degrees
///
/// Returns the travel, in mm.
///
/// # Sources
/// Geometry of a single start thread.
/// # Example
/// 60° at 20 threads per inch: 0.00833 in.
/// ```
/// # use clampbook_engine::{stretch::castle::travel, units::*};
/// let s = travel(Millimetres::new(25.4 / 20.0)?, Degrees::new(60.0)?);
/// assert!((s / 25.4 - 0.00833).abs() < 0.000005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn travel(p: Millimetres, angle: Degrees) -> f64 {
    p.get() * angle.get() / 360.0
}

/// How much thinner or thicker the washers must be for a slot to come up inside a window.
///
/// thinner by (φ − w) to φ, thicker by (σ − φ) to (σ − φ + w), each times P/360°
///
/// * `to_slot`: angle φ from the minimum torque to the next slot, in degrees
/// * `window`: angle w from the minimum torque to the maximum, in degrees, less than `step`
/// * `step`: angle σ from slot to slot, in degrees
/// * `p`: pitch, in mm
///
/// Returns thinner (from, to) and thicker (from, to), in mm.
///
/// # Range
/// The slot is missed: `window` < `to_slot` < `step`.
/// # Sources
/// Geometry: a thinner stack lets the nut go further before it is tight.
/// # Example
/// Pitch 1.5 mm, six slots, window 12°, the slot 30° ahead: thinner by 0.075 to 0.125 mm, thicker by
/// 0.125 to 0.175 mm.
/// ```
/// # use clampbook_engine::{stretch::castle::washer_change, units::*};
/// let deg = Degrees::new;
/// let (thinner, thicker) = washer_change(deg(30.0)?, deg(12.0)?, deg(60.0)?, Millimetres::new(1.5)?);
/// assert!((thinner.0 - 0.075).abs() < 1e-12 && (thinner.1 - 0.125).abs() < 1e-12);
/// assert!((thicker.0 - 0.125).abs() < 1e-12 && (thicker.1 - 0.175).abs() < 1e-12);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn washer_change(
    to_slot: Degrees,
    window: Degrees,
    step: Degrees,
    p: Millimetres,
) -> ((f64, f64), (f64, f64)) {
    let mm = |angle: f64| p.get() * angle / 360.0;
    let (phi, window, step) = (to_slot.get(), window.get(), step.get());
    (
        (mm(phi - window), mm(phi)),
        (mm(step - phi), mm(step - phi + window)),
    )
}
