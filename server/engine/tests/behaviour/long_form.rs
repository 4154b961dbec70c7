//! The long form on an M10 of class 8.8, reckoned by hand.
//!
//! Levers (VDI 2230 part 1 (2003), equation R13/1): pitch 1.5 and pitch diameter 9.026 mm, hexagon of 14.63 mm on a hole
//! of 11 (ISO 4014, ISO 273), friction 0.12 in the thread and 0.14 under the head: 0.23873 + 0.62532 + 0.89705 mm.
//! 58.0 mm² and 580, 640 and 800 MPa (ISO 898-1).

use super::reached;
use clampbook_engine::{
    Catalogue, Purpose, Severity,
    long_form::{LongAnswer, LongAsk, LongGoverns, compute_long_form},
};
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fn m10<'a>() -> LongAsk<'a> {
    LongAsk {
        thread: "M10",
        grade: "8.8",
        thread_friction: 0.12,
        bearing_friction: 0.14,
        ..LongAsk::default()
    }
}

fn loaded<'a>(newtons: f64) -> LongAsk<'a> {
    LongAsk {
        clamp_load_n: Some(newtons),
        ..m10()
    }
}

fn answer(ask: &LongAsk<'_>) -> LongAnswer {
    compute_long_form(&CATALOGUE.resolve_long_form(ask).unwrap())
}

fn found(answer: &LongAnswer, id: &str) -> Option<(Severity, f64)> {
    let finding = answer.remarks.findings.iter().find(|f| f.id == id);
    finding.map(|f| (f.severity, f.share))
}

#[track_caller]
fn close(ours: f64, expected: f64) {
    assert!(
        (ours / expected - 1.0).abs() < 0.000_1,
        "{ours} is not {expected}"
    );
}

#[test]
fn torque_and_its_parts() {
    let ours = answer(&loaded(20_000.0));
    close(ours.torque.get(), 35.222);
    close(ours.helix_torque.get(), 4.7746);
    close(ours.thread_torque.get(), 12.506);
    close(ours.bearing_torque.get(), 17.941);
    close(ours.equivalent_nut_factor, 0.176_11);
    // Shigley, 9th ed., equation 8-2 for the thread, and all of the head.
    close(ours.loosening_torque_nm, 25.616);
    // von Mises with pi d0^3/12 and with pi d0^3/16.
    close(ours.combined_plastic.get(), 389.13);
    close(ours.combined_elastic.get(), 420.33);
}

/// Resolving the seat's normal force (common practice): a cone of 45° either side takes 1/sin 45° of a flat seat's arm,
/// one of 30° twice as much.
#[test]
fn a_cone_wedges() {
    for (half_angle, torque) in [(45.0, 56.879), (30.0, 73.281)] {
        let ours = answer(&LongAsk {
            bearing_diameter_mm: Some(20.0),
            cone_half_angle_degrees: Some(half_angle),
            ..loaded(20_000.0)
        });
        close(ours.torque.get(), torque);
    }
}

/// NASA TM-106943 and NASA-STD-5020: 25 % either way lubricated, 35 % dry.
#[test]
fn both_bands() {
    let band = |lubricated| {
        let ours = answer(&LongAsk {
            lubricated,
            ..loaded(20_000.0)
        });
        (ours.scatter.0.get(), ours.scatter.1.get())
    };
    close(band(true).0, 15_000.0);
    close(band(true).1, 25_000.0);
    close(band(false).0, 13_000.0);
    close(band(false).1, 27_000.0);
    let spread = answer(&LongAsk {
        friction_low: Some(0.10),
        friction_high: Some(0.20),
        ..loaded(20_000.0)
    })
    .friction
    .unwrap();
    close(spread.low_torque.get(), 28.012);
    close(spread.high_torque.get(), 51.249);
    close(spread.minimum_clamp_load.get(), 13_745.6);
    close(spread.maximum_clamp_load.get(), 25_148.1);
    assert_eq!(answer(&loaded(20_000.0)).friction, None);
}

#[test]
fn loads_are_held_against_proof_and_yield() {
    let ours = answer(&loaded(37_000.0));
    let (severity, share) = found(&ours, "nominal-against-proof").unwrap();
    assert_eq!(severity, Severity::Stop);
    close(share, 37_000.0 / 580.0 / 57.99);
    let (severity, share) = found(&ours, "combined-against-yield").unwrap();
    assert_eq!(severity, Severity::Caution);
    close(share, 1.124_83);
    assert_eq!(
        found(&answer(&loaded(20_000.0)), "combined-against-yield"),
        None
    );
    // Exactly at yield is not beyond it.
    let at_yield = (12..40).find_map(|hundredths| {
        let at = |load| LongAsk {
            thread_friction: f64::from(hundredths) / 100.0,
            ..loaded(load)
        };
        let stress = |load| answer(&at(load)).combined_plastic.get();
        reached(30_000.0, 640.0, stress).map(|load| answer(&at(load)))
    });
    let at_yield = at_yield.unwrap();
    assert_eq!(at_yield.combined_plastic.get(), 640.0);
    assert_eq!(found(&at_yield, "combined-against-yield"), None);
}

