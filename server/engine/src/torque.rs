//! From a resolved question to torque and clamp load.

use crate::{
    answer::{Answer, Assumption, Caution, GovernedBy, Literature, Scatter},
    ask::{Question, Target},
    checks::{self, Loads},
    few::Few,
    grade::WorkingStress,
    source::{Basis, Cited, UsedFor, cited},
    thread::Series,
    units::{Megapascals, Millimetres, NewtonMetres, Newtons, NutFactor, SquareMillimetres},
};
use clampbook_data::cite;

/// Share by which the clamp load is off with a hand torque wrench and lubricated threads.
///
/// NASA TM-106943 (1995), p. 4; NASA-STD-5020.
pub const LUBRICATED_SCATTER: f64 = 0.25;
/// Share by which the clamp load is off with a hand torque wrench and dry threads.
///
/// NASA-STD-5020: torque control, unlubricated or as received.
pub const DRY_SCATTER: f64 = 0.35;

/// Load that a stress makes on an area.
///
/// F = S·A
///
/// * `stress`:, in MPa
/// * `area`: tensile stress area, in mm²
///
/// Returns the load, in N.
///
/// # Sources
/// ISO 898-1:2013, 9.1 (loads are stress times stress area).
/// # Example
/// M10x1.5 class 8.8, ISO 898-1 table 5: 580 MPa on 58.0 mm² prove at 33 700 N (rounded up there).
/// ```
/// # use clampbook_engine::{torque::load, units::*};
/// let f = load(Megapascals::new(580.0)?, SquareMillimetres::new(58.0)?);
/// assert!((f.get() - 33_700.0).abs() < 100.0);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn load(stress: Megapascals, area: SquareMillimetres) -> Newtons {
    Newtons::computed(stress.get() * area.get())
}

/// Torque for a clamp load, short form.
///
/// T = K·D·F
///
/// * `k`: nut factor, 0.05 to 0.60
/// * `d`: nominal diameter, in mm
/// * `f`: clamp load, in N
///
/// Returns the torque, in N·m.
///
/// # Range
/// Flat seats, steel threads turned freely at nut or head; prevailing torque comes on top.
/// # Sources
/// Shigley, Mechanical Engineering Design, 9th ed., equation 8-27.
/// # Example
/// Shigley, example 8-3 b: 3/4 in, 25 000 lbf, K = 0.20 gives 3750 lbf in.
/// ```
/// # use clampbook_engine::{torque::short_form, units::*};
/// let f = Newtons::new(25_000.0 * NEWTONS_PER_POUND_FORCE)?;
/// let t = short_form(NutFactor::new(0.20)?, Millimetres::new(0.75 * 25.4)?, f);
/// assert!((t.get() / NEWTON_METRES_PER_POUND_FORCE_INCH - 3750.0).abs() < 0.5);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn short_form(k: NutFactor, d: Millimetres, f: Newtons) -> NewtonMetres {
    NewtonMetres::computed(k.get() * d.get() / 1000.0 * f.get())
}

/// Computes the answer to a resolved question. It always succeeds and allocates nothing.
#[must_use]
pub fn compute<'c>(question: &Question<'c>) -> Answer<'c> {
    let area = question.thread.geometry().tensile_stress_area;
    let diameter = question.thread.diameter();
    let working = load(question.strength.working_stress().get(), area);
    let (clamp_load, governed_by) = match (question.target, question.strength.working_stress()) {
        (Target::ClampLoad(wanted), _) => (wanted, GovernedBy::WantedClampLoad),
        (Target::ShareOfProof(share), stress) => (
            Newtons::computed(share.get() * working.get()),
            match stress {
                WorkingStress::Proof(_) => GovernedBy::ProofOfBolt,
                WorkingStress::ShareOfYield(_) => GovernedBy::YieldOfBolt,
            },
        ),
    };
    let torque_at = |k| short_form(k, diameter, clamp_load);
    let scatter = scatter(question, clamp_load);
    let loads = Loads {
        nominal: clamp_load,
        share_of_working: match question.target {
            Target::ShareOfProof(share) => share.get(),
            Target::ClampLoad(wanted) => wanted.get() / working.get(),
        },
        maximum: scatter.maximum,
        working,
        yielding: question.strength.yield_stress().map(|s| load(s, area)),
        tensile: load(question.strength.tensile(), area),
        nut: question.nut.map(|(_, proof)| load(proof.stress(), area)),
    };
    let (low, high) = question.literature();
    Answer {
        torque: torque_at(question.nut_factor),
        clamp_load,
        nut_factor: question.nut_factor,
        tensile_stress_area: area,
        working_load: working,
        proof_load: question.strength.proof().map(|s| load(s, area)),
        yield_load: loads.yielding,
        tensile_load: loads.tensile,
        nut_proof_load: loads.nut,
        scatter,
        literature: Literature {
            low_nut_factor: low,
            high_nut_factor: high,
            low_torque: torque_at(low),
            high_torque: torque_at(high),
            source: question
                .lubrication
                .and_then(|c| Some(c.cited(UsedFor::NutFactor).next()?.source)),
        },
        governed_by,
        findings: checks::findings(question, &loads),
        assumptions: assumptions(question),
        cautions: cautions(question),
        sources: sources(question, &scatter),
    }
}

