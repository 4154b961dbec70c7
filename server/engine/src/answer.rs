//! The answer: numbers, how far they may be off, what was checked, and where it all comes from.
//!
//! Everything is held inside the value itself, so that an answer needs no heap. Sentences for
//! people hang on ids ([`GovernedBy`], [`CheckId`], [`Assumption`], [`Caution`]).

pub use crate::texts::{Assumption, Caution, CheckId, GovernedBy};
use crate::{
    few::Few,
    source::{Cited, Source},
    units::{NewtonMetres, Newtons, NutFactor, SquareMillimetres},
};

/// Torque for a joint, with everything that belongs to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer<'c> {
    /// Torque to set.
    pub torque: NewtonMetres,
    /// Clamp load aimed at.
    pub clamp_load: Newtons,
    /// Nut factor used.
    pub nut_factor: NutFactor,
    /// Tensile stress area, computed.
    pub tensile_stress_area: SquareMillimetres,
    /// Load that shares of proof are taken of: the proof load, or 0.85 of yield where the standard has none.
    pub working_load: Newtons,
    /// Proof load of the bolt; absent where the standard has no proof stress.
    pub proof_load: Option<Newtons>,
    /// Load at minimum yield; absent where the standard has no yield stress.
    pub yield_load: Option<Newtons>,
    /// Load at minimum tensile strength.
    pub tensile_load: Newtons,
    /// Proof load of the nut, if one was named.
    pub nut_proof_load: Option<Newtons>,
    /// How far the clamp load may be off at the set torque, tool included.
    pub scatter: Scatter<'c>,
    /// How well the nut factor of this lubrication is known.
    pub literature: Literature<'c>,
    /// What decided the clamp load.
    pub governed_by: GovernedBy,
    /// What the checks found, worst first within each check.
    pub findings: Few<Check, 8>,
    /// What was taken for granted.
    pub assumptions: Few<Assumption, 8>,
    /// What to be careful about, apart from the findings.
    pub cautions: Few<Caution, 8>,
    /// Where the values come from.
    pub sources: Few<Cited<'c>, 20>,
}

/// Clamp load that may result from the *set* torque.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scatter<'c> {
    /// Minimum clamp load.
    pub minimum: Newtons,
    /// Maximum clamp load; decides the checks.
    pub maximum: Newtons,
    /// Share by which the clamp load may be off either way, 0.25 or 0.35.
    pub relative_scatter: f64,
    /// Where the share comes from.
    pub source: &'c Source,
}

/// Torque that would be wanted if the nut factor were at either end of the literature.
///
/// Shown, never used to stop a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Literature<'c> {
    /// Lowest nut factor in the literature.
    pub low_nut_factor: NutFactor,
    /// Highest nut factor in the literature.
    pub high_nut_factor: NutFactor,
    /// Torque wanted at the lowest.
    pub low_torque: NewtonMetres,
    /// Torque wanted at the highest.
    pub high_torque: NewtonMetres,
    /// Where the ends come from; absent when the nut factor was given without a lubrication.
    pub source: Option<&'c Source>,
}

/// How serious a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing.
    Note,
    /// Somebody should look at it.
    Caution,
    /// Do not tighten like this.
    Stop,
}

/// One thing a check found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// Which check, with its sentence.
    pub id: CheckId,
    /// How serious.
    pub severity: Severity,
    /// Load over limit, 1 being at the limit.
    pub share: f64,
}

impl Answer<'_> {
    /// The most serious finding, if there is any.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|f| f.severity).max()
    }
}
