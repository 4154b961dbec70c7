//! Dimensions of the threads of the old British standards.
//!
//! Each form has its own depth and flank angle. No standard publishes a tensile stress area for
//! them; the mean of effective and core diameter stands in, as ISO 898-1 computes it for metric threads.

use crate::units::{Millimetres, SquareMillimetres};
use std::f64::consts::FRAC_PI_4;

/// A form of thread: how deep it is for its pitch, and the angle between its flanks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// Depth as a multiple of the pitch; effective diameter is one depth below the major one, core two.
    pub depth: f64,
    /// Angle between the flanks, in degrees.
    pub flank_angle_deg: f64,
}

/// BSW and BSF: 0.640327 P, 55° (BS 84).
pub const WHITWORTH: Form = Form {
    depth: 0.640_327,
    flank_angle_deg: 55.0,
};
/// BA: 0.6 P, 47.5° (BS 93).
pub const BA: Form = Form {
    depth: 0.6,
    flank_angle_deg: 47.5,
};
/// Cycle: 0.5327 P, 60° (BS 811, the depth from memory).
pub const CYCLE: Form = Form {
    depth: 0.5327,
    flank_angle_deg: 60.0,
};

/// Effective (pitch) diameter.
///
/// d2 = d − h P, with h 0.640327 (Whitworth), 0.6 (BA), 0.5327 (cycle)
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns d2, in mm.
///
/// # Sources
/// BS 84:1956; BS 93:1951; BS 811:1950 (depth from memory).
/// # Example
/// 1/2 BSW, BS 84: 0.4466 in.
/// ```
/// # use clampbook_engine::{geometry::british::*, units::Millimetres};
/// let d2 = effective_diameter(WHITWORTH, Millimetres::new(12.7)?, Millimetres::new(25.4 / 12.0)?);
/// assert!((d2.get() / 25.4 - 0.4466).abs() < 0.000_05);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn effective_diameter(form: Form, d: Millimetres, p: Millimetres) -> Millimetres {
    Millimetres::computed(d.get() - form.depth * p.get())
}

/// Core (minor) diameter; screw and nut share it in these standards' basic form.
///
/// d3 = d − 2 h P
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns d3, in mm.
///
/// # Sources
/// BS 84:1956; BS 93:1951; BS 811:1950 (depth from memory).
/// # Example
/// 2 BA, BS 93: 0.1468 in.
/// ```
/// # use clampbook_engine::{geometry::british::*, units::Millimetres};
/// let d3 = core_diameter(BA, Millimetres::new(4.7)?, Millimetres::new(0.81)?);
/// assert!((d3.get() / 25.4 - 0.1468).abs() < 0.000_05);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn core_diameter(form: Form, d: Millimetres, p: Millimetres) -> Millimetres {
    Millimetres::computed(d.get() - 2.0 * form.depth * p.get())
}

/// Stress area computed by analogy, because no standard publishes one.
///
/// As = π/4 ((d2 + d3)/2)²
///
/// * `d`: nominal diameter, in mm
/// * `p`: pitch, in mm, less than a third of `d`
///
/// Returns As, in mm².
///
/// # Sources
/// ISO 898-1:2013, 9.1.6.1, for metric threads; applied here by analogy.
/// # Example
/// 1/4 BSF, computed by hand from 5.724 and 5.099 mm: 23.0 mm².
/// ```
/// # use clampbook_engine::{geometry::british::*, units::Millimetres};
/// let area = stress_area(WHITWORTH, Millimetres::new(6.35)?, Millimetres::new(25.4 / 26.0)?);
/// assert!((area.get() - 23.0).abs() < 0.05);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn stress_area(form: Form, d: Millimetres, p: Millimetres) -> SquareMillimetres {
    let mean = (effective_diameter(form, d, p).get() + core_diameter(form, d, p).get()) / 2.0;
    SquareMillimetres::computed(FRAC_PI_4 * mean * mean)
}