/// A share that was asked for is judged as it was said, whatever rounding makes of load over load.
#[test]
fn a_share_of_proof_is_judged_as_said() {
    let threads = CATALOGUE.threads().iter();
    for thread in threads.filter(|t| t.to_string().starts_with('M')) {
        let (name, at) = (thread.to_string(), |proof_share| LongAsk {
            bearing_diameter_mm: Some(thread.diameter().get() * 1.3),
            proof_share,
            ..m10()
        });
        let ask = at(Some(0.90));
        let Ok(question) = CATALOGUE.resolve_long_form(&LongAsk {
            thread: &name,
            ..ask
        }) else {
            continue;
        };
        let ours = compute_long_form(&question);
        let caution = Some((Severity::Caution, 0.90));
        assert_eq!(found(&ours, "nominal-against-proof"), caution, "{name}");
    }
    let silent = answer(&m10());
    close(silent.clamp_load.get(), 0.75 * 33_634.0);
    assert_eq!(silent.governed_by.id(), "proof-of-bolt");
    assert_ne!(silent.governed_by, LongGoverns::CombinedYield);
}

#[test]
fn what_was_taken_for_granted_is_said() {
    let flat = answer(&m10()).remarks;
    let share = "0.75 of proof, for a joint that comes apart again.";
    assert!(flat.assumptions.contains(&share));
    assert!(flat.assumptions.contains(&"Flat seat: mu_b Db/2."));
    for id in ["vdi-2230", "shigley-8-26", "iso-4014", "nasa-std-5020"] {
        assert!(flat.sources.iter().any(|c| c.source.id == id), "{id}");
    }
    let cone = answer(&LongAsk {
        cone_half_angle_degrees: Some(30.0),
        lubricated: true,
        ..loaded(20_000.0)
    })
    .remarks;
    assert!(!cone.assumptions.contains(&share));
    assert!(cone.cautions.iter().any(|c| c.starts_with("A cone seat")));
    let nasa = |c: &clampbook_engine::Cited<'_>| c.source.id == "nasa-tm-106943";
    assert!(cone.sources.iter().any(nasa));
}

#[test]
fn ends_of_friction_lie_around_it() {
    let named = |low, high| {
        let ask = LongAsk {
            friction_low: low,
            friction_high: high,
            ..m10()
        };
        match CATALOGUE.resolve_long_form(&ask) {
            Ok(_) => vec![],
            Err(faults) => faults.iter().map(|f| f.field).collect(),
        }
    };
    let (low, high) = ("friction_low", "friction_high");
    assert_eq!(named(None, None), [""; 0]);
    assert_eq!(named(Some(0.10), None), [high]);
    assert_eq!(named(None, Some(0.20)), [low]);
    assert_eq!(named(Some(0.12), Some(0.14)), [""; 0]);
    // Above the lesser of both coefficients, below the greater.
    assert_eq!(named(Some(0.13), Some(0.14)), [low]);
    assert_eq!(named(Some(0.12), Some(0.13)), [high]);
    assert_eq!(named(Some(0.15), Some(0.11)), [low, high]);
    let other = |low, high| {
        let ask = LongAsk {
            thread_friction: 0.14,
            bearing_friction: 0.12,
            friction_low: Some(low),
            friction_high: Some(high),
            ..m10()
        };
        CATALOGUE.resolve_long_form(&ask).is_ok()
    };
    assert!(other(0.12, 0.14));
    assert!(!other(0.13, 0.14) && !other(0.12, 0.13));
}

#[test]
fn a_seat_lies_between_the_diameter_and_ten_of_it() {
    for (diameter, allowed) in [(9.9, false), (10.0, true), (100.0, true), (100.1, false)] {
        let ask = LongAsk {
            bearing_diameter_mm: Some(diameter),
            ..m10()
        };
        let found = CATALOGUE.resolve_long_form(&ask);
        assert_eq!(found.is_ok(), allowed, "{diameter}");
    }
}

/// However good the rest of a question is, a refused purpose gets no number.
#[test]
fn a_refused_purpose_gets_no_torque() {
    for purpose in Purpose::ALL {
        let found = CATALOGUE.resolve_long_form(&LongAsk { purpose, ..m10() });
        match purpose.refusal() {
            None => assert!(found.is_ok(), "{purpose}"),
            Some(_) => {
                let faults = found.unwrap_err();
                assert_eq!(faults.len(), 1, "{purpose}");
                assert_eq!(faults[0].field, "purpose");
            }
        }
    }
}
