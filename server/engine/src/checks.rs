//! Checks of a clamp load against what bolt and nut can bear.

use crate::{
    answer::{Finding, FindingId, Severity},
    ask::Question,
    few::Few,
    geometry::stress_diameter,
    torque::short_form,
    units::{Megapascals, Millimetres, NewtonMetres, Newtons, SquareMillimetres},
};
use std::f64::consts::{FRAC_PI_6, PI};

/// Share of proof from which the clamp load aimed at is worth a caution (0.90: permanent joints,
/// Shigley, 9th ed., section 8-9).
pub(crate) const CAUTION_FROM: f64 = 0.90;

/// Loads that the checks compare.
pub(crate) struct Loads {
    /// Clamp load aimed at.
    pub(crate) nominal: Newtons,
    /// Clamp load aimed at over the working load; exactly the share where a share was asked for.
    pub(crate) share_of_working: f64,
    /// Greatest clamp load at the set torque.
    pub(crate) greatest: Newtons,
    /// Proof load, or what stands for it.
    pub(crate) working: Newtons,
    /// Load at minimum yield.
    pub(crate) yielding: Option<Newtons>,
    /// Load at minimum tensile strength.
    pub(crate) tensile: Newtons,
    /// Proof load of the nut.
    pub(crate) nut: Option<Newtons>,
}

/// Everything the checks find.
pub(crate) fn findings(question: &Question<'_>, loads: &Loads) -> Few<Finding, 8> {
    let mut list = Few::new();
    let mut found = |id, severity, share| {
        list.push(Finding {
            id,
            severity,
            share,
        })
    };
    let share = loads.share_of_working;
    if share > 1.0 {
        found(FindingId::NominalAgainstProof, Severity::Stop, share);
    } else if share >= CAUTION_FROM {
        found(FindingId::NominalAgainstProof, Severity::Caution, share);
    }
    let over = |load: Newtons, limit: Newtons| load.get() / limit.get();
    let greatest = over(loads.greatest, loads.tensile);
    if greatest > 1.0 {
        found(FindingId::GreatestAgainstTensile, Severity::Stop, greatest);
    }
    let greatest = over(loads.greatest, loads.working);
    if greatest > 1.0 {
        found(FindingId::GreatestAgainstProof, Severity::Caution, greatest);
    }
    if let Some(yielding) = loads.yielding {
        let combined = combined_share(question, loads.nominal, yielding);
        if combined > 1.0 {
            found(FindingId::CombinedAgainstYield, Severity::Caution, combined);
        }
    }
    if let (Some((nut, _)), Some(proof)) = (question.nut, loads.nut) {
        let nominal = over(loads.nominal, proof);
        let greatest = over(loads.greatest, proof);
        if nominal > 1.0 {
            found(FindingId::NutAgainstTarget, Severity::Stop, nominal);
        } else if greatest > 1.0 {
            found(FindingId::NutAgainstGreatest, Severity::Caution, greatest);
        }
        let bolt = over(loads.working, proof);
        if bolt > 1.0 {
            found(FindingId::NutWeakerThanBolt, Severity::Caution, bolt);
        }
        if !nut.mates_with(question.grade) {
            found(FindingId::NutNotMadeForBolt, Severity::Caution, bolt);
        }
    }
    list
}

fn combined_share(question: &Question<'_>, nominal: Newtons, yielding: Newtons) -> f64 {
    let geometry = question.thread.geometry();
    let (d, d2) = (question.thread.diameter(), geometry.pitch_diameter);
    let total = short_form(question.nut_factor, d, nominal);
    let twist = thread_torque(total, nominal, d, d2, question.thread.pitch());
    let stress = combined_stress(nominal, twist, geometry.tensile_stress_area);
    let yield_stress = yielding.get() / geometry.tensile_stress_area.get();
    stress.get() / yield_stress
}

