//! Limits of size of threads: Unified 2A/2B and 3A/3B, metric 6g/6H, by the standards' formulae.

mod metric;
mod unified;

use crate::{
    geometry::Geometry,
    thread::{Series, System, Thread},
    units::Millimetres,
};

/// How closely a pair of threads fits.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Fit {
    /// 2A in 2B; 6g in 6H.
    #[default]
    Medium,
    /// 3A in 3B, inch threads only.
    Close,
}

/// Maximum and minimum size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Maximum.
    pub most: Millimetres,
    /// Minimum.
    pub minimum: Millimetres,
}

/// Limits of an external thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExternalLimits {
    /// Major diameter.
    pub major: Limits,
    /// Pitch diameter.
    pub pitch: Limits,
}

/// Limits of an internal thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InternalLimits {
    /// Pitch diameter.
    pub pitch: Limits,
    /// Minor diameter.
    pub minor: Limits,
}

/// Limits of the external thread; `None` for a close metric fit and for British threads, which are not tabulated here.
///
/// # Sources
/// ASME B1.1-2003 (2A, 3A); ISO 965-1:2013 (6g).
/// # Example
/// 1/2-13 UNC-2A, ASME B1.1: major 0.4985 to 0.4876, pitch 0.4485 to 0.4435 in.
/// ```
/// # use clampbook_engine::{Catalogue, strength::limits::{Fit, external_limits}};
/// let catalogue = Catalogue::built_in();
/// let thread = catalogue.thread("1/2-13").map_err(|e| e.to_string())?;
/// let limits = external_limits(thread, Fit::Medium).ok_or("no limits")?;
/// assert!((limits.pitch.minimum.get() / 25.4 - 0.4435).abs() < 0.0001);
/// # Ok::<(), String>(())
/// ```
#[must_use]
pub fn external_limits(thread: &Thread, fit: Fit) -> Option<ExternalLimits> {
    let size = Size::of(thread);
    match (thread.system(), fit) {
        (System::Inch, fit) => Some(unified::external(&size, fit)),
        (System::Metric, Fit::Medium) => Some(metric::external(&size)),
        (System::Metric, Fit::Close) | (System::British, _) => None,
    }
}

/// Limits of the internal thread; `None` for a close metric fit and for British threads, which are not tabulated here.
///
/// # Sources
/// ASME B1.1-2003 (2B, 3B); ISO 965-1:2013 (6H).
/// # Example
/// M10x1.5-6H, ISO 965-1: pitch diameter to 9.206, minor diameter to 8.676 mm.
/// ```
/// # use clampbook_engine::{Catalogue, strength::limits::{Fit, internal_limits}};
/// let catalogue = Catalogue::built_in();
/// let thread = catalogue.thread("M10x1.5").map_err(|e| e.to_string())?;
/// let limits = internal_limits(thread, Fit::Medium).ok_or("no limits")?;
/// assert!((limits.pitch.most.get() - 9.206).abs() < 0.0005);
/// assert!((limits.minor.most.get() - 8.676).abs() < 0.0005);
/// # Ok::<(), String>(())
/// ```
#[must_use]
pub fn internal_limits(thread: &Thread, fit: Fit) -> Option<InternalLimits> {
    let size = Size::of(thread);
    match (thread.system(), fit) {
        (System::Inch, fit) => Some(unified::internal(&size, fit)),
        (System::Metric, Fit::Medium) => Some(metric::internal(&size)),
        (System::Metric, Fit::Close) | (System::British, _) => None,
    }
}

/// What the formulae need of a thread.
struct Size {
    d: f64,
    p: f64,
    /// Whether the standard computes with one diameter of engagement, not nine pitches.
    engages_one_diameter: bool,
    geometry: Geometry,
}

impl Size {
    fn of(thread: &Thread) -> Self {
        Self {
            d: thread.diameter().get(),
            p: thread.pitch().get(),
            engages_one_diameter: matches!(thread.series(), Series::Unc | Series::Unf | Series::Un),
            geometry: *thread.geometry(),
        }
    }
}

/// Limits below a maximum size.
fn below(most: f64, tolerance: f64) -> Limits {
    Limits {
        most: Millimetres::computed(most),
        minimum: Millimetres::computed(most - tolerance),
    }
}

/// Limits above a minimum size.
fn above(minimum: f64, tolerance: f64) -> Limits {
    Limits {
        most: Millimetres::computed(minimum + tolerance),
        minimum: Millimetres::computed(minimum),
    }
}
