//! From a resolved question to torque, its parts and both bands.

use super::{
    Levers, LongQuestion, LongTarget, Modulus, Seat, Turning, equivalent_nut_factor, levers,
    load_at_yield_share, screw_torque, stress_per_load, torque,
};
use crate::{
    answer::{Caution, GovernedBy},
    checks::{self, Loads},
    grade::WorkingStress,
    remarks::Remarks,
    source::{Basis, UsedFor},
    torque::{DRY_SCATTER, LUBRICATED_SCATTER, load},
    units::{Friction, Megapascals, NewtonMetres, Newtons},
};
use clampbook_data::cite;

/// What decided the clamp load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LongGoverns {
    /// As in the short form.
    As(GovernedBy),
    /// A share of yield, tension and twist together.
    CombinedYield,
}

impl LongGoverns {
    /// Stable id.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::As(governs) => governs.id(),
            Self::CombinedYield => "combined-yield-of-bolt",
        }
    }
}

/// Torque by the long form, with everything that belongs to it.
#[derive(Clone, Debug, PartialEq)]
pub struct LongAnswer {
    /// Torque to set.
    pub torque: NewtonMetres,
    /// Clamp load aimed at.
    pub clamp_load: Newtons,
    /// Part of the torque that lifts the load.
    pub helix_torque: NewtonMetres,
    /// Part that thread friction takes.
    pub thread_torque: NewtonMetres,
    /// Part that friction under the turned part takes.
    pub bearing_torque: NewtonMetres,
    /// Torque that loosens it again, friction unchanged; N·m.
    pub loosening_torque_nm: f64,
    /// Nut factor of the short form that gives the same torque.
    pub equivalent_nut_factor: f64,
    /// Load that shares of proof are taken of.
    pub working_load: Newtons,
    /// von Mises stress while tightening, plastic section modulus.
    pub combined_plastic: Megapascals,
    /// The same with the elastic section modulus.
    pub combined_elastic: Megapascals,
    /// Minimum yield stress, where the standard has one.
    pub yield_stress: Option<Megapascals>,
    /// Minimum and maximum clamp load at the set torque, tool included.
    pub scatter: (Newtons, Newtons),
    /// Share by which the clamp load may be off either way.
    pub relative_scatter: f64,
    /// How well friction is known, where its ends were given.
    pub friction: Option<FrictionSpread>,
    /// What decided the clamp load.
    pub governed_by: LongGoverns,
    /// Findings, assumptions, cautions, sources.
    pub remarks: Remarks<'static>,
}

/// What the ends of the friction would make of it; information only.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrictionSpread {
    /// Torque wanted at the lowest friction.
    pub low_torque: NewtonMetres,
    /// Torque wanted at the highest friction.
    pub high_torque: NewtonMetres,
    /// Clamp load that the set torque makes at the highest friction.
    pub minimum_clamp_load: Newtons,
    /// Clamp load that the set torque makes at the lowest friction.
    pub maximum_clamp_load: Newtons,
}

/// Computes the answer to a resolved question; it always succeeds.
#[must_use]
pub fn compute_long_form(question: &LongQuestion<'_>) -> LongAnswer {
    let thread = question.thread;
    let area = thread.geometry().tensile_stress_area;
    let at = |mt: Friction, mb: Friction| {
        levers(
            thread.pitch(),
            thread.geometry().pitch_diameter,
            mt,
            mb,
            question.seat,
        )
    };
    let levers = at(question.thread_friction, question.bearing_friction);
    let yield_stress = question.strength.yield_stress();
    let working = load(question.strength.working_stress().get(), area);
    let (clamp_load, governed_by) = aim(question, working, &levers);
    let relative_scatter = if question.lubricated {
        LUBRICATED_SCATTER
    } else {
        DRY_SCATTER
    };
    let off = |sign: f64| Newtons::computed(clamp_load.get() * (1.0 + sign * relative_scatter));
    let scatter = (off(-1.0), off(1.0));
    let stress = |modulus| {
        let per_load = stress_per_load(area, levers.twisting(), modulus);
        Megapascals::computed(per_load * clamp_load.get())
    };
    let combined_plastic = stress(Modulus::Plastic);
    let set = torque(clamp_load, levers.total());
    let spread = question.friction_band.map(|(low, high)| {
        let (low, high) = (at(low, low).total(), at(high, high).total());
        let made = |lever: f64| Newtons::computed(set.get() * 1000.0 / lever);
        FrictionSpread {
            low_torque: torque(clamp_load, low),
            high_torque: torque(clamp_load, high),
            minimum_clamp_load: made(high),
            maximum_clamp_load: made(low),
        }
    });
    let mut remarks = remarks(question);
    let loads = Loads {
        nominal: clamp_load,
        share_of_working: match question.target {
            LongTarget::ShareOfProof(share) => share.get(),
            _ => clamp_load.get() / working.get(),
        },
        maximum: scatter.1,
        working,
        yielding: yield_stress.map(|s| load(s, area)),
        tensile: load(question.strength.tensile(), area),
        nut: None,
    };
    let combined = yield_stress.map(|s| combined_plastic.get() / s.get());
    checks::against_bolt(&loads, combined, &mut |id, severity, share| {
        remarks.found(id, severity, share);
    });
    LongAnswer {
        torque: set,
        clamp_load,
        helix_torque: torque(clamp_load, levers.helix),
        thread_torque: torque(clamp_load, levers.thread),
        bearing_torque: torque(clamp_load, levers.bearing),
        loosening_torque_nm: loosening(question, clamp_load, &levers),
        equivalent_nut_factor: equivalent_nut_factor(&levers, thread.diameter()),
        working_load: working,
        combined_plastic,
        combined_elastic: stress(Modulus::Elastic),
        yield_stress,
        scatter,
        relative_scatter,
        friction: spread,
        governed_by,
        remarks,
    }
}

