//! Stripping: shear areas of threads at minimum material, and how much engagement a load needs.

use crate::units::{Megapascals, Millimetres, Newtons, SquareMillimetres};
use std::f64::consts::PI;

/// tan 30°, the flank of a 60° thread.
const FLANK: f64 = 0.577_350_269_189_625_8;

/// Share of tensile strength at which a bolt's thread shears.
///
/// FED-STD-H28/2B takes half; VDI 2230 table 7 takes 0.60 to 0.65.
pub const SHEAR_OVER_TENSILE: f64 = 0.5;

/// Area over which the bolt's thread shears, per mm of engagement.
///
/// ASs/Le = π/P · Kn (P/2 + 0.57735 (Es − Kn))
///
/// * `p`: pitch, in mm
/// * `kn`: maximum minor diameter of the internal thread, in mm
/// * `es`: minimum pitch diameter of the external thread, in mm
///
/// Returns mm² per mm.
///
/// # Sources
/// FED-STD-H28/2B, equation for the shear area of the external thread (1/n written as P).
/// # Example
/// M10x1.5-6g in 6H: Kn 8.676, Es 8.862: π/1.5 · 8.676 (0.75 + 0.57735 · 0.186) = 15.58.
/// ```
/// # use clampbook_engine::{strength::engagement::external_strip_area, units::*};
/// let mm = Millimetres::new;
/// assert!((external_strip_area(mm(1.5)?, mm(8.676)?, mm(8.862)?) - 15.58).abs() < 0.005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn external_strip_area(p: Millimetres, kn: Millimetres, es: Millimetres) -> f64 {
    let (p, kn) = (p.get(), kn.get());
    PI / p * kn * (p / 2.0 + FLANK * (es.get() - kn))
}

/// Area over which the tapped thread shears, per mm of engagement.
///
/// ASn/Le = π/P · Ds (P/2 + 0.57735 (Ds − En))
///
/// * `p`: pitch, in mm
/// * `ds`: minimum major diameter of the external thread, in mm
/// * `en`: maximum pitch diameter of the internal thread, in mm
///
/// Returns mm² per mm.
///
/// # Sources
/// FED-STD-H28/2B, equation for the shear area of the internal thread (1/n written as P).
/// # Example
/// Handbook of Bolts and Bolted Joints, M10x1.5: Ds 9.968, En 9.206: 24.84 mm² per mm.
/// ```
/// # use clampbook_engine::{strength::engagement::internal_strip_area, units::*};
/// let mm = Millimetres::new;
/// assert!((internal_strip_area(mm(1.5)?, mm(9.968)?, mm(9.206)?) - 24.84).abs() < 0.005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn internal_strip_area(p: Millimetres, ds: Millimetres, en: Millimetres) -> f64 {
    let (p, ds) = (p.get(), ds.get());
    PI / p * ds * (p / 2.0 + FLANK * (ds - en.get()))
}

/// Engagement at which a thread shears at a load.
///
/// Le = F/(τ · AS/Le)
///
/// * `f`: load, in N
/// * `shear`: shear strength τ, in MPa
/// * `area_per_mm`: shear area per mm of engagement, in mm
///
/// Returns the engagement, in mm.
///
/// # Sources
/// FED-STD-H28/2B (load over shear stress and area).
/// # Example
/// Handbook of Bolts and Bolted Joints: 69 600 N into aluminium of 130 MPa on 24.84 mm² per mm
/// need 21.6 mm.
/// ```
/// # use clampbook_engine::{strength::engagement::engagement_for, units::*};
/// let le = engagement_for(Newtons::new(69_600.0)?, Megapascals::new(130.0)?, 24.84);
/// assert!((le.get() - 21.6).abs() < 0.05);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn engagement_for(f: Newtons, shear: Megapascals, area_per_mm: f64) -> Millimetres {
    Millimetres::computed(f.get() / (shear.get() * area_per_mm))
}

/// Engagement at which bolt and thread of one strength break together, on basic dimensions.
///
/// Le = 2 At/(0.5 π (D − 0.64952 P))
///
/// * `area`: tensile stress area At, in mm²
/// * `d`, `p`: nominal diameter and pitch, in mm
///
/// Returns the engagement, in mm.
///
/// # Range
/// Nut and bolt of the same steel, shear at half of the tensile strength.
/// # Sources
/// FED-STD-H28/2B, length of engagement, simplified to basic dimensions.
/// # Example
/// 1/2-13, 0.1419 in²: 0.803 d.
/// ```
/// # use clampbook_engine::{strength::engagement::equal_strength_engagement, units::*};
/// let area = SquareMillimetres::new(0.1419 * 645.16)?;
/// let (d, p) = (Millimetres::new(12.7)?, Millimetres::new(25.4 / 13.0)?);
/// assert!((equal_strength_engagement(area, d, p).get() / 12.7 - 0.803).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn equal_strength_engagement(
    area: SquareMillimetres,
    d: Millimetres,
    p: Millimetres,
) -> Millimetres {
    let round = 0.5 * PI * (d.get() - 0.649_52 * p.get());
    Millimetres::computed(2.0 * area.get() / round)
}
