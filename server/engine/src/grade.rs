//! A grade of bolts: what it is called, how it is marked, how strong it is at a size.

use crate::{
    thread::Thread,
    torque::load,
    units::{Megapascals, Newtons},
};
pub use clampbook_data::Restriction;
use clampbook_data::{GradeRow, Origin, StrengthRow, System};
use std::fmt;

/// One grade of bolts, screws and studs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grade {
    row: &'static GradeRow,
}

/// Strength of a grade in the range of sizes a thread falls in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    row: &'static StrengthRow,
}

impl Grade {
    pub(crate) const fn of(row: &'static GradeRow) -> Self {
        Self { row }
    }

    /// Stable id, such as `j429-5`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Standard, such as `SAE J429`.
    #[must_use]
    pub const fn standard(&self) -> &'static str {
        self.row.standard
    }

    /// Name inside the standard, such as `5` or `8.8`.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.row.name
    }

    /// Standard and name: `SAE J429 5`, `ISO 898-1 8.8`.
    #[must_use]
    pub const fn full_name(&self) -> &'static str {
        self.row.full_name
    }

    /// Other names it is known by.
    #[must_use]
    pub const fn aliases(&self) -> &'static [&'static str] {
        self.row.aliases
    }

    /// Which threads the standard covers.
    #[must_use]
    pub const fn system(&self) -> System {
        self.row.system
    }

    /// What is marked on the head.
    #[must_use]
    pub const fn head_marking(&self) -> &'static str {
        self.row.head_marking
    }

    /// Material and treatment.
    #[must_use]
    pub const fn material(&self) -> &'static str {
        self.row.material
    }

    /// Why no torque is computed with it; `None` for nearly all.
    #[must_use]
    pub const fn restriction(&self) -> Option<Restriction> {
        self.row.restriction
    }

    /// Whether its standard speaks of threads of a system; British letter grades were used for Unified threads too (BS 1768).
    #[must_use]
    pub fn covers(&self, system: System) -> bool {
        system == self.row.system || (self.row.system == System::British && system == System::Inch)
    }

    /// Whether it is stainless, which galls.
    #[must_use]
    pub fn is_stainless(&self) -> bool {
        self.row.material.contains("stainless")
    }

    /// Strength by size, smallest sizes first.
    pub fn strengths(&self) -> impl Iterator<Item = Strength> + use<> {
        self.row.strengths.iter().map(|row| Strength { row })
    }

    /// Strength at a size; `None` where the standard has no grade at this size.
    #[must_use]
    pub fn strength_at(&self, thread: &Thread) -> Option<Strength> {
        if !self.covers(thread.system()) {
            return None;
        }
        let d = thread.diameter().get();
        self.strengths().find(|s| s.row.covers(d))
    }
}

impl Strength {
    /// Smallest and largest diameter, in mm; the smallest is outside where
    /// [`Self::smallest_is_outside`] says so.
    #[must_use]
    pub const fn sizes_mm(&self) -> (f64, f64) {
        (self.row.from_mm, self.row.to_mm)
    }

    /// Whether the range begins *over* its smallest diameter.
    #[must_use]
    pub const fn smallest_is_outside(&self) -> bool {
        self.row.from_is_open
    }

    /// Proof stress, where the standard has one.
    #[must_use]
    pub fn proof(&self) -> Option<Megapascals> {
        self.row.proof_mpa.map(Megapascals::computed)
    }

    /// Minimum yield stress, where the standard has one.
    #[must_use]
    pub fn yield_stress(&self) -> Option<Megapascals> {
        self.row.yield_mpa.map(Megapascals::computed)
    }

    /// Minimum tensile strength.
    #[must_use]
    pub const fn tensile(&self) -> Megapascals {
        Megapascals::computed(self.row.tensile_mpa)
    }

    /// Whether a proof or yield stress is published, without which nothing can be computed.
    #[must_use]
    pub const fn is_proven(&self) -> bool {
        self.row.proof_mpa.is_some() || self.row.yield_mpa.is_some()
    }

    /// Hardness as printed, may be empty.
    #[must_use]
    pub const fn hardness(&self) -> &'static str {
        self.row.hardness
    }

    /// Minimum hardness in HRC, where it is printed in that scale.
    #[must_use]
    pub const fn minimum_hrc(&self) -> Option<f64> {
        self.row.minimum_hrc
    }

    /// The stress a share is taken of.
    ///
    /// Sp, or 0.85 Sy where the standard has no proof stress (stainless).
    ///
    /// # Sources
    /// Shigley, 9th ed., section 8-9 (equation 8-31).
    #[must_use]
    pub fn working_stress(&self) -> WorkingStress {
        match self.row.proof_mpa {
            Some(proof) => WorkingStress::Proof(Megapascals::computed(proof)),
            None => {
                // Zero for a grade that has neither; `Grade::restriction` keeps it from any torque.
                let yield_mpa = self.row.yield_mpa.unwrap_or_default();
                WorkingStress::ShareOfYield(Megapascals::computed(SHARE_OF_YIELD * yield_mpa))
            }
        }
    }

    /// The load that a share is taken of, on a thread: its proof load where the standard has one.
    #[must_use]
    pub fn working_load(&self, thread: &Thread) -> Newtons {
        let area = thread.geometry().tensile_stress_area;
        load(self.working_stress().get(), area)
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}

/// Why no torque is computed with a restricted grade, and what to do instead.
#[must_use]
pub const fn not_computed(restriction: Restriction) -> (&'static str, &'static str) {
    match restriction {
        Restriction::Structural => (
            "structural bolts are stretched past proof by their own rules and have no place in a machine joint",
            "Choose SAE J429 5 or ASTM A449 for A325 strength, SAE J429 8 or ASTM A354 BD for A490.",
        ),
        Restriction::Unproven => (
            "only its tensile strength is known; no proof or yield stress is published",
            "Use the maker's torque, or fit a grade with a published proof stress.",
        ),
    }
}

/// Share of yield that stands for proof where a standard has none.
pub const SHARE_OF_YIELD: f64 = 0.85;

/// What a share of proof is taken of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WorkingStress {
    /// The standard's proof stress.
    Proof(Megapascals),
    /// 0.85 of yield, because the standard has no proof stress.
    ShareOfYield(Megapascals),
}

impl WorkingStress {
    /// The stress itself.
    #[must_use]
    pub const fn get(self) -> Megapascals {
        match self {
            Self::Proof(s) | Self::ShareOfYield(s) => s,
        }
    }
}

/// The full name.
impl fmt::Display for Grade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.row.full_name)
    }
}
