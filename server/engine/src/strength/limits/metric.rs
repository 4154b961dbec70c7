//! Deviations and tolerances of ISO 965-1:2013, clause 13, in micrometres, rounded to the R40 series
//! of ISO 3 as the standard rounds them.
//!
//! The standard's own tables depart from its formulae in a few places "for a smooth progression";
//! the formula stands here, and the published checks name those places.

use super::{ExternalLimits, InternalLimits, Size, above, below};

/// Ends of the diameter steps of ISO 965-1, in mm.
const STEPS: [f64; 10] = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0];

/// One decade of the R40 series, ISO 3.
const R40: [f64; 40] = [
    100.0, 106.0, 112.0, 118.0, 125.0, 132.0, 140.0, 150.0, 160.0, 170.0, 180.0, 190.0, 200.0,
    212.0, 224.0, 236.0, 250.0, 265.0, 280.0, 300.0, 315.0, 335.0, 355.0, 375.0, 400.0, 425.0,
    450.0, 475.0, 500.0, 530.0, 560.0, 600.0, 630.0, 670.0, 710.0, 750.0, 800.0, 850.0, 900.0,
    950.0,
];

/// Steps of R40 from a tolerance to 1.32 of it.
const STEPS_TO_1_32: i32 = 5;

/// Td2(6) = 90 P^0.4 d^0.1, d being the geometric mean of the diameter step.
fn pitch_step(size: &Size) -> i32 {
    let pair = STEPS
        .windows(2)
        .find(|pair| size.d <= pair[1])
        .map_or((180.0, 355.0), |pair| (pair[0], pair[1]));
    let mean = (pair.0 * pair.1).sqrt();
    nearest(90.0 * size.p.powf(0.4) * mean.powf(0.1))
}

/// Place of the nearest R40 number, counted from 100.
fn nearest(value: f64) -> i32 {
    // 40 numbers to a decade; the guess is off by one at most.
    let guess = (40.0 * (value / 100.0).log10()).round() as i32;
    let apart = |step: i32| (number(step) - value).abs();
    // From above, since a tie is rounded up: 230 becomes 236.
    (guess - 1..=guess + 1)
        .rev()
        .min_by(|a, b| apart(*a).total_cmp(&apart(*b)))
        .unwrap_or(guess)
}

fn number(step: i32) -> f64 {
    R40[step.rem_euclid(40) as usize] * 10_f64.powi(step.div_euclid(40))
}

pub(super) fn external(size: &Size) -> ExternalLimits {
    let p = size.p;
    // es of position g is −(15 + 11 P).
    let allowance = (15.0 + 11.0 * p).round() / 1000.0;
    let major = number(nearest(180.0 * (p * p).cbrt() - 3.15 / p.sqrt())) / 1000.0;
    let pitch = number(pitch_step(size)) / 1000.0;
    ExternalLimits {
        major: below(size.d - allowance, major),
        pitch: below(size.geometry.pitch_diameter.get() - allowance, pitch),
    }
}

pub(super) fn internal(size: &Size) -> InternalLimits {
    let p = size.p;
    // TD1(6) has two formulae, meeting between 0.8 and 1 mm.
    let minor = if p < 1.0 {
        433.0 * p - 190.0 * p.powf(1.22)
    } else {
        230.0 * p.powf(0.7)
    };
    let pitch = number(pitch_step(size) + STEPS_TO_1_32) / 1000.0;
    InternalLimits {
        pitch: above(size.geometry.pitch_diameter.get(), pitch),
        minor: above(
            size.geometry.internal_minor_diameter.get(),
            number(nearest(minor)) / 1000.0,
        ),
    }
}
