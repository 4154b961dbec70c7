//! A length as people read it.

use clampbook_engine::thread::System;
use clampbook_engine::units::MILLIMETRES_PER_INCH;

/// A length for people: inch fasteners in inches, sixteenths where it is one.
pub(crate) fn in_words(mm: f64, system: System) -> String {
    if system == System::Metric {
        let shown = format!("{mm:.1}");
        return format!("{} mm", shown.strip_suffix(".0").unwrap_or(&shown));
    }
    let inches = mm / MILLIMETRES_PER_INCH;
    let sixteenths = (inches * 16.0).round();
    if sixteenths < 1.0 || (inches * 16.0 - sixteenths).abs() > 1e-3 {
        return format!("{inches:.2} in");
    }
    // A fastener's length has a few hundred sixteenths at most.
    let (whole, mut over, mut under) = (sixteenths as u32 / 16, sixteenths as u32 % 16, 16);
    while over > 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (whole, 0) => format!("{whole} in"),
        (0, over) => format!("{over}/{under} in"),
        (whole, over) => format!("{whole}-{over}/{under} in"),
    }
}
