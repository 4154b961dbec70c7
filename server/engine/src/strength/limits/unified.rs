//! Allowances and tolerances of ASME B1.1-2003, section 5; inside in inches.

use super::{ExternalLimits, Fit, InternalLimits, Limits, Size, above, below};
use crate::units::{MILLIMETRES_PER_INCH as INCH, Millimetres};

/// Tolerance of the pitch diameter, class 2A.
///
/// Td2 = 0.0015 ∛D + 0.0015 √LE + 0.015 ∛P²
fn pitch_tolerance(size: &Size) -> f64 {
    let (d, p) = (size.d / INCH, size.p / INCH);
    let engagement = if size.engages_one_diameter {
        d
    } else {
        9.0 * p
    };
    0.0015 * d.cbrt() + 0.0015 * engagement.sqrt() + 0.015 * (p * p).cbrt()
}

/// Tolerance of the minor diameter, 2B or 3B, between its bounds.
fn minor_tolerance(size: &Size, fit: Fit) -> f64 {
    let (d, p) = (size.d / INCH, size.p / INCH);
    let by_size = 0.05 * (p * p).cbrt() + 0.03 * p / d - 0.002;
    let minimum = match fit {
        Fit::Medium => 0.25 * p - 0.40 * p * p,
        // 13 threads per inch and finer; coarser ones have a plain share of the pitch.
        Fit::Close if (1.0 / p).round() >= 13.0 => 0.23 * p - 1.5 * p * p,
        Fit::Close => 0.12 * p,
    };
    // From a quarter inch on class 2B has `minimum` alone, which is then the greater one anyway.
    by_size.clamp(minimum, 0.394 * p)
}

pub(super) fn external(size: &Size, fit: Fit) -> ExternalLimits {
    let p = size.p / INCH;
    let class_2a = pitch_tolerance(size);
    let (allowance, tolerance) = match fit {
        Fit::Medium => (0.30 * class_2a, class_2a),
        Fit::Close => (0.0, 0.75 * class_2a),
    };
    let (d, d2) = (size.d / INCH, size.geometry.pitch_diameter.get() / INCH);
    ExternalLimits {
        major: inches(below(d - allowance, 0.060 * (p * p).cbrt())),
        pitch: inches(below(d2 - allowance, tolerance)),
    }
}

pub(super) fn internal(size: &Size, fit: Fit) -> InternalLimits {
    let share = match fit {
        Fit::Medium => 1.30,
        Fit::Close => 0.975,
    };
    let d2 = size.geometry.pitch_diameter.get() / INCH;
    let d1 = size.geometry.internal_minor_diameter.get() / INCH;
    InternalLimits {
        pitch: inches(above(d2, share * pitch_tolerance(size))),
        minor: inches(above(d1, minor_tolerance(size, fit))),
    }
}

fn inches(limits: Limits) -> Limits {
    Limits {
        most: Millimetres::computed(limits.most.get() * INCH),
        minimum: Millimetres::computed(limits.minimum.get() * INCH),
    }
}
