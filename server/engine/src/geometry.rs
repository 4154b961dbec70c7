//! Dimensions that follow from diameter and pitch by the standards' formulae.
//!
//! Basic (nominal) dimensions only; limits of size belong to identification.

pub mod british;

use crate::units::{Millimetres, SquareMillimetres};
use std::f64::consts::{FRAC_PI_4, PI};

/// Basic dimensions of an external thread and the area it carries load on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geometry {
    /// Pitch diameter d2, in mm.
    pub pitch_diameter: Millimetres,
    /// Minor diameter of the external thread (d3), in mm.
    pub external_minor_diameter: Millimetres,
    /// Minor diameter of the internal thread (D1), in mm.
    pub internal_minor_diameter: Millimetres,
    /// Tensile stress area, in mm².
    pub tensile_stress_area: SquareMillimetres,
}

/// Pitch diameter of a 60° thread.
///
/// d2 = d − 0.649519 P
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns d2, in mm.
///
/// # Sources
/// ISO 724:1993; ASME B1.1-2003 prints the same formula for Unified threads.
/// # Example
/// M10x1.5, ISO 724: 9.026 mm.
/// ```
/// # use clampbook_engine::{geometry::pitch_diameter, units::Millimetres};
/// let d2 = pitch_diameter(Millimetres::new(10.0)?, Millimetres::new(1.5)?);
/// assert!((d2.get() - 9.026).abs() < 0.0005);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn pitch_diameter(d: Millimetres, p: Millimetres) -> Millimetres {
    Millimetres::computed(d.get() - 0.649_519 * p.get())
}

/// Minor diameter of an external 60° thread, rounded root.
///
/// d3 = d − 1.226869 P
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns d3, in mm.
///
/// # Sources
/// ISO 898-1:2013, 9.1.6.1 (d3 = d1 − H/6 with H = 0.866025 P). ASME B1.1 has the same root form
/// for UNR threads.
/// # Example
/// M10x1.5: 8.160 mm.
/// ```
/// # use clampbook_engine::{geometry::external_minor_diameter, units::Millimetres};
/// let d3 = external_minor_diameter(Millimetres::new(10.0)?, Millimetres::new(1.5)?);
/// assert!((d3.get() - 8.160).abs() < 0.0005);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn external_minor_diameter(d: Millimetres, p: Millimetres) -> Millimetres {
    Millimetres::computed(d.get() - 1.226_869 * p.get())
}

/// Minor diameter of an internal 60° thread.
///
/// D1 = d − 1.082532 P
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns D1, in mm.
///
/// # Sources
/// ISO 724:1993; ASME B1.1-2003.
/// # Example
/// M10x1.5, ISO 724: 8.376 mm.
/// ```
/// # use clampbook_engine::{geometry::internal_minor_diameter, units::Millimetres};
/// let d1 = internal_minor_diameter(Millimetres::new(10.0)?, Millimetres::new(1.5)?);
/// assert!((d1.get() - 8.376).abs() < 0.0005);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn internal_minor_diameter(d: Millimetres, p: Millimetres) -> Millimetres {
    Millimetres::computed(d.get() - 1.082_532 * p.get())
}

/// Tensile stress area of an ISO metric thread.
///
/// As = π/4 ((d2 + d3)/2)²
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns As, in mm².
///
/// # Sources
/// ISO 898-1:2013, 9.1.6.1.
/// # Example
/// M10x1.5, ISO 898-1 table 4: 58.0 mm².
/// ```
/// # use clampbook_engine::{geometry::metric_stress_area, units::Millimetres};
/// let area = metric_stress_area(Millimetres::new(10.0)?, Millimetres::new(1.5)?);
/// assert!((area.get() - 58.0).abs() < 0.05);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn metric_stress_area(d: Millimetres, p: Millimetres) -> SquareMillimetres {
    let mean = (pitch_diameter(d, p).get() + external_minor_diameter(d, p).get()) / 2.0;
    SquareMillimetres::computed(FRAC_PI_4 * mean * mean)
}

/// Tensile stress area of a Unified thread.
///
/// As = π/4 (d − 0.9743 P)²
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns As, in mm².
///
/// # Sources
/// ASME B1.1-2003, appendix B, which writes P = 1/n. The 0.9743 comes from the mean of d2 and
/// d − 1.299038 P; the latter is a constant of this formula, no real minor diameter.
/// # Example
/// 7/16-20 UNF, Shigley 9th ed. table 8-2: 0.1187 in².
/// ```
/// # use clampbook_engine::{geometry::unified_stress_area, units::Millimetres};
/// let inch = 25.4;
/// let d = Millimetres::new(7.0 / 16.0 * inch)?;
/// let area = unified_stress_area(d, Millimetres::new(inch / 20.0)?);
/// assert!((area.get() / (inch * inch) - 0.1187).abs() < 0.00005);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn unified_stress_area(d: Millimetres, p: Millimetres) -> SquareMillimetres {
    let mean = d.get() - 0.9743 * p.get();
    SquareMillimetres::computed(FRAC_PI_4 * mean * mean)
}

/// Diameter of the circle that has the stress area; twisting is computed on it.
///
/// d0 = √(4 As / π)
///
/// * `area`: tensile stress area, in mm²
///
/// Returns d0, in mm.
///
/// # Sources
/// VDI 2230 part 1 (2003), calculation step R7; for metric threads this is exactly (d2 + d3)/2.
/// # Example
/// M12x1.75 has As 84.27 mm² and d0 10.358 mm (VDI 2230).
/// ```
/// # use clampbook_engine::{geometry::stress_diameter, units::SquareMillimetres};
/// let d0 = stress_diameter(SquareMillimetres::new(84.27)?);
/// assert!((d0.get() - 10.358).abs() < 0.0005);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn stress_diameter(area: SquareMillimetres) -> Millimetres {
    Millimetres::computed((4.0 * area.get() / PI).sqrt())
}