impl Question<'_> {
    /// Lowest and highest nut factor: the lubrication's, or the given one when no lubrication is said.
    fn literature(&self) -> (NutFactor, NutFactor) {
        self.lubrication
            .map_or((self.nut_factor, self.nut_factor), |c| {
                (c.low_nut_factor(), c.high_nut_factor())
            })
    }

    fn is_lubricated(&self) -> bool {
        self.lubrication.is_some_and(|c| c.is_lubricated())
    }
}

fn scatter<'c>(question: &Question<'c>, nominal: Newtons) -> Scatter<'c> {
    let (relative_scatter, source) = if question.is_lubricated() {
        (LUBRICATED_SCATTER, cite::NASA_TM_106943)
    } else {
        (DRY_SCATTER, cite::NASA_STD_5020)
    };
    Scatter {
        minimum: Newtons::computed(nominal.get() * (1.0 - relative_scatter)),
        maximum: Newtons::computed(nominal.get() * (1.0 + relative_scatter)),
        relative_scatter,
        source,
    }
}

fn assumptions(question: &Question<'_>) -> Few<Assumption, 8> {
    let mut list = Few::new();
    list.push(Assumption::ShortForm);
    if question.share_by_default {
        list.push(Assumption::DefaultProofShare);
    }
    if question.strength.proof().is_none() {
        list.push(Assumption::NoProofInStandard);
    }
    if question.nut_factor_was_given {
        list.push(Assumption::NutFactorGiven);
    }
    if question.lubrication.is_none() {
        list.push(Assumption::DryScatterAssumed);
    }
    if question.baked && question.plated_hardness().is_some() {
        list.push(Assumption::Baked);
    }
    if question.strength.yield_stress().is_some() {
        list.push(Assumption::EqualFriction);
        list.push(Assumption::PlasticSectionModulus);
    } else {
        list.push(Assumption::NoYieldInStandard);
    }
    list
}

fn cautions(question: &Question<'_>) -> Few<Caution, 8> {
    let mut list = Few::new();
    list.push(Caution::NotMakers);
    if question.bases().any(|b| b == Basis::Memory) {
        list.push(Caution::FromMemory);
    }
    if question.bases().any(|b| b == Basis::Shop) {
        list.push(Caution::ShopsOwn);
    }
    if question.designation.is_left_hand() {
        list.push(Caution::LeftHand);
    }
    if question.grade.is_stainless() {
        list.push(Caution::Galling);
    }
    if question.thread.series() == Series::Uns {
        list.push(Caution::ObsoleteThread);
    }
    if question.nut.is_none() {
        list.push(Caution::NutNotChecked);
    }
    list
}

impl Question<'_> {
    /// How each row used here came to its values.
    fn bases(&self) -> impl Iterator<Item = Basis> {
        let lubrication = self.lubrication.map(|c| c.basis());
        let nut = self.nut.map(|(_, proof)| proof.origin().basis);
        [
            Some(self.thread.origin().basis),
            Some(self.strength.origin().basis),
            lubrication,
            nut,
        ]
        .into_iter()
        .flatten()
    }
}

fn sources<'c>(question: &Question<'c>, scatter: &Scatter<'c>) -> Few<Cited<'c>, 20> {
    let mut list = Few::new();
    list.push(Cited {
        source: cite::SHIGLEY_8_27,
        used_for: UsedFor::Method,
        basis: Basis::Found,
    });
    cited(question.thread.origin(), UsedFor::Thread).for_each(|one| list.push(one));
    cited(question.strength.origin(), UsedFor::Strength).for_each(|one| list.push(one));
    if let Some(lubrication) = question.lubrication {
        lubrication
            .cited(UsedFor::NutFactor)
            .for_each(|one| list.push(one));
    }
    if let Some((_, proof)) = question.nut {
        cited(proof.origin(), UsedFor::Nut).for_each(|one| list.push(one));
    }
    if question.strength.yield_stress().is_some() {
        list.push(Cited {
            source: cite::VDI_2230,
            used_for: UsedFor::CombinedStress,
            basis: Basis::Found,
        });
    }
    if question.plated_hardness().is_some() {
        list.push(Cited {
            source: cite::PLATING_PRACTICE,
            used_for: UsedFor::Rule,
            basis: Basis::Memory,
        });
    }
    list.push(Cited {
        source: scatter.source,
        used_for: UsedFor::Scatter,
        basis: Basis::Found,
    });
    list
}
