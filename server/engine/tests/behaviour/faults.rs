//! Everything that is wrong is said, each with its field and what would be right.

use clampbook_engine::{Ask, Catalogue, Fault, FaultReason, Purpose};

fn good() -> Ask<'static> {
    Ask {
        thread: "1/2-13",
        grade: "5",
        lubrication: "dry",
        ..Ask::default()
    }
}

fn faults(ask: &Ask<'_>) -> Vec<Fault> {
    Catalogue::built_in()
        .resolve(ask)
        .expect_err("something is wrong")
}

fn only(ask: &Ask<'_>) -> (&'static str, String) {
    let mut all = faults(ask);
    assert_eq!(all.len(), 1, "{all:?}");
    let fault = all.remove(0);
    (fault.field, fault.reason.to_string())
}

#[test]
fn all_faults_come_at_once() {
    let ask = Ask {
        thread: "banana",
        grade: "99",
        lubrication: "rusty",
        proof_share: Some(2.0),
        nut_factor: Some(f64::NAN),
        nut_grade: Some("99"),
        purpose: Purpose::WheelBearing,
        ..Ask::default()
    };
    let fields: Vec<_> = faults(&ask).iter().map(|f| f.field).collect();
    assert_eq!(
        fields,
        [
            "purpose",
            "thread",
            "grade",
            "lubrication",
            "nut_factor",
            "nut_grade",
            "proof_share"
        ]
    );
}

#[test]
fn nothing_said_is_three_faults() {
    let fields: Vec<_> = faults(&Ask::default()).iter().map(|f| f.field).collect();
    assert_eq!(fields, ["thread", "grade", "lubrication"]);
}

#[test]
fn numbers_outside_are_refused_and_never_clamped() {
    for wrong in [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0,
        0.0,
        0.049,
        1.001,
        1e300,
    ] {
        assert_eq!(
            only(&Ask {
                proof_share: Some(wrong),
                ..good()
            })
            .0,
            "proof_share"
        );
        let k = if wrong == 1.001 { 0.601 } else { wrong };
        assert_eq!(
            only(&Ask {
                nut_factor: Some(k),
                ..good()
            })
            .0,
            "nut_factor"
        );
    }
    for wrong in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e9] {
        assert_eq!(
            only(&Ask {
                clamp_load_n: Some(wrong),
                ..good()
            })
            .0,
            "clamp_load_n"
        );
    }
}

#[test]
fn sentences_say_what_was_wrong_and_what_is_allowed() {
    let said = only(&Ask {
        nut_factor: Some(0.7),
        ..good()
    })
    .1;
    assert_eq!(said, "nut factor is 0.7, allowed is 0.05 to 0.6");
    let said = only(&Ask {
        proof_share: Some(f64::NAN),
        ..good()
    })
    .1;
    assert_eq!(said, "share of proof is not a number, allowed is 0.05 to 1");
    let said = only(&Ask {
        grade: "8.8",
        ..good()
    })
    .1;
    assert_eq!(
        said,
        "no grade by this standard at this size: ISO 898-1 8.8 covers M1.6 to M39, not 1/2-13 UNC"
    );
    let said = only(&Ask {
        thread: "#10-32",
        ..good()
    })
    .1;
    assert_eq!(
        said,
        "no grade by this standard at this size: SAE J429 5 covers inch threads 0.25 to 1.5 in, not #10-32 UNF"
    );
    let said = only(&Ask {
        thread: "M8 fine",
        grade: "8.8",
        ..good()
    })
    .1;
    assert_eq!(
        said,
        "\"M8 fine\" may be several threads; say M8x1 or M8x0.75"
    );
    let said = only(&Ask {
        nut_grade: Some("DH"),
        thread: "1/2-20",
        ..good()
    })
    .1;
    assert_eq!(
        said,
        "the tables have no ASTM A563 DH heavy nut for 1/2-20 UNF; leave it out or name another"
    );
    let said = only(&Ask {
        proof_share: Some(0.7),
        clamp_load_n: Some(1000.0),
        ..good()
    })
    .1;
    assert_eq!(said, "give this or proof_share, not both");
}

/// 1/2-13 grade 5 breaks at 120 ksi on 0.1419 in²: 17 028 lbf, 75.7 kN.
#[test]
fn a_clamp_load_that_breaks_the_bolt_is_refused() {
    let catalogue = Catalogue::built_in();
    assert!(
        catalogue
            .resolve(&Ask {
                clamp_load_n: Some(75_600.0),
                ..good()
            })
            .is_ok()
    );
    let all = faults(&Ask {
        clamp_load_n: Some(75_800.0),
        ..good()
    });
    let FaultReason::OutsideRange(range) = all[0].reason else {
        panic!("{all:?}");
    };
    assert!((range.high - 75_740.0).abs() < 20.0, "{range:?}");
    assert_eq!(range.unit, "N");
    let said = all[0].to_string();
    assert!(
        said.contains("may not exceed the bolt's tensile load, is 75800 N"),
        "{said}"
    );
}

#[test]
fn a_refused_purpose_never_gets_a_number() {
    let catalogue = Catalogue::built_in();
    for purpose in Purpose::ALL {
        let resolved = catalogue.resolve(&Ask { purpose, ..good() });
        match purpose.refusal() {
            None => assert!(resolved.is_ok()),
            Some(refusal) => {
                let faults = resolved.unwrap_err();
                assert_eq!(faults[0].field, "purpose");
                let said = faults[0].to_string();
                assert!(
                    said.contains(refusal.why) && said.contains(refusal.instead),
                    "{said}"
                );
                for sentence in [refusal.why, refusal.instead] {
                    assert!(sentence.ends_with('.') && sentence.len() > 30, "{sentence}");
                }
            }
        }
        assert_eq!(Purpose::from_id(purpose.id()), Some(purpose));
    }
    assert_eq!(
        Purpose::ALL
            .iter()
            .filter(|p| p.refusal().is_none())
            .count(),
        1
    );
    assert_eq!(Purpose::from_id("banana"), None);
}

#[test]
fn a_nut_factor_makes_the_lubrication_unnecessary_but_not_unchecked() {
    let catalogue = Catalogue::built_in();
    let given = Ask {
        nut_factor: Some(0.18),
        ..good()
    };
    assert!(
        catalogue
            .resolve(&Ask {
                lubrication: "",
                ..given
            })
            .is_ok()
    );
    assert_eq!(
        only(&Ask {
            lubrication: "rusty",
            ..given
        })
        .0,
        "lubrication"
    );
}

#[test]
fn each_variable_of_a_sentence_is_there_for_machines() {
    let fault = &faults(&Ask {
        thread: "1/2",
        ..good()
    })[0];
    assert_eq!(fault.reason.id(), "ambiguous-thread");
    assert_eq!(
        fault.metadata(),
        [
            ("field", "thread".to_owned()),
            ("given", "1/2".to_owned()),
            ("choices", "1/2-13 UNC, 1/2-20 UNF, 1/2-28 UNEF".to_owned()),
        ]
    );
    let fault = &faults(&Ask {
        nut_factor: Some(0.7),
        ..good()
    })[0];
    assert!(fault.metadata().contains(&("high", "0.6".to_owned())));
}
