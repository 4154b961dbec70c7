//! Every quantity in every unit against values worked out by hand from NIST SP 811 (2008), appendix B.8:
//! 1 lbf is 4.448 222 N, 1 lbf·ft 1.355 818 N·m, 1 lbf·in 0.112 984 8 N·m, 1 kgf·m 9.806 65 N·m, 1 in 25.4 mm.
#![allow(clippy::unwrap_used)] // every value is within its bounds

use super::*;
use crate::quantity::{Torque, TorqueUnit};
use crate::thread::System;
use crate::units::{Degrees, Megapascals, NewtonMetres, Newtons, NutFactor};

fn nm(value: f64) -> NewtonMetres {
    NewtonMetres::new(value).unwrap()
}

fn n(value: f64) -> Newtons {
    Newtons::new(value).unwrap()
}

#[test]
fn a_torque_stands_in_its_unit_and_one_other() {
    use TorqueUnit::{KilogramForceMetre, NewtonMetre, PoundForceFoot, PoundForceInch};
    for (value, unit, shown) in [
        // 50 x 1.355818 = 67.7909.
        (67.7909, PoundForceFoot, "50 lbf·ft (67.8 N·m)"),
        // 67.7909 / 0.1129848 = 600.0.
        (67.7909, PoundForceInch, "600 lbf·in (67.8 N·m)"),
        // 67.7909 / 9.80665 = 6.91275.
        (67.7909, KilogramForceMetre, "6.91 kgf·m (67.8 N·m)"),
        (67.7909, NewtonMetre, "67.8 N·m (50 lbf·ft)"),
        // 91.2 / 1.355818 = 67.266.
        (91.2, NewtonMetre, "91.2 N·m (67.3 lbf·ft)"),
        // 18 / 0.1129848 = 159.31.
        (18.0, NewtonMetre, "18 N·m (159 lbf·in)"),
        // 15 x 1.355818 = 20.33727; 15 x 12 = 180.
        (20.33727, PoundForceFoot, "15 lbf·ft (180 lbf·in)"),
        (20.33727, PoundForceInch, "180 lbf·in (20.3 N·m)"),
        // 20.33727 / 9.80665 = 2.07382.
        (20.33727, KilogramForceMetre, "2.07 kgf·m (20.3 N·m)"),
        (0.5, NewtonMetre, "0.5 N·m (4.43 lbf·in)"),
        (1234.5, NewtonMetre, "1230 N·m (911 lbf·ft)"),
    ] {
        assert_eq!(torque(nm(value), unit), shown);
    }
}

#[test]
fn inches_stand_in_brackets_below_20_pound_force_feet_only() {
    // 20 lbf·ft are 27.11636 N·m.
    let at = |value, unit| torque(nm(value), unit);
    assert_eq!(at(27.0, TorqueUnit::NewtonMetre), "27 N·m (239 lbf·in)");
    assert_eq!(at(27.2, TorqueUnit::NewtonMetre), "27.2 N·m (20.1 lbf·ft)");
    assert_eq!(
        at(27.0, TorqueUnit::PoundForceFoot),
        "19.9 lbf·ft (239 lbf·in)"
    );
    assert_eq!(
        at(27.2, TorqueUnit::PoundForceFoot),
        "20.1 lbf·ft (27.2 N·m)"
    );
    let twenty = Torque::parse("20 lbf·ft").unwrap();
    assert_eq!(entered(&twenty), "20 lbf·ft (27.1 N·m)");
}

#[test]
fn a_torque_as_entered_keeps_its_digits() {
    for (said, shown) in [
        ("8.25 N·m", "8.25 N·m (73 lbf·in)"),
        ("55.125 ft-lb", "55.125 lbf·ft (74.7 N·m)"),
        ("110 in-lb", "110 lbf·in (12.4 N·m)"),
        ("8.3 kgf·m", "8.3 kgf·m (81.4 N·m)"),
    ] {
        assert_eq!(entered(&Torque::parse(said).unwrap()), shown);
    }
}

#[test]
fn a_setting_carries_brackets_only_where_feet_and_inches_are_confused() {
    let set = |number, value, unit| setting(number, nm(value), unit);
    assert_eq!(
        set("38.50", 52.2, TorqueUnit::PoundForceFoot),
        "38.50 lbf·ft"
    );
    assert_eq!(
        set("15", 20.33727, TorqueUnit::PoundForceFoot),
        "15 lbf·ft (180 lbf·in)"
    );
    assert_eq!(
        set("180", 20.33727, TorqueUnit::PoundForceInch),
        "180 lbf·in (20.3 N·m)"
    );
    assert_eq!(
        set("18.0", 18.0, TorqueUnit::NewtonMetre),
        "18.0 N·m (159 lbf·in)"
    );
}

#[test]
fn a_range_of_torque_names_each_unit_once() {
    let range = |unit| torque_range(nm(68.4), nm(136.9), unit);
    // 68.4 / 1.355818 = 50.449, 136.9 / 1.355818 = 100.97; / 0.1129848 = 605.39 and 1211.7; / 9.80665 = 6.9749 and 13.960.
    assert_eq!(
        range(TorqueUnit::NewtonMetre),
        "68.4 to 137 N·m (50.4 to 101 lbf·ft)"
    );
    assert_eq!(
        range(TorqueUnit::PoundForceFoot),
        "50.4 to 101 lbf·ft (68.4 to 137 N·m)"
    );
    assert_eq!(
        range(TorqueUnit::PoundForceInch),
        "605 to 1210 lbf·in (68.4 to 137 N·m)"
    );
    assert_eq!(
        range(TorqueUnit::KilogramForceMetre),
        "6.97 to 14 kgf·m (68.4 to 137 N·m)"
    );
}

