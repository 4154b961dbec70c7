//! Numbers with units, as people read them: three figures, the unit spelled out where it could be mistaken.

use clampbook_api::v1::TorqueUnit;

use super::text::strong;

/// The blank between a number and its unit: no line is broken there. Printed as a plain one.
pub(crate) const UNBROKEN: char = '\u{a0}';

/// Newton metres in one of each unit; exact, since inch, pound and standard gravity are defined.
const POUND_FORCE_FOOT: f64 = 1.355_817_948_331_400_4;
const POUND_FORCE_INCH: f64 = 0.112_984_829_027_616_7;
const KILOGRAM_FORCE_METRE: f64 = 9.806_65;
/// Newtons in one pound-force.
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// Foot pounds below this are spelled out: they are the ones taken for inch pounds, and the other way round.
const SPELLED_OUT_BELOW: f64 = 20.0;

/// A torque with its unit.
pub(crate) fn torque(newton_metres: f64, unit: TorqueUnit) -> String {
    let feet = newton_metres / POUND_FORCE_FOOT;
    let spelled_out = feet < SPELLED_OUT_BELOW;
    match unit {
        TorqueUnit::Unspecified | TorqueUnit::NewtonMetre => {
            format!("{}{UNBROKEN}N·m", three_figures(newton_metres))
        }
        TorqueUnit::PoundForceFoot if spelled_out => {
            format!("{}{UNBROKEN}pound-force feet", three_figures(feet))
        }
        TorqueUnit::PoundForceFoot => format!("{}{UNBROKEN}lbf·ft", three_figures(feet)),
        TorqueUnit::PoundForceInch => {
            let inches = three_figures(newton_metres / POUND_FORCE_INCH);
            let name = if spelled_out {
                "pound-force inches"
            } else {
                "lbf·in"
            };
            format!("{inches}{UNBROKEN}{name}")
        }
        TorqueUnit::KilogramForceMetre => {
            format!(
                "{}{UNBROKEN}kgf·m",
                three_figures(newton_metres / KILOGRAM_FORCE_METRE)
            )
        }
    }
}

/// A torque in its unit and in the other world's beside it: metric beside inch and the other way round.
pub(crate) fn both(newton_metres: f64, unit: TorqueUnit) -> String {
    let second = match unit {
        TorqueUnit::Unspecified | TorqueUnit::NewtonMetre => TorqueUnit::PoundForceFoot,
        _ => TorqueUnit::NewtonMetre,
    };
    format!(
        "{}   {}",
        strong(&torque(newton_metres, unit)),
        torque(newton_metres, second)
    )
}

/// A clamp load: in pounds beside inch units, else in newtons.
pub(crate) fn load(newtons: f64, unit: TorqueUnit) -> String {
    match unit {
        TorqueUnit::PoundForceFoot | TorqueUnit::PoundForceInch => {
            format!("{}{UNBROKEN}lbf", three_figures(newtons / POUND_FORCE))
        }
        _ if newtons < 1000.0 => format!("{}{UNBROKEN}N", three_figures(newtons)),
        _ => format!("{}{UNBROKEN}kN", three_figures(newtons / 1000.0)),
    }
}

/// A number to three significant figures, without an exponent.
pub(crate) fn three_figures(number: f64) -> String {
    if !number.is_finite() || number == 0.0 {
        return number.to_string();
    }
    // Rounding first decides the magnitude: 9.996 has one digit before the point less than what is shown, 10.0.
    let rounded: f64 = format!("{number:.2e}").parse().unwrap_or(number);
    let magnitude = rounded.abs().log10().floor();
    let decimals = (2.0 - magnitude).clamp(0.0, 12.0) as usize;
    format!("{rounded:.decimals$}")
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
    fn three_figures_whatever_the_size() {
        for (number, shown) in [
            (91.234, "91.2"),
            (9.996, "10.0"),
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
    fn small_foot_pounds_are_spelled_out() {
        assert_eq!(
            printed(torque(27.0, TorqueUnit::PoundForceFoot)),
            "19.9 pound-force feet"
        );
        assert_eq!(
            printed(torque(27.2, TorqueUnit::PoundForceFoot)),
            "20.1 lbf·ft"
        );
        assert_eq!(
            printed(torque(11.3, TorqueUnit::PoundForceInch)),
            "100 pound-force inches"
        );
        assert_eq!(
            printed(torque(135.58, TorqueUnit::PoundForceFoot)),
            "100 lbf·ft"
        );
        assert_eq!(
            printed(torque(98.0665, TorqueUnit::KilogramForceMetre)),
            "10.0 kgf·m"
        );
        assert_eq!(printed(torque(91.234, TorqueUnit::Unspecified)), "91.2 N·m");
    }

    #[test]
    fn loads_follow_the_unit_of_the_torque() {
        assert_eq!(printed(load(40_100.0, TorqueUnit::NewtonMetre)), "40.1 kN");
        assert_eq!(printed(load(812.0, TorqueUnit::NewtonMetre)), "812 N");
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
