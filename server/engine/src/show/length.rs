//! Lengths: in fractions of an inch for inch threads, in millimetres for metric ones.

use super::figures::at_most;
use crate::{thread::System, units::MILLIMETRES_PER_INCH};

/// Sixty-fourths of an inch: the finest fraction on a rule.
const FINEST: f64 = 64.0;
/// Tenths of a millimetre.
const TENTHS: f64 = 10.0;
/// Hundredths, below one millimetre.
const HUNDREDTHS: f64 = 100.0;
/// A hair of slack, in steps of rounding, keeps a whole step whole when it is rounded up or down.
const SLACK: f64 = 1e-6;

/// Which way a length is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounded {
    /// A length as measured or as bought.
    Nearest,
    /// A length that is needed, or the minimum allowed.
    Up,
    /// A length there is, or the maximum allowed.
    Down,
}

impl Rounded {
    fn steps(self, steps: f64) -> f64 {
        match self {
            Self::Nearest => steps.round(),
            Self::Up => (steps - SLACK).ceil(),
            Self::Down => (steps + SLACK).floor(),
        }
    }
}

/// A length for people, with its unit.
///
/// * `mm`: the length, in mm; zero and below are shown as well, for what ends short of something
/// * `family`: the system of the thread that the length belongs to
///
/// Inches are shown in sixty-fourths, reduced, and below one sixty-fourth in thousandths; millimetres in tenths, and below
/// one in hundredths.
///
/// # Sources
/// NIST SP 811 (2008), appendix B.8: 1 in is 25.4 mm exactly.
/// # Example
/// ```
/// use clampbook_engine::{show::{Rounded, length}, thread::System};
/// assert_eq!(length(32.543_75, System::Inch, Rounded::Nearest), "1-9/32 in");
/// assert_eq!(length(12.34, System::Metric, Rounded::Up), "12.4 mm");
/// ```
#[must_use]
pub fn length(mm: f64, family: System, rounded: Rounded) -> String {
    if family == System::Metric {
        let steps = if mm.abs() < 1.0 { HUNDREDTHS } else { TENTHS };
        return format!("{} mm", at_most(2, rounded.steps(mm * steps) / steps));
    }
    let inches = mm / MILLIMETRES_PER_INCH;
    let parts = rounded.steps(inches * FINEST);
    if inches != 0.0 && inches.abs() < 1.0 / FINEST {
        return format!("{} in", at_most(3, rounded.steps(inches * 1000.0) / 1000.0));
    }
    let sign = if parts < 0.0 { "-" } else { "" };
    format!("{sign}{} in", fraction(parts.abs()))
}

/// A length as a table has it, with its unit: nothing is rounded but what a conversion left behind.
///
/// ```
/// use clampbook_engine::{show::dimension, thread::System};
/// assert_eq!(dimension(11.1125, System::Metric), "11.1125 mm");
/// assert_eq!(dimension(11.1125, System::Inch), "7/16 in");
/// assert_eq!(dimension(10.556, System::Inch), "0.416 in");
/// ```
#[must_use]
pub fn dimension(mm: f64, family: System) -> String {
    if family == System::Metric {
        return format!("{} mm", at_most(4, mm));
    }
    let inches = mm / MILLIMETRES_PER_INCH;
    match exact_fraction(inches) {
        Some(fraction) => format!("{fraction} in"),
        None => format!("{inches:.3} in"),
    }
}

/// A range of nominal diameters of threads: in inches where both ends are inch sizes, `over 1 in to 1-1/2 in`.
#[must_use]
pub fn size_range(minimum_mm: f64, is_over: bool, maximum_mm: f64) -> String {
    let over = if is_over { "over " } else { "" };
    match inch_size(minimum_mm).zip(inch_size(maximum_mm)) {
        Some((minimum, maximum)) => format!("{over}{minimum} to {maximum}"),
        None => format!(
            "{over}{} to {}",
            at_most(4, minimum_mm),
            dimension(maximum_mm, System::Metric)
        ),
    }
}

/// The size of an inch thread, such as `#6` or `1-1/8 in`; nothing for any other diameter.
fn inch_size(mm: f64) -> Option<String> {
    let inches = mm / MILLIMETRES_PER_INCH;
    // ASME B1.1: number sizes begin at 0.060 in and grow by 0.013 in.
    let number = (inches - 0.060) / 0.013;
    if is_whole(number) && (0.0..12.5).contains(&number) {
        return Some(format!("#{number:.0}"));
    }
    exact_fraction(inches).map(|fraction| format!("{fraction} in"))
}

/// So many inches where they come out in sixty-fourths.
fn exact_fraction(inches: f64) -> Option<String> {
    let parts = inches * FINEST;
    (is_whole(parts) && parts >= 1.0).then(|| fraction(parts.round()))
}

fn is_whole(number: f64) -> bool {
    (number - number.round()).abs() < 1e-4
}

/// So many sixty-fourths, reduced.
fn fraction(parts: f64) -> String {
    let whole = (parts / FINEST).floor();
    // Less than 64, and whole.
    let (mut over, mut under) = ((parts - whole * FINEST) as u32, FINEST as u32);
    while over > 0 && over.is_multiple_of(2) {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (_, 0) => whole.to_string(),
        (0.0, over) => format!("{over}/{under}"),
        (whole, over) => format!("{whole}-{over}/{under}"),
    }
}
