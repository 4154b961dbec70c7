//! Tension and twist in a bolt while it is tightened.

use crate::{
    geometry::stress_diameter,
    units::{Megapascals, Millimetres, NewtonMetres, Newtons, SquareMillimetres, lesser},
};
use std::f64::consts::{FRAC_PI_6, PI};

/// Mean bearing diameter under a hexagon head or nut, over the nominal diameter.
const BEARING_OVER_NOMINAL: f64 = 1.25;

/// Part of the tightening torque that twists the bolt.
///
/// μ = (T/F − P/2π) / (d2/(2 cos 30°) + 1.25 D/2)
///
/// TG = F (P/2π + μ d2/(2 cos 30°)); all of T where μ would be negative
///
/// * `total`: tightening torque T, in N·m
/// * `f`: clamp load F, in N
/// * `d`, `d2`, `p`: nominal diameter, pitch diameter, pitch, in mm
///
/// Returns the thread's part TG, in N·m.
///
/// # Range
/// 60° threads, flat seats; equal friction in thread and under the head, mean bearing diameter
/// 1.25 D.
/// # Sources
/// Shigley, 9th ed., equation 8-26 (collar diameter 1.25 d); VDI 2230 part 1 (2003), equation R13/1.
/// # Example
/// VDI 2230, M12-8.8 at μ 0.14: of 93 N·m at 41.9 kN the thread takes 48.8 N·m. VDI takes the mean
/// bearing diameter of this head, 15.065 mm, for our 15.0 mm.
/// ```
/// # use clampbook_engine::{stress::thread_torque, units::*};
/// let mm = Millimetres::new;
/// let total = NewtonMetres::new(93.0)?;
/// let part = thread_torque(total, Newtons::new(41_900.0)?, mm(12.0)?, mm(10.863)?, mm(1.75)?);
/// assert!((part.get() - 48.8).abs() < 0.3);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn thread_torque(
    total: NewtonMetres,
    f: Newtons,
    d: Millimetres,
    d2: Millimetres,
    p: Millimetres,
) -> NewtonMetres {
    let helix = p.get() / (2.0 * PI);
    let thread_arm = d2.get() / (2.0 * FRAC_PI_6.cos());
    let bearing_arm = BEARING_OVER_NOMINAL * d.get() / 2.0;
    let lever = total.get() * 1000.0 / f.get();
    let friction = (lever - helix) / (thread_arm + bearing_arm);
    let part = f.get() * (helix + friction * thread_arm) / 1000.0;
    // The part is greater than the whole exactly where friction would be negative.
    NewtonMetres::computed(lesser(part, total.get()))
}

/// Stress from tension and twist together.
///
/// σred = √(σ² + 3 τ²), σ = F/As, τ = TG/(π d0³/12)
///
/// * `f`: clamp load F, in N
/// * `twist`: torque in the thread TG, in N·m
/// * `area`: tensile stress area As, in mm²
///
/// Returns the equivalent stress, in MPa.
///
/// # Sources
/// VDI 2230 part 1 (2003), calculation step R7: von Mises with the plastic section modulus π d0³/12 on the stress
/// diameter d0. Shigley uses the elastic π d0³/16, which gives a third more shear.
/// # Example
/// VDI 2230, M12-8.8 at μ 0.14: 41.9 kN and 48.8 N·m use 0.90 of the yield stress, 640 MPa.
/// ```
/// # use clampbook_engine::{stress::combined_stress, units::*};
/// let (f, twist) = (Newtons::new(41_900.0)?, NewtonMetres::new(48.8)?);
/// let stress = combined_stress(f, twist, SquareMillimetres::new(84.27)?);
/// assert!((stress.get() / 640.0 - 0.90).abs() < 0.005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn combined_stress(f: Newtons, twist: NewtonMetres, area: SquareMillimetres) -> Megapascals {
    let tension = f.get() / area.get();
    let d0 = stress_diameter(area).get();
    let shear = twist.get() * 1000.0 / (PI * d0.powi(3) / 12.0);
    Megapascals::computed((tension * tension + 3.0 * shear * shear).sqrt())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// VDI 2230, M12-8.8 at μ 0.14: the thread takes 48.8 of 93 N·m (15.0 for 15.065 mm under the head).
    #[test]
    fn the_thread_takes_its_part() {
        let mm = |v| Millimetres::new(v).unwrap();
        let total = NewtonMetres::new(93.0).unwrap();
        let f = Newtons::new(41_900.0).unwrap();
        let part = thread_torque(total, f, mm(12.0), mm(10.863), mm(1.75));
        assert!((part.get() - 48.8).abs() < 0.3, "{part:?}");
    }

    /// Less torque than the helix alone takes is no clamping; all of it counts as twist.
    #[test]
    fn a_torque_below_the_helix_twists_as_a_whole() {
        let mm = |v| Millimetres::new(v).unwrap();
        let total = NewtonMetres::new(5.0).unwrap();
        let f = Newtons::new(41_900.0).unwrap();
        assert_eq!(
            thread_torque(total, f, mm(12.0), mm(10.863), mm(1.75)),
            total
        );
    }
}
