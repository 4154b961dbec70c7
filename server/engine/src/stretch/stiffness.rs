//! Springs: bolt parts in line, members as cones.

use crate::units::{Degrees, Millimetres, Newtons, SquareMillimetres, Stiffness, lesser};
use std::f64::consts::PI;

/// Modulus of elasticity of steel bolts, in MPa (VDI 2230 part 1, 2003, table A8).
pub const STEEL_MODULUS_MPA: f64 = 205_000.0;

/// Half angle of the cone that members are pressed in (Shigley, 9th ed., section 8-5).
pub const CONE_HALF_ANGLE_DEG: f64 = 30.0;

/// Stiffness of a rod.
///
/// k = E·A/l
///
/// * `modulus_mpa`: modulus of elasticity E, in MPa
/// * `area`: cross section A, in mm²
/// * `length`: length l, in mm
///
/// Returns k, in N/mm.
///
/// # Sources
/// Shigley, 9th ed., equation 8-16 (its two parts).
/// # Example
/// NASA TM-106943: 29 Mpsi, 0.0878 in², 1 in: 2.546e6 lbf/in.
/// ```
/// # use clampbook_engine::{stretch::stiffness::rod, units::*};
/// let psi = NEWTONS_PER_POUND_FORCE / 645.16;
/// let k = rod(29e6 * psi, SquareMillimetres::new(0.0878 * 645.16)?, Millimetres::new(25.4)?);
/// assert!((k.get() * 25.4 / NEWTONS_PER_POUND_FORCE / 1e6 - 2.546).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn rod(modulus_mpa: f64, area: SquareMillimetres, length: Millimetres) -> Stiffness {
    Stiffness::computed(modulus_mpa * area.get() / length.get())
}

/// Stiffness of springs in line.
///
/// 1/k = Σ 1/ki
///
/// * `springs`: their stiffness, in N/mm; at least one
///
/// Returns k, in N/mm.
///
/// # Sources
/// Shigley, 9th ed., equation 8-18.
/// # Example
/// Shigley, 8th ed., problem 8-24: 5.9125 and 11.778 Mlbf/in make 3.936.
/// ```
/// # use clampbook_engine::{stretch::stiffness::in_line, units::*};
/// let k = in_line([Stiffness::new(5.9125)?, Stiffness::new(11.778)?]);
/// assert!((k.get() - 3.936).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn in_line(springs: impl IntoIterator<Item = Stiffness>) -> Stiffness {
    let compliance: f64 = springs.into_iter().map(|k| 1.0 / k.get()).sum();
    Stiffness::computed(1.0 / compliance)
}

/// Stiffness of one layer pressed in a cone.
///
/// k = π E d tan α / ln[(2 t tan α + D − d)(D + d)/((2 t tan α + D + d)(D − d))]
///
/// * `modulus_mpa`: modulus of elasticity E of the layer, in MPa
/// * `d`: hole (taken as the bolt's diameter), in mm
/// * `start`: diameter D at the cone's narrow end, in mm, more than `d`
/// * `t`: thickness, in mm
/// * `half_angle_deg`: half angle α of the cone, 30 or 45 degrees in the literature
///
/// Returns k, in N/mm.
///
/// # Sources
/// Shigley, 9th ed., equation 8-19 (8-20 for 30°); NASA TM-106943 (1995) takes 45°.
/// # Example
/// Shigley, example 8-2: d 0.5, D 0.75, t 0.595 in, 30 Mpsi: 30.80e6 lbf/in.
/// ```
/// # use clampbook_engine::{stretch::stiffness::cone, units::*};
/// let inch = |v: f64| Millimetres::new(v * 25.4);
/// let psi = NEWTONS_PER_POUND_FORCE / 645.16;
/// let k = cone(30e6 * psi, inch(0.5)?, inch(0.75)?, inch(0.595)?, 30.0);
/// assert!((k.get() * 25.4 / NEWTONS_PER_POUND_FORCE / 1e6 - 30.80).abs() < 0.005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn cone(
    modulus_mpa: f64,
    d: Millimetres,
    start: Millimetres,
    t: Millimetres,
    half_angle_deg: f64,
) -> Stiffness {
    let (d, start) = (d.get(), start.get());
    let slope = half_angle_deg.to_radians().tan();
    let widened = 2.0 * t.get() * slope;
    let ratio = (widened + start - d) * (start + d) / ((widened + start + d) * (start - d));
    Stiffness::computed(PI * modulus_mpa * d * slope / ratio.ln())
}

