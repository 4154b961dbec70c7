//! Published fastener tables as `static` rows.
//!
//! The rows are written in the CSV files beside this file; `build.rs` checks them and turns them
//! into the tables below, so a bad row fails the build with its file and line. What the sources
//! are, and where they contradict each other, is told in `SOURCES.md`.
//!
//! Nothing is calculated here: stresses are kept in megapascals, diameters in millimetres,
//! everything else as published.

mod joints;
mod old_iron;
mod procedures;
mod targets;

use std::borrow::Cow;

pub use joints::{AcrossFlatsRow, ParentMetalRow};
pub use old_iron::{
    Half, LookAlikeRow, PublishedTorqueRow, PublishedUnit, Restriction, SpannerRow,
};
pub use procedures::{
    After, Around, LockNutKind, LockNutRow, MachineState, ProcedureRow, StepKind, StepRow, Values,
};
pub use targets::{PublishedTargetRow, TargetUnit};

/// Edition of the tables; part of every answer, so that a later edition can be told apart.
pub const EDITION: &str = "2026.11";

/// How a row came to its values.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Basis {
    /// Read in the cited document.
    Found,
    /// Computed with the formula of the cited standard.
    Computed,
    /// Read in a document and recomputed, both agreeing.
    FoundAndComputed,
    /// From memory of the cited standard; says so in every answer that used it.
    Memory,
    /// A fact of the trade without a document.
    CommonPractice,
    /// From tests of the shop that uses it; never in these tables.
    Shop,
}

/// A standard, handbook or sheet that rows cite.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// Short id used in the tables.
    pub id: Cow<'static, str>,
    /// Citation in words.
    pub citation: Cow<'static, str>,
}

/// Where a row comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Origin {
    /// What it cites.
    pub sources: &'static [&'static Source],
    /// How it came to its values.
    pub basis: Basis,
    /// What else to know, may be empty.
    pub note: &'static str,
}

/// Inch or metric: which sizes a table speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum System {
    /// Unified inch threads.
    Inch,
    /// ISO metric threads.
    Metric,
    /// Threads of the old British standards: Whitworth form, BA and cycle.
    British,
}

/// Thread series.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Series {
    /// Unified coarse.
    Unc,
    /// Unified fine.
    Unf,
    /// Unified extra fine.
    Unef,
    /// Unified constant pitch (8 threads per inch).
    Un,
    /// Unified special, such as the obsolete 1-14.
    Uns,
    /// ISO metric coarse.
    MetricCoarse,
    /// ISO metric fine.
    MetricFine,
    /// British Standard Whitworth, 55°.
    Bsw,
    /// British Standard Fine, 55°.
    Bsf,
    /// British Association, 47.5°.
    Ba,
    /// British cycle thread (also CEI), 60°.
    Bsc,
}

/// A tensile stress area as printed in a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PublishedArea {
    /// The value as printed, in `in²` for inch threads and `mm²` for metric ones.
    pub value: f64,
    /// Half of the last digit printed, in the same unit.
    pub half_last_digit: f64,
}

/// One thread size.
#[derive(Debug, PartialEq)]
pub struct ThreadRow {
    /// Short id.
    pub id: &'static str,
    /// Inch, metric or British.
    pub system: System,
    /// Thread series.
    pub series: Series,
    /// The designation as the standard writes it: `7/16-20 UNF`, `#10-32 UNF`, `M10x1.25`, `2 BA`.
    pub designation: &'static str,
    /// Nominal size as said: `7/16`, `#10`, `10`, and the number of a BA thread.
    pub size: &'static str,
    /// Nominal diameter, in mm.
    pub diameter_mm: f64,
    /// Pitch, in mm.
    pub pitch_mm: f64,
    /// Threads per inch, for inch threads.
    pub threads_per_inch: Option<f64>,
    /// Tensile stress area as printed, where a table prints it.
    pub published_stress_area: Option<PublishedArea>,
    /// Where it comes from.
    pub origin: Origin,
}

/// Strength of a grade in one range of sizes.
#[derive(Debug, PartialEq)]
pub struct StrengthRow {
    /// Smallest diameter, in mm.
    pub from_mm: f64,
    /// Whether the smallest diameter itself is outside the range (`over 16 mm`).
    pub from_is_open: bool,
    /// Largest diameter, in mm, inside the range.
    pub to_mm: f64,
    /// Proof stress, in MPa, where the standard has one.
    pub proof_mpa: Option<f64>,
    /// Minimum yield stress, in MPa, where the standard has one.
    pub yield_mpa: Option<f64>,
    /// Minimum tensile strength, in MPa.
    pub tensile_mpa: f64,
    /// Hardness as printed, empty where none is given.
    pub hardness: &'static str,
    /// Minimum hardness in HRC, where it is printed in that scale.
    pub minimum_hrc: Option<f64>,
    /// Where it comes from.
    pub origin: Origin,
}