#[test]
fn a_range_that_begins_where_feet_and_inches_are_confused_has_inches_in_brackets() {
    // 18 / 0.1129848 = 159.31, 40 / 0.1129848 = 354.03; / 1.355818 = 13.276 and 29.503.
    let range = |unit| torque_range(nm(18.0), nm(40.0), unit);
    assert_eq!(
        range(TorqueUnit::NewtonMetre),
        "18 to 40 N·m (159 to 354 lbf·in)"
    );
    assert_eq!(
        range(TorqueUnit::PoundForceFoot),
        "13.3 to 29.5 lbf·ft (159 to 354 lbf·in)"
    );
}

#[test]
fn a_load_follows_the_unit_of_the_torque() {
    // 41000 / 4.448222 = 9217.16; 812 / 4.448222 = 182.545.
    for (unit, large, small) in [
        (TorqueUnit::NewtonMetre, "41 kN", "0.812 kN"),
        (TorqueUnit::KilogramForceMetre, "41 kN", "0.812 kN"),
        (TorqueUnit::PoundForceFoot, "9220 lbf", "183 lbf"),
        (TorqueUnit::PoundForceInch, "9220 lbf", "183 lbf"),
    ] {
        assert_eq!(load(n(41_000.0), unit), large);
        assert_eq!(load(n(812.0), unit), small);
    }
    // 26700 / 4.448222 = 6002.4; 55400 / 4.448222 = 12454.
    let range = |unit| load_range(n(26_700.0), n(55_400.0), unit);
    assert_eq!(range(TorqueUnit::NewtonMetre), "26.7 to 55.4 kN");
    assert_eq!(range(TorqueUnit::PoundForceInch), "6000 to 12500 lbf");
}

#[test]
fn a_length_is_a_fraction_for_inch_threads_and_millimetres_for_metric_ones() {
    use Rounded::{Down, Nearest, Up};
    for (mm, rounded, inches, metric) in [
        // 1 + 9/32 = 1.28125 in.
        (32.543_75, Nearest, "1-9/32 in", "32.5 mm"),
        (32.543_75, Up, "1-9/32 in", "32.6 mm"),
        (32.543_75, Down, "1-9/32 in", "32.5 mm"),
        (44.45, Nearest, "1-3/4 in", "44.5 mm"),
        (50.8, Nearest, "2 in", "50.8 mm"),
        // 12 / 25.4 = 0.472441 in, 30.236 sixty-fourths.
        (12.0, Nearest, "15/32 in", "12 mm"),
        (12.0, Up, "31/64 in", "12 mm"),
        (12.0, Down, "15/32 in", "12 mm"),
        // 1.2499 mm are 3.149 sixty-fourths.
        (1.2499, Up, "1/16 in", "1.3 mm"),
        (1.2499, Down, "3/64 in", "1.2 mm"),
        // 0.25 mm are 0.00984 in.
        (0.25, Nearest, "0.01 in", "0.25 mm"),
        // 0.26 mm are 0.01024 in.
        (0.26, Up, "0.011 in", "0.26 mm"),
        (0.26, Down, "0.01 in", "0.26 mm"),
        (0.0, Nearest, "0 in", "0 mm"),
        // -3.175 mm are -1/8 in.
        (-3.175, Nearest, "-1/8 in", "-3.2 mm"),
    ] {
        assert_eq!(
            length(mm, System::Inch, rounded),
            inches,
            "{mm} {rounded:?}"
        );
        assert_eq!(
            length(mm, System::British, rounded),
            inches,
            "{mm} {rounded:?}"
        );
        assert_eq!(
            length(mm, System::Metric, rounded),
            metric,
            "{mm} {rounded:?}"
        );
    }
}

#[test]
fn whole_steps_stay_whole_whichever_way_they_are_rounded() {
    for parts in 1..=640_u32 {
        let mm = f64::from(parts) * 25.4 / 64.0;
        let tenths = f64::from(parts) / 10.0;
        for rounded in [Rounded::Up, Rounded::Down] {
            let nearest = length(mm, System::Inch, Rounded::Nearest);
            assert_eq!(length(mm, System::Inch, rounded), nearest);
            let nearest = length(tenths, System::Metric, Rounded::Nearest);
            assert_eq!(length(tenths, System::Metric, rounded), nearest);
        }
    }
}

#[test]
fn the_rest_has_one_unit_or_none() {
    let k = |value| nut_factor(NutFactor::new(value).unwrap());
    assert_eq!(
        [k(0.1), k(0.2), k(0.18), k(0.1468)],
        ["0.10", "0.20", "0.18", "0.15"]
    );
    let degrees = |value| angle(Degrees::new(value).unwrap());
    assert_eq!(
        [degrees(60.0), degrees(22.5), degrees(51.428)],
        ["60°", "22.5°", "51.4°"]
    );
    let mpa = |value| stress(Megapascals::new(value).unwrap());
    assert_eq!(
        [mpa(586.0), mpa(41.26), mpa(1034.4)],
        ["586 MPa", "41.3 MPa", "1030 MPa"]
    );
    assert_eq!([ratio(1.294), ratio(0.9)], ["1.29", "0.90"]);
}

#[test]
fn three_figures_whatever_the_size() {
    for (number, shown) in [
        (91.234, "91.2"),
        (9.996, "10"),
        (99.96, "100"),
        (999.6, "1000"),
        (1234.5, "1230"),
        (0.056_78, "0.0568"),
        (100.0, "100"),
        (0.0, "0"),
        (-4.567, "-4.57"),
        (f64::NAN, "NaN"),
        (f64::INFINITY, "inf"),
    ] {
        assert_eq!(figures(number), shown);
    }
}
