//! Lengths and torques as people write them.

use clampbook_engine::{
    quantity::{Length, LengthUnit, QuantityError, Torque, TorqueUnit},
    show,
};

#[test]
fn lengths_are_read_as_written() {
    let known = [
        ("45 mm", 45.0, 45.0, LengthUnit::Millimetre),
        ("45mm", 45.0, 45.0, LengthUnit::Millimetre),
        ("1-3/4 in", 44.45, 1.75, LengthUnit::Inch),
        ("1 3/4\"", 44.45, 1.75, LengthUnit::Inch),
        ("1.75in", 44.45, 1.75, LengthUnit::Inch),
        ("3/4 inch", 19.05, 0.75, LengthUnit::Inch),
        (" 2 in ", 50.8, 2.0, LengthUnit::Inch),
    ];
    for (text, mm, entered, unit) in known {
        let length = Length::parse(text).unwrap();
        assert!((length.length.get() - mm).abs() < 1e-12, "{text}");
        assert_eq!((length.entered, length.unit), (entered, unit), "{text}");
    }
}

#[test]
fn torques_are_read_as_written() {
    // 60 lbf ft = 60 x 1.3558179483 N m (NIST SP 811).
    for text in [
        "60 lbf·ft",
        "60 lbf.ft",
        "60 lbf ft",
        "60 ft-lb",
        "60ft.lbs",
        "60 foot pounds",
        "60 lb-ft",
    ] {
        let torque = Torque::parse(text).unwrap();
        assert!((torque.torque.get() - 81.349_077).abs() < 5e-7, "{text}");
        assert_eq!(
            (torque.entered, torque.unit),
            (60.0, TorqueUnit::PoundForceFoot),
            "{text}"
        );
    }
    for (text, nm, unit) in [
        ("25 N·m", 25.0, TorqueUnit::NewtonMetre),
        ("25 N.m", 25.0, TorqueUnit::NewtonMetre),
        ("25Nm", 25.0, TorqueUnit::NewtonMetre),
        ("100 in-lb", 11.298_483, TorqueUnit::PoundForceInch),
        ("100 lbf·in", 11.298_483, TorqueUnit::PoundForceInch),
        ("2 kgf·m", 19.613_3, TorqueUnit::KilogramForceMetre),
        ("2 mkg", 19.613_3, TorqueUnit::KilogramForceMetre),
    ] {
        let torque = Torque::parse(text).unwrap();
        assert!((torque.torque.get() - nm).abs() < 5e-7, "{text}");
        assert_eq!(torque.unit, unit, "{text}");
    }
}

#[test]
fn what_is_no_quantity_is_refused() {
    for text in [
        "", "mm", "NaN mm", "-5 mm", "1/0 in", "3/2/1 in", "inf in", "1-3-4 in", "4/3 in",
        "1..5 mm",
    ] {
        assert!(Length::parse(text).is_err(), "{text}");
    }
    for text in ["1e9 N·m", "0 N·m", "60", "60 ft", "60 lb", "x"] {
        assert!(Torque::parse(text).is_err(), "{text}");
    }
    let unit = Length::parse("45").unwrap_err();
    assert_eq!(unit.to_string(), "no unit, allowed is mm or in");
    let unit = Torque::parse("45 ft").unwrap_err();
    assert_eq!(
        unit.to_string(),
        "unit \"ft\" is not known, allowed is N·m, lbf·ft, lbf·in or kgf·m"
    );
    assert!(matches!(
        Length::parse("0 mm"),
        Err(QuantityError::OutsideRange(_))
    ));
    assert!(matches!(
        Length::parse("mm"),
        Err(QuantityError::NoNumber { .. })
    ));
}

#[test]
fn units_are_each_others_inverse() {
    for unit in TorqueUnit::ALL {
        let torque = Torque::parse(&format!("12.5 {}", unit.symbol())).unwrap();
        assert!((show::number_in(torque.torque, unit) - 12.5).abs() < 1e-12);
        assert_eq!(TorqueUnit::parse(unit.symbol()), Some(unit));
    }
}

#[test]
fn a_fraction_is_less_than_a_whole_and_more_than_nothing() {
    for nonsense in ["0/4 in", "4/4 in", "5/4 in", "1-0/4 in", "1-4/4 in"] {
        assert!(
            matches!(Length::parse(nonsense), Err(QuantityError::NoNumber { .. })),
            "{nonsense}"
        );
    }
}