/// One clamped layer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness.
    pub thickness: Millimetres,
    /// Modulus of elasticity, in MPa.
    pub modulus_mpa: f64,
}

/// Stiffness of clamped layers: two cones that meet in the middle of the grip.
///
/// * `layers`: from the head on; at least one
/// * `d`: bolt's diameter, in mm
/// * `start`: diameter of the bearing face, in mm
///
/// Returns k, in N/mm.
///
/// # Range
/// Parts wider than the cone; narrower ones give more.
/// # Sources
/// Shigley, 9th ed., section 8-5 and example 8-2 (several layers, 30°).
/// # Example
/// Shigley, example 8-2: 0.595 in steel on 0.75 in cast iron (14.5 Mpsi), 1/2 in bolt: 9.378e6 lbf/in.
/// ```
/// # use clampbook_engine::{stretch::stiffness::{Layer, members}, units::*};
/// let inch = |v: f64| Millimetres::new(v * 25.4);
/// let psi = NEWTONS_PER_POUND_FORCE / 645.16;
/// let layer = |t, e: f64| inch(t).map(|thickness| Layer { thickness, modulus_mpa: e * psi });
/// let k = members(&[layer(0.595, 30e6)?, layer(0.75, 14.5e6)?], inch(0.5)?, inch(0.75)?);
/// assert!((k.get() * 25.4 / NEWTONS_PER_POUND_FORCE / 1e6 - 9.378).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn members(layers: &[Layer], d: Millimetres, start: Millimetres) -> Stiffness {
    let half = layers.iter().map(|l| l.thickness.get()).sum::<f64>() / 2.0;
    let from_head = half_cone(layers.iter(), half, d, start);
    let from_nut = half_cone(layers.iter().rev(), half, d, start);
    Stiffness::computed(1.0 / (from_head + from_nut))
}

/// Compliance of one cone down to the middle of the grip, in mm/N.
fn half_cone<'l>(
    layers: impl Iterator<Item = &'l Layer>,
    half: f64,
    d: Millimetres,
    start: Millimetres,
) -> f64 {
    let slope = CONE_HALF_ANGLE_DEG.to_radians().tan();
    let mut passed = 0.0;
    let mut compliance = 0.0;
    for layer in layers {
        let (thickness, rest) = (layer.thickness.get(), half - passed);
        let part = lesser(thickness, rest);
        // A remainder of rounding is no layer.
        if part <= half * 1e-12 {
            break;
        }
        let widened = Millimetres::computed(start.get() + 2.0 * passed * slope);
        let part_mm = Millimetres::computed(part);
        let k = cone(layer.modulus_mpa, d, widened, part_mm, CONE_HALF_ANGLE_DEG);
        compliance += 1.0 / k.get();
        passed += part;
    }
    compliance
}

/// What is turned or screwed in at the far end of the bolt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FarEnd {
    /// A nut.
    Nut,
    /// A tapped hole in a metal with this modulus of elasticity, in MPa.
    Tapped {
        /// Modulus of elasticity, in MPa.
        modulus_mpa: f64,
    },
}

/// A bolt as a spring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bolt {
    /// Nominal diameter.
    pub d: Millimetres,
    /// Minor diameter of the thread.
    pub d3: Millimetres,
    /// Length of full body inside the grip, in mm; may be 0.
    pub body_mm: f64,
    /// Length of free thread inside the grip, in mm; may be 0.
    pub free_thread_mm: f64,
    /// Modulus of elasticity, in MPa.
    pub modulus_mpa: f64,
    /// What holds the far end.
    pub far_end: FarEnd,
}

