//! A grade of nuts: which bolts it is made for and what load proves it.

use crate::{grade::Grade, thread::Thread, units::Megapascals};
use clampbook_data::{NutProofRow, NutRow, Origin, Series, System};
use std::fmt;

/// One grade of nuts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nut {
    row: &'static NutRow,
}

/// Proof stress of a nut at a size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NutProof {
    row: &'static NutProofRow,
}

impl Nut {
    pub(crate) const fn of(row: &'static NutRow) -> Self {
        Self { row }
    }

    /// Stable id, such as `j995-5`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.row.id
    }

    /// Standard, such as `SAE J995`.
    #[must_use]
    pub const fn standard(&self) -> &'static str {
        self.row.standard
    }

    /// Name inside the standard.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.row.name
    }

    /// Other names it is known by.
    #[must_use]
    pub const fn aliases(&self) -> &'static [&'static str] {
        self.row.aliases
    }

    /// Form: hex, heavy hex, thin.
    #[must_use]
    pub const fn style(&self) -> &'static str {
        self.row.style
    }

    /// Which threads the standard covers.
    #[must_use]
    pub const fn system(&self) -> System {
        self.row.system
    }

    /// What is marked on the nut.
    #[must_use]
    pub const fn marking(&self) -> &'static str {
        self.row.marking
    }

    /// Ids of the bolt grades it is made for; empty for nuts that only lock.
    #[must_use]
    pub const fn mates(&self) -> &'static [&'static str] {
        self.row.mates
    }

    /// Whether the nut is made for bolts of this grade.
    #[must_use]
    pub fn mates_with(&self, grade: &Grade) -> bool {
        self.row.mates.contains(&grade.id())
    }

    /// Proof stress by size and series.
    pub fn proofs(&self) -> impl Iterator<Item = NutProof> + use<> {
        self.row.proofs.iter().map(|row| NutProof { row })
    }

    /// Proof stress at a size; `None` where the tables have no such nut.
    #[must_use]
    pub fn proof_at(&self, thread: &Thread) -> Option<NutProof> {
        if thread.system() != self.row.system {
            return None;
        }
        let d = thread.diameter().get();
        self.proofs()
            .find(|p| p.row.series.contains(&thread.series()) && p.row.covers(d))
    }
}

impl NutProof {
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

    /// Thread series it holds for.
    #[must_use]
    pub const fn series(&self) -> &'static [Series] {
        self.row.series
    }

    /// Proof stress, on the stress area of the bolt thread.
    #[must_use]
    pub const fn stress(&self) -> Megapascals {
        Megapascals::computed(self.row.proof_mpa)
    }

    /// Where it comes from.
    #[must_use]
    pub const fn origin(&self) -> &'static Origin {
        &self.row.origin
    }
}

/// `SAE J995 5`, `ASTM A563 DH heavy`.
impl fmt::Display for Nut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.row.standard, self.row.name)
    }
}
