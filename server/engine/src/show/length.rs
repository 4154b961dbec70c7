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
