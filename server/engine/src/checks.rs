//! Checks of a clamp load against what bolt and nut can bear.

use crate::{
    answer::{Check, CheckId, Severity},
    ask::Question,
    few::Few,
    stress::{combined_stress, thread_torque},
    torque::short_form,
    units::{Newtons, exceeds},
};

/// Share of proof from which the clamp load aimed at is worth a caution (0.90: permanent joints,
/// Shigley, 9th ed., section 8-9).
pub(crate) const CAUTION_FROM: f64 = 0.90;

/// Hardness from which an electroplated part must have been baked, in HRC.
///
/// ASTM F1941 and SAE J1648 begin at 40; 39, the least of class 12.9, is the older threshold (from memory).
pub(crate) const BAKED_FROM_HRC: f64 = 39.0;

/// Loads that the checks compare.
pub(crate) struct Loads {
    /// Clamp load aimed at.
    pub(crate) nominal: Newtons,
    /// Clamp load aimed at over the working load; exactly the share where a share was asked for.
    pub(crate) share_of_working: f64,
    /// Maximum clamp load at the set torque.
    pub(crate) maximum: Newtons,
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
pub(crate) fn findings(question: &Question<'_>, loads: &Loads) -> Few<Check, 8> {
    let mut list = Few::new();
    let mut found = |id, severity, share| {
        list.push(Check {
            id,
            severity,
            share,
        })
    };
    let combined = loads
        .yielding
        .map(|yielding| combined_share(question, loads.nominal, yielding));
    against_bolt(loads, combined, &mut found);
    if let Some(hardness) = question.plated_hardness()
        && !question.baked
    {
        found(
            CheckId::PlatedHardUnbaked,
            Severity::Stop,
            hardness / BAKED_FROM_HRC,
        );
    }
    let over = |load: Newtons, limit: Newtons| load.get() / limit.get();
    if let (Some((nut, _)), Some(proof)) = (question.nut, loads.nut) {
        let nominal = over(loads.nominal, proof);
        let maximum = over(loads.maximum, proof);
        if exceeds(nominal, 1.0) {
            found(CheckId::NutAgainstTarget, Severity::Stop, nominal);
        } else if exceeds(maximum, 1.0) {
            found(CheckId::NutAgainstMaximum, Severity::Caution, maximum);
        }
        let bolt = over(loads.working, proof);
        if exceeds(bolt, 1.0) {
            found(CheckId::NutWeakerThanBolt, Severity::Caution, bolt);
        }
        if !nut.mates_with(question.grade) {
            found(CheckId::NutNotMadeForBolt, Severity::Caution, bolt);
        }
    }
    list
}

impl Question<'_> {
    /// Minimum hardness of an electroplated part that is hard enough to need baking, in HRC.
    pub(crate) fn plated_hardness(&self) -> Option<f64> {
        let plated = self.lubrication.is_some_and(|c| c.is_electroplated());
        self.strength
            .minimum_hrc()
            .filter(|hrc| plated && *hrc >= BAKED_FROM_HRC)
    }
}

/// Clamp loads against the bolt; `combined` is the stress while tightening over yield.
pub(crate) fn against_bolt(
    loads: &Loads,
    combined: Option<f64>,
    found: &mut impl FnMut(CheckId, Severity, f64),
) {
    let share = loads.share_of_working;
    if exceeds(share, 1.0) {
        found(CheckId::NominalAgainstProof, Severity::Stop, share);
    } else if share >= CAUTION_FROM {
        found(CheckId::NominalAgainstProof, Severity::Caution, share);
    }
    let over = |load: Newtons, limit: Newtons| load.get() / limit.get();
    let maximum = over(loads.maximum, loads.tensile);
    if exceeds(maximum, 1.0) {
        found(CheckId::MaximumAgainstTensile, Severity::Stop, maximum);
    }
    let maximum = over(loads.maximum, loads.working);
    if exceeds(maximum, 1.0) {
        found(CheckId::MaximumAgainstProof, Severity::Caution, maximum);
    }
    if let Some(combined) = combined
        && exceeds(combined, 1.0)
    {
        found(CheckId::CombinedAgainstYield, Severity::Caution, combined);
    }
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
