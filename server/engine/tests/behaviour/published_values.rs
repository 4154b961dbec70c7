//! Published values: units asked about, lubricants exchanged, refusals.

use clampbook_engine::{
    Catalogue, FaultReason, Purpose,
    published::{PublishedAsk, UnitCheck},
    quantity::{Torque, TorqueUnit},
};

fn ask(torque: &str) -> PublishedAsk<'static> {
    PublishedAsk {
        thread: "7/16-20",
        grade: "SAE J429 5",
        torque: Torque::parse(torque).unwrap(),
        published_lubrication: "dry",
        lubrication: "oiled",
        flat_seats: true,
        purpose: Purpose::Clamping,
        unit_is_confirmed: false,
    }
}

#[test]
fn a_believable_value_is_restated_at_the_same_clamp_load() {
    let catalogue = Catalogue::built_in();
    let found = catalogue.examine(&ask("60 lbf·ft")).unwrap();
    assert_eq!(found.unit, UnitCheck::Believable);
    // 60 lbf ft at K 0.20 is 8229 lbf; 85 ksi on 0.1187 in² prove 10 090 lbf.
    assert!((found.share_of_proof.unwrap() - 0.816).abs() < 0.001);
    let restated = found.restated.unwrap();
    // K 0.18 for 0.20.
    assert!((restated.torque.get() / 1.355_818 - 54.0).abs() < 0.001);
    assert!((restated.ratio - 0.9).abs() < 1e-12);
    assert!((restated.minimum.get() / found.clamp_load.get() - 0.75).abs() < 1e-12);
    assert!((restated.maximum.get() / found.clamp_load.get() - 1.25).abs() < 1e-12);
}

#[test]
fn a_slip_of_twelve_is_asked_about_before_anything_is_derived() {
    let catalogue = Catalogue::built_in();
    let found = catalogue.examine(&ask("60 lbf·in")).unwrap();
    let UnitCheck::Ask { readings } = found.unit else {
        panic!("{:?}", found.unit);
    };
    assert_eq!(found.restated, None);
    let feet = readings
        .iter()
        .find(|r| r.unit == TorqueUnit::PoundForceFoot)
        .unwrap();
    assert!((feet.factor - 12.0).abs() < 1e-9);
    assert!((feet.share_of_proof - 0.816).abs() < 0.001);
    // NIST SP 811 (2008): 60 lbf ft.
    assert!((feet.torque.get() - 81.349).abs() < 0.000_5);
    // 60 kgf m would be nearly six times proof.
    assert!(
        readings
            .iter()
            .all(|r| r.unit != TorqueUnit::KilogramForceMetre)
    );

    let looked = PublishedAsk {
        unit_is_confirmed: true,
        ..ask("60 lbf·in")
    };
    let found = catalogue.examine(&looked).unwrap();
    assert_eq!(found.unit, UnitCheck::Confirmed);
    assert!(found.restated.is_some());
}

#[test]
fn the_other_usual_slips_are_named() {
    let catalogue = Catalogue::built_in();
    for (said, meant, factor) in [
        ("8.3 N·m", TorqueUnit::KilogramForceMetre, 9.806_65),
        ("100 lbf·ft", TorqueUnit::NewtonMetre, 1.355_818),
        ("60 kgf·m", TorqueUnit::NewtonMetre, 9.806_65),
    ] {
        let UnitCheck::Ask { readings } = catalogue.examine(&ask(said)).unwrap().unit else {
            panic!("{said} was believed");
        };
        let reading = readings.iter().find(|r| r.unit == meant);
        let reading = reading.unwrap_or_else(|| panic!("{said}: {readings:?}"));
        assert!((reading.factor - factor).abs() < 1e-5, "{reading:?}");
    }
}

#[test]
fn the_bounds_are_believable_and_what_lies_beyond_is_not() {
    let catalogue = Catalogue::built_in();
    let found = catalogue.examine(&ask("60 lbf·ft")).unwrap();
    let at = |share: f64| {
        let torque = 60.0 * share / found.share_of_proof.unwrap();
        let said = format!("{torque:.9} lbf·ft");
        catalogue.examine(&ask(&said)).unwrap().unit.is_settled()
    };
    assert!(at(0.150_001) && at(1.199_999));
    assert!(!at(0.149_999) && !at(1.200_001));
}

#[test]
fn without_a_grade_the_unit_is_not_checked() {
    let catalogue = Catalogue::built_in();
    let ungraded = PublishedAsk {
        grade: " ",
        ..ask("60 lbf·in")
    };
    let found = catalogue.examine(&ungraded).unwrap();
    assert_eq!(
        (found.unit, found.share_of_proof),
        (UnitCheck::NotChecked, None)
    );
    assert!(found.restated.is_some());
}

#[test]
fn seats_purposes_and_unknown_lubrication_are_refused_all_at_once() {
    let catalogue = Catalogue::built_in();
    let wrong = PublishedAsk {
        thread: "7/16-21",
        published_lubrication: "",
        lubrication: "rusty",
        flat_seats: false,
        purpose: Purpose::WheelNut,
        ..ask("60 lbf·ft")
    };
    let faults = catalogue.examine(&wrong).unwrap_err();
    let fields: Vec<_> = faults.iter().map(|f| f.field).collect();
    assert_eq!(
        fields,
        [
            "purpose",
            "flat_seats",
            "thread",
            "published_lubrication",
            "lubrication"
        ]
    );
    assert_eq!(faults[3].reason, FaultReason::Missing);
    for purpose in Purpose::ALL {
        let asked = PublishedAsk {
            purpose,
            ..ask("60 lbf·ft")
        };
        assert_eq!(
            catalogue.examine(&asked).is_ok(),
            purpose == Purpose::Clamping
        );
    }
}

#[test]
fn what_rests_on_memory_says_so() {
    let catalogue = Catalogue::built_in();
    let remembered = PublishedAsk {
        published_lubrication: "as received",
        ..ask("60 lbf·ft")
    };
    assert!(catalogue.examine(&remembered).unwrap().uses_memory());
    assert!(!catalogue.examine(&ask("60 lbf·ft")).unwrap().uses_memory());
}