/// Part of the tightening torque that twists the bolt.
///
/// μ = (T/F − P/2π) / (d2/(2 cos 30°) + 1.25 D/2), not below 0
/// TG = F (P/2π + μ d2/(2 cos 30°)), not above T
///
/// * `total`: tightening torque [N·m]
/// * `f`: clamp load [N]
/// * `d`, `d2`, `p`: nominal diameter, pitch diameter, pitch [mm]
///
/// Returns the thread's part [N·m].
///
/// # Range
/// 60° threads; equal friction in thread and under the head, mean bearing diameter 1.25 D.
/// # Sources
/// Shigley, 9th ed., equation 8-26 (collar diameter 1.25 d); VDI 2230 part 1 (2003), equation R13/1.
fn thread_torque(
    total: NewtonMetres,
    f: Newtons,
    d: Millimetres,
    d2: Millimetres,
    p: Millimetres,
) -> NewtonMetres {
    let helix = p.get() / (2.0 * PI);
    let thread_arm = d2.get() / (2.0 * FRAC_PI_6.cos());
    let bearing_arm = 1.25 * d.get() / 2.0;
    let lever = total.get() * 1000.0 / f.get();
    let friction = (lever - helix) / (thread_arm + bearing_arm);
    if friction <= 0.0 {
        // Less torque than the helix alone takes: all of it twists.
        return total;
    }
    NewtonMetres::computed(f.get() * (helix + friction * thread_arm) / 1000.0)
}

/// Stress from tension and twist together.
///
/// σred = √(σ² + 3 τ²), σ = F/As, τ = TG/(π d0³/12)
///
/// * `f`: clamp load [N]
/// * `twist`: torque in the thread [N·m]
/// * `area`: tensile stress area [mm²]
///
/// Returns the equivalent stress [MPa].
///
/// # Sources
/// VDI 2230 part 1 (2003), 5.4.3: von Mises, plastic section modulus π d0³/12 on the stress diameter.
fn combined_stress(f: Newtons, twist: NewtonMetres, area: SquareMillimetres) -> Megapascals {
    let tension = f.get() / area.get();
    let d0 = stress_diameter(area).get();
    let shear = twist.get() * 1000.0 / (PI * d0.powi(3) / 12.0);
    Megapascals::computed((tension * tension + 3.0 * shear * shear).sqrt())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::units::NutFactor;

    /// Nut factor of a joint whose friction is known, long form.
    ///
    /// K = [P/2π + μ (d2/(2 cos 30°) + Db/2)] / D
    fn nut_factor(mu: f64, d: f64, d2: f64, p: f64, bearing: f64) -> NutFactor {
        let lever = p / (2.0 * PI) + mu * (d2 / (2.0 * FRAC_PI_6.cos()) + bearing / 2.0);
        NutFactor::computed(lever / d)
    }

    /// VDI 2230 (2003), M12-8.8 at μ 0.14: 41.9 kN uses 0.9 of 640 MPa; thread part 48.8 N·m.
    #[test]
    fn vdi_m12_uses_nine_tenths_of_yield() {
        let area = SquareMillimetres::new(84.27).unwrap();
        let f = Newtons::new(41_900.0).unwrap();
        let stress = combined_stress(f, NewtonMetres::new(48.8).unwrap(), area);
        assert!((stress.get() / 640.0 - 0.90).abs() < 0.005, "{stress:?}");
    }

    /// The same joint: 93 N·m in all, bearing diameter 15.0 mm (1.25 D), of it 48.8 N·m in the thread.
    #[test]
    fn the_thread_takes_its_part_of_the_torque() {
        let mm = |v| Millimetres::new(v).unwrap();
        let k = nut_factor(0.14, 12.0, 10.863, 1.75, 15.0);
        let f = Newtons::new(41_980.0).unwrap();
        let total = short_form(k, mm(12.0), f);
        assert!((total.get() - 93.0).abs() < 0.5, "{total:?}");
        let twist = thread_torque(total, f, mm(12.0), mm(10.863), mm(1.75));
        assert!((twist.get() - 48.8).abs() < 0.5, "{twist:?}");
    }
}
