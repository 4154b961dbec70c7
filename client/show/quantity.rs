//! Numbers with units, as people read them, where an answer brings no text of its own for them.

use clampbook_api::v1::TorqueUnit;

/// The blank between a number and its unit: no line is broken there. Printed as a plain one.
pub(crate) const UNBROKEN: char = '\u{a0}';

/// Newton metres in one of each unit; exact, since inch, pound and standard gravity are defined.
const POUND_FORCE_FOOT: f64 = 1.355_817_948_331_400_4;
const POUND_FORCE_INCH: f64 = 0.112_984_829_027_616_7;
const KILOGRAM_FORCE_METRE: f64 = 9.806_65;
/// Newtons in one pound-force.
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// Below this feet and inches are confused, so inches stand in brackets.
const SMALL_BELOW: f64 = 20.0;

/// A quantity as the server shows it, never parted at the end of a line.
pub(crate) fn unbroken(text: &str) -> String {
    text.replace(' ', &UNBROKEN.to_string())
}

/// A torque in its unit, and one other in brackets: as the server shows those that come with their text.
pub(crate) fn torque(newton_metres: f64, unit: TorqueUnit) -> String {
    let is_small = newton_metres / POUND_FORCE_FOOT < SMALL_BELOW;
    let other = match unit {
        TorqueUnit::Unspecified | TorqueUnit::NewtonMetre | TorqueUnit::PoundForceFoot
            if is_small =>
        {
            TorqueUnit::PoundForceInch
        }
        TorqueUnit::Unspecified | TorqueUnit::NewtonMetre => TorqueUnit::PoundForceFoot,
        _ => TorqueUnit::NewtonMetre,
    };
    format!(
        "{}{UNBROKEN}({})",
        in_unit(newton_metres, unit),
        in_unit(newton_metres, other)
    )
}

fn in_unit(newton_metres: f64, unit: TorqueUnit) -> String {
    let (one, symbol) = match unit {
        TorqueUnit::Unspecified | TorqueUnit::NewtonMetre => (1.0, "N·m"),
        TorqueUnit::PoundForceFoot => (POUND_FORCE_FOOT, "lbf·ft"),
        TorqueUnit::PoundForceInch => (POUND_FORCE_INCH, "lbf·in"),
        TorqueUnit::KilogramForceMetre => (KILOGRAM_FORCE_METRE, "kgf·m"),
    };
    format!("{}{UNBROKEN}{symbol}", three_figures(newton_metres / one))
}

/// A clamp load: in pounds beside inch units, else in kilonewtons.
pub(crate) fn load(newtons: f64, unit: TorqueUnit) -> String {
    match unit {
        TorqueUnit::PoundForceFoot | TorqueUnit::PoundForceInch => {
            format!("{}{UNBROKEN}lbf", three_figures(newtons / POUND_FORCE))
        }
        _ => format!("{}{UNBROKEN}kN", three_figures(newtons / 1000.0)),
    }
}

/// A number to three significant figures, without an exponent and without zeros at the end of its decimals.
pub(crate) fn three_figures(number: f64) -> String {
    if !number.is_finite() || number == 0.0 {
        return number.to_string();
    }
    // Rounding first decides the magnitude: 9.996 has one digit before the point less than what is shown, 10.0.
    let rounded: f64 = format!("{number:.2e}").parse().unwrap_or(number);
    let magnitude = rounded.abs().log10().floor();
    let decimals = (2.0 - magnitude).clamp(0.0, 12.0) as usize;
    at_most(decimals, rounded)
}

/// A nut factor, with two digits behind the point.
pub(crate) fn nut_factor(k: f64) -> String {
    format!("{k:.2}")
}

/// Sixty-fourths of an inch, the finest fraction a rule or a drill is marked in.
const SIXTY_FOURTHS: f64 = 64.0;
const MM_PER_INCH: f64 = 25.4;

/// A length in inches without the unit: a fraction where it is one, else three digits behind the point.
pub(crate) fn inches(millimetres: f64) -> String {
    fraction(millimetres).unwrap_or_else(|| format!("{:.3}", millimetres / MM_PER_INCH))
}

/// The size of an inch thread, such as `#6` or `1-1/8 in`; nothing for any other diameter.
pub(crate) fn inch_size(millimetres: f64) -> Option<String> {
    let number = (millimetres / MM_PER_INCH - 0.060) / 0.013;
    if is_whole(number) && (0.0..12.5).contains(&number) {
        return Some(format!("#{number:.0}"));
    }
    fraction(millimetres).map(|size| format!("{size}{UNBROKEN}in"))
}