/// One grade of bolts, screws and studs.
#[derive(Debug, PartialEq)]
pub struct GradeRow {
    /// Short id.
    pub id: &'static str,
    /// Standard, such as `SAE J429`.
    pub standard: &'static str,
    /// Name inside the standard, such as `5` or `8.8`.
    pub name: &'static str,
    /// Standard and name: `SAE J429 5`, `ISO 898-1 8.8`.
    pub full_name: &'static str,
    /// Other names a mechanic may say.
    pub aliases: &'static [&'static str],
    /// Which threads the standard covers.
    pub system: System,
    /// What is marked on the head.
    pub head_marking: &'static str,
    /// Material and treatment.
    pub material: &'static str,
    /// Why no torque is computed with it, if so.
    pub restriction: Option<Restriction>,
    /// Strength by size, smallest sizes first.
    pub strengths: &'static [StrengthRow],
}

/// Proof stress of a nut in one range of sizes and series.
#[derive(Debug, PartialEq)]
pub struct NutProofRow {
    /// Smallest diameter, in mm.
    pub from_mm: f64,
    /// Whether the smallest diameter itself is outside the range.
    pub from_is_open: bool,
    /// Largest diameter, in mm, inside the range.
    pub to_mm: f64,
    /// Thread series the row holds for.
    pub series: &'static [Series],
    /// Proof stress on the stress area of the bolt thread, in MPa.
    pub proof_mpa: f64,
    /// Where it comes from.
    pub origin: Origin,
}

/// One grade of nuts.
#[derive(Debug, PartialEq)]
pub struct NutRow {
    /// Short id.
    pub id: &'static str,
    /// Standard, such as `SAE J995`.
    pub standard: &'static str,
    /// Name inside the standard.
    pub name: &'static str,
    /// Other names a mechanic may say.
    pub aliases: &'static [&'static str],
    /// Form: hex, heavy hex, thin.
    pub style: &'static str,
    /// Which threads the standard covers.
    pub system: System,
    /// What is marked on the nut.
    pub marking: &'static str,
    /// Ids of the bolt grades it is made for; empty for nuts that only lock.
    pub mates: &'static [&'static str],
    /// Proof stress by size and series.
    pub proofs: &'static [NutProofRow],
}

/// One lubrication or finish, and how it turns torque into clamp load.
#[derive(Debug, PartialEq)]
pub struct LubricationRow {
    /// Short id.
    pub id: &'static str,
    /// Name as spoken.
    pub name: &'static str,
    /// Other names a mechanic may say.
    pub aliases: &'static [&'static str],
    /// Nut factor K to work with.
    pub nut_factor: f64,
    /// Lowest K in the literature.
    pub low_nut_factor: f64,
    /// Highest K in the literature.
    pub high_nut_factor: f64,
    /// Whether thread and turned face are lubricated; decides the scatter of the clamp load.
    pub lubricated: bool,
    /// Whether it is an electroplated coat, which loads hard steel with hydrogen.
    pub electroplated: bool,
    /// Where it comes from.
    pub origin: Origin,
}

/// Whether a diameter lies in a range that may begin *over* its smallest size.
fn covers(diameter_mm: f64, from_mm: f64, from_is_open: bool, to_mm: f64) -> bool {
    let above = diameter_mm > from_mm || (diameter_mm == from_mm && !from_is_open);
    above && diameter_mm <= to_mm
}

impl StrengthRow {
    /// Whether the row holds for this nominal diameter, in mm.
    #[must_use]
    pub fn covers(&self, diameter_mm: f64) -> bool {
        covers(diameter_mm, self.from_mm, self.from_is_open, self.to_mm)
    }
}

impl NutProofRow {
    /// Whether the row holds for this nominal diameter, in mm.
    #[must_use]
    pub fn covers(&self, diameter_mm: f64) -> bool {
        covers(diameter_mm, self.from_mm, self.from_is_open, self.to_mm)
    }
}

include!(concat!(env!("OUT_DIR"), "/tables.rs"));