/// Stiffness of a hexagon bolt with head, free thread, engaged thread and nut.
///
/// δ = 0.5 d/(E·AN) + l1/(E·AN) + lG/(E·A3) + 0.5 d/(E·A3) + lM/(EM·AN);
/// lM = 0.4 d for a nut, 0.33 d for a tapped hole
///
/// Returns 1/δ, in N/mm.
///
/// # Sources
/// VDI 2230 part 1 (2003), section 5.1.1, equations 5.1/3 to 5.1/13 (substitute lengths).
/// # Example
/// M12x1.75, 40 mm body, 20 mm free thread, nut, 205 000 MPa, by hand: δ = (6 + 40 + 4.8)/(205 000 ·
/// 113.10) + (20 + 6)/(205 000 · 76.25) = 3.854e-6 mm/N; k = 259 400 N/mm.
/// ```
/// # use clampbook_engine::{stretch::stiffness::*, units::*};
/// let mm = Millimetres::new;
/// let k = bolt(&Bolt {
///     d: mm(12.0)?, d3: mm(9.853)?, body_mm: 40.0, free_thread_mm: 20.0,
///     modulus_mpa: 205_000.0, far_end: FarEnd::Nut,
/// });
/// assert!((k.get() - 259_400.0).abs() < 200.0, "{k:?}");
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn bolt(bolt: &Bolt) -> Stiffness {
    let circle = |d: f64| PI / 4.0 * d * d;
    let d = bolt.d.get();
    let (whole, core) = (circle(d), circle(bolt.d3.get()));
    let (end_mm, end_modulus) = match bolt.far_end {
        FarEnd::Nut => (0.4 * d, bolt.modulus_mpa),
        FarEnd::Tapped { modulus_mpa } => (0.33 * d, modulus_mpa),
    };
    let compliance = (0.5 * d + bolt.body_mm) / (bolt.modulus_mpa * whole)
        + (bolt.free_thread_mm + 0.5 * d) / (bolt.modulus_mpa * core)
        + end_mm / (end_modulus * whole);
    Stiffness::computed(1.0 / compliance)
}

/// Share of a load from outside that the bolt takes.
///
/// Φ = n·kb/(kb + kj)
///
/// * `bolt`, `members`: stiffness, in N/mm
/// * `plane`: loading plane factor n, 0 to 1; 1 where the load acts under head and nut
///
/// Returns the share.
///
/// # Sources
/// Shigley, 9th ed., equation 8-24; NASA TM-106943 (1995), loading plane factor.
/// # Example
/// NASA TM-106943: 2.546e6 and 5.26e6 lbf/in give 0.326.
/// ```
/// # use clampbook_engine::{stretch::stiffness::load_share, units::*};
/// let share = load_share(Stiffness::new(2.546e6)?, Stiffness::new(5.26e6)?, 1.0);
/// assert!((share - 0.326).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn load_share(bolt: Stiffness, members: Stiffness, plane: f64) -> f64 {
    plane * bolt.get() / (bolt.get() + members.get())
}

/// Angle from snug that makes a clamp load, all elastic.
///
/// θ = 360° F (1/kb + 1/kj)/P
///
/// * `f`: clamp load, in N
/// * `bolt`, `members`: stiffness, in N/mm
/// * `p`: pitch, in mm
///
/// Returns the angle, in degrees.
///
/// # Range
/// Below yield of bolt and members only; a yield angle is never derived, only published.
/// # Sources
/// Shigley, 9th ed., section 8-8 (turn-of-nut).
/// # Example
/// 3/8-24 of 1 in grip, all steel: the 60 degrees of one slot are 14.8 kip on 2.131e6 lbf/in in line.
/// ```
/// # use clampbook_engine::{stretch::stiffness::elastic_angle, units::*};
/// let lbf_per_in = |k: f64| Stiffness::new(k * NEWTONS_PER_POUND_FORCE / 25.4);
/// let f = Newtons::new(14_800.0 * NEWTONS_PER_POUND_FORCE)?;
/// let p = Millimetres::new(25.4 / 24.0)?;
/// let angle = elastic_angle(f, lbf_per_in(2.634e6)?, lbf_per_in(11.02e6)?, p);
/// assert!((angle.get() - 60.0).abs() < 0.3);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn elastic_angle(f: Newtons, bolt: Stiffness, members: Stiffness, p: Millimetres) -> Degrees {
    let travel = f.get() * (1.0 / bolt.get() + 1.0 / members.get());
    Degrees::computed(360.0 * travel / p.get())
}
