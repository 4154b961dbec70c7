//! Rows about what a bolt clamps and is screwed into.

use crate::{Origin, System};

/// Hexagon head, nut and clearance hole of one size.
#[derive(Debug, PartialEq)]
pub struct AcrossFlatsRow {
    /// Short id.
    pub id: &'static str,
    /// Inch or metric.
    pub system: System,
    /// Nominal size as said.
    pub size: &'static str,
    /// Nominal diameter, in mm.
    pub diameter_mm: f64,
    /// Width across flats of head and nut, in mm.
    pub across_flats_mm: f64,
    /// Height of the head, in mm.
    pub head_height_mm: f64,
    /// Minimum outer diameter of the bearing face, in mm.
    pub bearing_diameter_mm: f64,
    /// Height of the plain nut, in mm.
    pub nut_height_mm: f64,
    /// Clearance hole, medium or normal series, in mm.
    pub clearance_hole_mm: f64,
    /// Slots of the castellated nut, where one exists.
    pub castle_slots: Option<u32>,
    /// Cross hole for the split pin, in mm, where one exists.
    pub cross_hole_mm: Option<f64>,
    /// Where it comes from.
    pub origin: Origin,
}

/// A metal that is clamped or tapped.
#[derive(Debug, PartialEq)]
pub struct ParentMetalRow {
    /// Short id.
    pub id: &'static str,
    /// Name as spoken.
    pub name: &'static str,
    /// Other names a mechanic may say.
    pub aliases: &'static [&'static str],
    /// Shear strength, in MPa.
    pub shear_mpa: f64,
    /// Surface pressure allowed under head, nut or washer, in MPa.
    pub bearing_mpa: f64,
    /// Modulus of elasticity, in MPa.
    pub modulus_mpa: f64,
    /// Engagement by the rule of the trade, as a multiple of the diameter.
    pub trade_engagement: f64,
    /// Where it comes from.
    pub origin: Origin,
}
