//! Helical wire inserts: the hole they need, and what they change.

use crate::{
    source::{Basis, Cited, UsedFor},
    thread::Thread,
    units::Millimetres,
};
use clampbook_data::cite;

/// What the tapped hole of a helical insert adds to every diameter of the thread, in pitches: 3/2 H.
const ADDED_PITCHES: f64 = 1.299_038;

/// The hole for a helical insert (STI), basic sizes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsertHole {
    /// Minimum major diameter of the hole's thread.
    pub major: Millimetres,
    /// Minimum pitch diameter.
    pub pitch: Millimetres,
    /// Minimum minor diameter, about the drill.
    pub minor: Millimetres,
    /// How many times longer the sheared path in the parent metal is than without an insert.
    pub shear_gain: f64,
    /// Where it is from.
    pub source: Cited<'static>,
}

/// The hole for a helical insert of this thread; `None` for British threads, whose inserts have other forms.
///
/// All diameters lie 1.299038 P above those of the thread; the parent metal shears at the hole's
/// major diameter instead of the screw's, so the gain is (d + 1.299038 P)/d.
///
/// * `thread`: a Unified or metric thread
///
/// Returns diameters in mm.
///
/// # Sources
/// ASME B18.29.1 (from memory).
/// # Example
/// 1/4-20 STI, ASME B18.29.1: major 0.3150, pitch 0.2825, minor 0.2608 in.
/// ```
/// # use clampbook_engine::{Catalogue, insert::insert_hole};
/// let catalogue = Catalogue::built_in();
/// let thread = catalogue.thread("1/4-20").map_err(|e| e.to_string())?;
/// let hole = insert_hole(thread).ok_or("none")?;
/// assert!((hole.major.get() / 25.4 - 0.3150).abs() < 0.000_06);
/// assert!((hole.pitch.get() / 25.4 - 0.2825).abs() < 0.000_06);
/// assert!((hole.minor.get() / 25.4 - 0.2608).abs() < 0.000_06);
/// # Ok::<(), String>(())
/// ```
#[must_use]
pub fn insert_hole(thread: &Thread) -> Option<InsertHole> {
    if thread.is_british() {
        return None;
    }
    let added = ADDED_PITCHES * thread.pitch().get();
    let (d, geometry) = (thread.diameter().get(), thread.geometry());
    Some(InsertHole {
        major: Millimetres::computed(d + added),
        pitch: Millimetres::computed(geometry.pitch_diameter.get() + added),
        minor: Millimetres::computed(geometry.internal_minor_diameter.get() + added),
        shear_gain: (d + added) / d,
        source: Cited {
            source: cite::ASME_B18_29_1,
            used_for: UsedFor::Dimensions,
            basis: Basis::Memory,
        },
    })
}