fn fraction(millimetres: f64) -> Option<String> {
    let parts = millimetres / MM_PER_INCH * SIXTY_FOURTHS;
    if !is_whole(parts) || !(0.5..64_000.0).contains(&parts) {
        return None;
    }
    let (mut top, mut bottom) = (parts.round() as u32, 64);
    while top % 2 == 0 && bottom > 1 {
        (top, bottom) = (top / 2, bottom / 2);
    }
    Some(match (top / bottom, top % bottom) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{bottom}"),
        (whole, rest) => format!("{whole}-{rest}/{bottom}"),
    })
}

fn is_whole(number: f64) -> bool {
    (number - number.round()).abs() < 1e-4
}

/// A number as it was given, such as a share or a nut factor.
pub(crate) fn plain(number: f64) -> String {
    at_most(6, number)
}

/// A number with at most so many digits behind the point, and no empty ones.
pub(crate) fn at_most(decimals: usize, number: f64) -> String {
    let text = format!("{number:.decimals$}");
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(text: String) -> String {
        text.replace(UNBROKEN, " ")
    }

    #[test]
    fn inches_are_fractions_where_they_can_be() {
        for (inches_long, shown) in [
            (0.4375, "7/16"),
            (1.125, "1-1/8"),
            (2.0, "2"),
            (0.078_125, "5/64"),
            (0.4156, "0.416"),
            (0.01, "0.010"),
        ] {
            assert_eq!(inches(inches_long * 25.4), shown);
        }
    }

    #[test]
    fn sizes_of_inch_threads_are_told_from_metric_ones() {
        for (millimetres, size) in [
            (6.35, Some("1/4 in")),
            (3.5052, Some("#6")),
            (1.524, Some("#0")),
            (38.1, Some("1-1/2 in")),
        ] {
            assert_eq!(inch_size(millimetres).map(printed).as_deref(), size);
        }
        // Diameters of ISO 261.
        let metric = [
            1.6, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0,
            22.0, 24.0, 27.0, 30.0, 33.0, 36.0, 39.0, 42.0, 45.0, 48.0, 52.0, 56.0, 60.0, 64.0,
        ];
        for millimetres in metric {
            assert_eq!(inch_size(millimetres), None, "{millimetres}");
        }
    }

    #[test]
    fn nut_factors_stand_under_each_other() {
        assert_eq!([0.2, 0.18, 0.1].map(nut_factor), ["0.20", "0.18", "0.10"]);
    }

    #[test]
    fn three_figures_whatever_the_size() {
        for (number, shown) in [
            (91.234, "91.2"),
            (9.996, "10"),
            (999.6, "1000"),
            (1234.5, "1230"),
            (0.056_78, "0.0568"),
            (100.0, "100"),
            (0.0, "0"),
            (-4.567, "-4.57"),
            (f64::NAN, "NaN"),
            (f64::INFINITY, "inf"),
        ] {
            assert_eq!(three_figures(number), shown);
        }
    }

    #[test]
    fn one_other_unit_stands_in_brackets() {
        for (nm, unit, shown) in [
            // 50 x 1.355818 = 67.7909; 15 x 1.355818 = 20.33727; 18 / 0.1129848 = 159.3; 98.0665 / 9.80665 = 10.
            (67.7909, TorqueUnit::PoundForceFoot, "50 lbf·ft (67.8 N·m)"),
            (67.7909, TorqueUnit::PoundForceInch, "600 lbf·in (67.8 N·m)"),
            (67.7909, TorqueUnit::Unspecified, "67.8 N·m (50 lbf·ft)"),
            (
                98.0665,
                TorqueUnit::KilogramForceMetre,
                "10 kgf·m (98.1 N·m)",
            ),
            (18.0, TorqueUnit::NewtonMetre, "18 N·m (159 lbf·in)"),
            (
                20.33727,
                TorqueUnit::PoundForceFoot,
                "15 lbf·ft (180 lbf·in)",
            ),
            (
                20.33727,
                TorqueUnit::PoundForceInch,
                "180 lbf·in (20.3 N·m)",
            ),
        ] {
            assert_eq!(printed(torque(nm, unit)), shown);
        }
    }

    #[test]
    fn loads_follow_the_unit_of_the_torque() {
        assert_eq!(printed(load(40_100.0, TorqueUnit::NewtonMetre)), "40.1 kN");
        assert_eq!(printed(load(812.0, TorqueUnit::NewtonMetre)), "0.812 kN");
        assert_eq!(
            printed(load(44_482.2, TorqueUnit::PoundForceFoot)),
            "10000 lbf"
        );
    }

    #[test]
    fn plain_numbers_lose_only_empty_digits() {
        assert_eq!(plain(11.1125), "11.1125");
        assert_eq!(plain(20.0), "20");
        assert_eq!(plain(0.2), "0.2");
        assert_eq!(at_most(1, 227.526_991), "227.5");
        assert_eq!(at_most(0, 100.0), "100");
    }
}
