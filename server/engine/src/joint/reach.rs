//! Lengths of standard bolts: thread, body, and what can be bought.

use crate::{
    thread::System,
    units::{MILLIMETRES_PER_INCH as INCH, Millimetres, greater, lesser},
};

/// Nominal lengths of metric bolts, in mm (ISO 888:2012, from memory).
const METRIC_LENGTHS: [f64; 38] = [
    2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0,
    60.0, 65.0, 70.0, 80.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0, 150.0, 160.0, 180.0, 200.0,
    220.0, 240.0, 260.0, 280.0, 300.0, 320.0, 340.0,
];

/// Longest inch bolt of the stock lengths, in inches.
const LONGEST_INCH: f64 = 20.0;

/// A sum of decimals may lie this far above the length it means, in mm.
const HAIR_MM: f64 = 1e-9;

/// Thread length of a bolt that is not threaded to the head.
///
/// b = 2 d + 6, + 12 over 125 mm, + 25 over 200 mm; inch: 2 D + 1/4 in, + 1/2 in over 6 in
///
/// * `d`: nominal diameter, in mm
/// * `length`: nominal length, in mm
///
/// Returns b, in mm; the whole length where the bolt is shorter than that.
///
/// # Sources
/// ISO 888:2012 (reference b of ISO 4014); ASME B18.2.1 (hex cap screws).
/// # Example
/// M10: 26 mm at 80, 32 at 130; 1/2 in: 1.25 in at 3 in.
/// ```
/// # use clampbook_engine::{joint::reach::standard_thread_length, thread::System, units::*};
/// let mm = Millimetres::new;
/// assert_eq!(standard_thread_length(System::Metric, mm(10.0)?, mm(80.0)?).get(), 26.0);
/// assert_eq!(standard_thread_length(System::Metric, mm(10.0)?, mm(130.0)?).get(), 32.0);
/// assert_eq!(standard_thread_length(System::Inch, mm(12.7)?, mm(76.2)?).get(), 1.25 * 25.4);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn standard_thread_length(system: System, d: Millimetres, length: Millimetres) -> Millimetres {
    let (d, length) = (d.get(), length.get());
    let b = match system {
        System::Metric if length <= 125.0 => 2.0 * d + 6.0,
        System::Metric if length <= 200.0 => 2.0 * d + 12.0,
        System::Metric => 2.0 * d + 25.0,
        System::Inch | System::British if length <= 6.0 * INCH => 2.0 * d + 0.25 * INCH,
        System::Inch | System::British => 2.0 * d + 0.5 * INCH,
    };
    Millimetres::computed(lesser(b, length))
}

/// Where the full body ends and where the full thread begins, from the head.
///
/// lg = l − b, ls = lg − 5 P
///
/// * `length`, `thread`: length l and thread length b, in mm
/// * `p`: pitch, in mm
///
/// Returns ls and lg, in mm; 0 where the thread runs to the head.
///
/// # Sources
/// ISO 4014:2011 (ls min and lg max); ASME B18.2.1 has the same five pitches of transition.
/// # Example
/// ISO 4014, M10x80: ls 46.5, lg 54.
/// ```
/// # use clampbook_engine::{joint::reach::body_and_grip, units::*};
/// let mm = Millimetres::new;
/// assert_eq!(body_and_grip(mm(80.0)?, mm(26.0)?, mm(1.5)?), (46.5, 54.0));
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn body_and_grip(length: Millimetres, thread: Millimetres, p: Millimetres) -> (f64, f64) {
    let grip = length.get() - thread.get();
    let body = grip - 5.0 * p.get();
    (greater(body, 0.0), grip)
}

/// The next length that can be bought.
///
/// * `system`: inch or metric
/// * `needed_mm`: minimum length, in mm
///
/// Returns the length, in mm; `None` above the longest.
///
/// # Sources
/// ISO 888:2012, to 340 mm; inch lengths are common practice: eighths to 1 in, quarters to 6 in, halves
/// to 20 in.
/// # Example
/// 61.3 mm asks for a 65; 1.30 in for a 1-1/2.
/// ```
/// # use clampbook_engine::{joint::reach::next_standard_length, thread::System};
/// assert_eq!(next_standard_length(System::Metric, 61.3), Some(65.0));
/// assert_eq!(next_standard_length(System::Inch, 1.30 * 25.4), Some(1.5 * 25.4));
/// ```
#[must_use]
pub fn next_standard_length(system: System, needed_mm: f64) -> Option<f64> {
    match system {
        System::Metric => METRIC_LENGTHS
            .into_iter()
            .find(|l| *l + HAIR_MM >= needed_mm),
        System::Inch | System::British => {
            // Counted in eighths, which every step is a multiple of.
            let eighths = |from: i32| {
                let fits = |n: &i32| f64::from(*n) * INCH / 8.0 + HAIR_MM >= needed_mm;
                let stocked = |n: &i32| match n {
                    ..=8 => true,
                    ..=48 => n % 2 == 0,
                    _ => n % 4 == 0,
                };
                (from..=(LONGEST_INCH * 8.0) as i32).find(|n| stocked(n) && fits(n))
            };
            eighths(2).map(|n| f64::from(n) * INCH / 8.0)
        }
    }
}
