//! Rows about printed targets other than a torque: clamp loads and turns of the nut.

use crate::Origin;

/// What is printed, with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TargetUnit {
    /// Clamp load in pounds-force.
    PoundForce,
    /// Clamp load in thousands of pounds-force.
    Kip,
    /// Turn of the nut from snug, in degrees.
    Degrees,
}

/// A clamp load or a turn of the nut as printed.
#[derive(Debug, PartialEq)]
pub struct PublishedTargetRow {
    /// Short id.
    pub id: &'static str,
    /// Size as the table names it, or length of the bolt for a turn.
    pub size: &'static str,
    /// Thread; empty where the table holds for all.
    pub thread: &'static str,
    /// Grade or material of the bolt, as the table names it.
    pub grade: &'static str,
    /// What the value holds for: lubrication, kind of joint, slope of the faces.
    pub lubrication: &'static str,
    /// Minimum value as printed; for a turn the turn itself.
    pub low: f64,
    /// Value aimed at, where the table prints one.
    pub nominal: Option<f64>,
    /// Maximum value, where the table prints one.
    pub high: Option<f64>,
    /// Unit as printed.
    pub unit: TargetUnit,
    /// Rule that goes with the value.
    pub rule: &'static str,
    /// Where it comes from.
    pub origin: Origin,
}