fn aim(question: &LongQuestion<'_>, working: Newtons, levers: &Levers) -> (Newtons, LongGoverns) {
    let area = question.thread.geometry().tensile_stress_area;
    match question.target {
        LongTarget::ClampLoad(wanted) => (wanted, LongGoverns::As(GovernedBy::WantedClampLoad)),
        LongTarget::ShareOfYield(share) => {
            // Resolving refused a share of yield where there is none.
            let yields = question
                .strength
                .yield_stress()
                .map_or(0.0, Megapascals::get);
            let twisting = levers.twisting();
            let f = load_at_yield_share(share.get(), yields, area, twisting, Modulus::Plastic);
            (f, LongGoverns::CombinedYield)
        }
        LongTarget::ShareOfProof(share) => {
            let governs = match question.strength.working_stress() {
                WorkingStress::Proof(_) => GovernedBy::ProofOfBolt,
                WorkingStress::ShareOfYield(_) => GovernedBy::YieldOfBolt,
            };
            let f = Newtons::computed(share.get() * working.get());
            (f, LongGoverns::As(governs))
        }
    }
}

/// The exact form: near the point where a thread would run down by itself the small-angle one misleads.
fn loosening(question: &LongQuestion<'_>, f: Newtons, levers: &Levers) -> f64 {
    let thread = question.thread;
    let d2 = thread.geometry().pitch_diameter;
    let friction = question.thread_friction;
    // Only the thread part; the seat's lever, flat or cone, is known already.
    let seatless = (Friction::computed(0.0), d2);
    let part = screw_torque(
        Turning::Loosening,
        f,
        thread.pitch(),
        d2,
        30.0,
        friction,
        seatless,
    );
    part + torque(f, levers.bearing).get()
}

fn remarks(question: &LongQuestion<'_>) -> Remarks<'static> {
    let mut list = Remarks::default();
    list.assume("T = F [P/(2 pi) + mu_t d2/(2 cos 30 deg) + seat], steel parts, turned freely, no prevailing torque.");
    list.assume("Combined stress is von Mises with the plastic section modulus pi d0^3/12; the elastic one, pi d0^3/16, is shown beside it.");
    match question.seat {
        Seat::Flat { .. } => list.assume("Flat seat: mu_b Db/2."),
        Seat::Cone { .. } => list.assume("Cone seat: mu_b Db/(2 sin of its half angle)."),
    }
    if question.share_by_default {
        list.assume("0.75 of proof, for a joint that comes apart again.");
    }
    if question.strength.proof().is_none() {
        list.assume("The standard has no proof stress; 0.85 of minimum yield stands for it.");
    }
    list.mind(Caution::NotMakers.text());
    if question.grade.is_stainless() {
        list.mind(Caution::Galling.text());
    }
    if matches!(question.seat, Seat::Cone { .. }) {
        list.mind("A cone seat wedges: a lubricated one overloads stud and wheel; wheel nuts take the maker's torque, dry.");
    }
    list.cite(
        &[cite::VDI_2230, cite::SHIGLEY_8_26],
        UsedFor::Method,
        Basis::Found,
    );
    list.cite_row(question.thread.origin(), UsedFor::Thread);
    list.cite_row(question.strength.origin(), UsedFor::Strength);
    if let Some(hex) = question.hex {
        list.cite_row(hex.origin(), UsedFor::Dimensions);
    }
    let scatter = if question.lubricated {
        cite::NASA_TM_106943
    } else {
        cite::NASA_STD_5020
    };
    list.cite(&[scatter], UsedFor::Scatter, Basis::Found);
    list
}
