//! Rows about old iron: grades no torque is computed with, threads taken for each other, spanners, published torques.

use crate::{Origin, Series};

/// Why a grade is in the catalogue but no torque is computed with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Restriction {
    /// Made for steel structures and tightened by their rules.
    Structural,
    /// Neither proof nor yield stress is published.
    Unproven,
}

/// How a wrong pair shows itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Half {
    /// It jams or does not start: the hands notice.
    Kind,
    /// It goes together and fails later.
    Cruel,
}

/// Two threads that are taken for each other.
#[derive(Debug, PartialEq)]
pub struct LookAlikeRow {
    /// Short id.
    pub id: &'static str,
    /// Id of the thread on the screw.
    pub external: &'static str,
    /// Id of the thread in nut or hole.
    pub internal: &'static str,
    /// Whether the hands notice.
    pub half: Half,
    /// What happens.
    pub what_happens: &'static str,
    /// How to tell them apart.
    pub how_to_tell: &'static str,
    /// Where it comes from.
    pub origin: Origin,
}

/// Width across flats of a British head or nut; other sizes are in the hexagon parts.
#[derive(Debug, PartialEq)]
pub struct SpannerRow {
    /// Short id.
    pub id: &'static str,
    /// Thread series.
    pub series: Series,
    /// Nominal size of the thread.
    pub size: &'static str,
    /// Width across flats, in mm.
    pub across_flats_mm: f64,
    /// What is stamped on the spanner.
    pub stamped: &'static str,
    /// Where it comes from.
    pub origin: Origin,
}

/// Unit a torque is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PublishedUnit {
    /// Pound-force feet.
    PoundForceFeet,
    /// Pound-force inches.
    PoundForceInches,
    /// Newton metres.
    NewtonMetres,
}

/// A torque as printed: for something no torque is computed for, or for plain clamping in a table of its own.
#[derive(Debug, PartialEq)]
pub struct PublishedTorqueRow {
    /// Short id.
    pub id: &'static str,
    /// Id of the purpose, such as `flare-fitting`.
    pub purpose: &'static str,
    /// Size as the table names it.
    pub size: &'static str,
    /// Thread, where the table names it.
    pub thread: &'static str,
    /// Form of the seat.
    pub seat: &'static str,
    /// Material of tube and fitting, of stud or of head.
    pub material: &'static str,
    /// Lubrication the value holds for.
    pub lubrication: &'static str,
    /// Minimum torque as printed.
    pub low: f64,
    /// Maximum torque as printed.
    pub high: f64,
    /// Unit as printed.
    pub unit: PublishedUnit,
    /// Rule that goes with the value.
    pub rule: &'static str,
    /// Where it comes from.
    pub origin: Origin,
}
