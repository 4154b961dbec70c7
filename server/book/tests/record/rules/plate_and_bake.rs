//! A fastener that goes out to be plated and baked, and comes back.

use super::out;
use crate::bench::{Bench, back, decision, sound};
use crate::ordering::{BOLT, arrive, flagged, list, told};
use crate::sheet::view;
use clampbook_book::fact::{Decided, Removed};
use clampbook_book::orders::By;
use clampbook_book::words::Criticality::{self, A, B, C};
use clampbook_book::words::DecisionKind::{PlateAndBake, Replace, Reuse};
use clampbook_book::words::Severity::Stop;
use clampbook_book::words::{Method, Outcome, Tightness, TorqueUnit};

const PLATED: &str = "plated-hard-unbaked";
const CERTIFICATE: &str = "certificate 118 of the plater";

/// A bolt of this grade came out and is to be plated and baked.
fn sent_out(class: Criticality, grade: &str) -> Bench {
    let mut bench = out(class, |r| r.grade = grade.into());
    bench.decide(decision(1, PlateAndBake));
    bench
}

fn shown() -> Decided {
    Decided {
        baking_shown: true,
        citation: CERTIFICATE.into(),
        ..decision(1, PlateAndBake)
    }
}

#[test]
fn its_hole_stops_in_every_class_until_it_is_back() {
    let line = format!("{BOLT}, from plating and baking");
    for class in [A, B, C] {
        let mut bench = out(class, |_| {});
        assert_eq!(flagged(&bench), []);
        bench.decide(decision(1, PlateAndBake));
        assert_eq!(flagged(&bench), [(Stop, 1)]);
        assert_eq!(told(&bench), [(line.clone(), 1, 0)]);
        assert_eq!(list(&bench)[0].demands[0].by, By::Plating);
        bench.decide(shown());
        bench.take_out(sound(2)).decide(decision(2, Replace));
        arrive(&mut bench, BOLT, 1);
        assert_eq!(
            flagged(&bench),
            [(Stop, 1)],
            "neither papers nor another bolt"
        );
        arrive(&mut bench, &line, 1);
        assert_eq!(flagged(&bench), []);
    }
    let mut bench = sent_out(B, "SAE J429 5");
    bench.refit(back(1, Tightness::Final));
    assert_eq!(flagged(&bench), [], "it is in its hole");
}

/// ISO 898-1: class 12.9 is at least 39 HRC, 10.9 at least 32 HRC. SAE J429 has no grade of 39 HRC.
#[test]
fn a_hard_one_stops_until_what_is_cited_shows_that_it_was_baked() {
    let hard = |grade: &str| {
        let mut bench = Bench::with(|joint| {
            let target = joint.target.as_mut().expect("a target");
            target.thread = "M12".into();
            target.grade = "10.9".into();
        });
        bench.take_out(Removed {
            grade: grade.into(),
            ..sound(1)
        });
        bench
    };
    let mut soft = hard("10.9");
    soft.decide(decision(1, PlateAndBake));
    assert_eq!(soft.flag(PLATED, 1), None);

    let mut bench = hard("12.9");
    assert_eq!(bench.flag(PLATED, 1), None);
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag(PLATED, 1), None, "nobody plates it");
    bench.decide(decision(1, PlateAndBake));
    assert_eq!(bench.flag(PLATED, 1), Some(Stop));
    bench.decide(Decided {
        citation: "invoice 7".into(),
        ..decision(1, PlateAndBake)
    });
    assert_eq!(
        bench.flag(PLATED, 1),
        Some(Stop),
        "an invoice shows no baking"
    );
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag(PLATED, 1), Some(Stop), "nor does fitting it");
    bench.decide(shown());
    assert_eq!(bench.flag(PLATED, 1), None);
}

#[test]
fn it_is_still_the_same_fastener() {
    let mut bench = out(B, |r| {
        r.outcome = Outcome::Rounded;
        r.methods = vec![Method::Heat];
    });
    bench.decide(shown());
    assert_eq!(bench.flag("fastener-unfit", 1), Some(Stop));
    assert_eq!(bench.flag("heated", 1), Some(Stop));
}

#[test]
fn the_preparation_says_what_shows_the_baking_and_why_it_matters() {
    let mut bench = sent_out(C, "SAE J429 5");
    let prepared = |bench: &Bench| {
        let sheet = view(bench, TorqueUnit::NewtonMetre);
        let row = &sheet.joints[0].rows[0];
        (row.reuse.clone(), row.preparation.clone(), row.torque.nm())
    };
    let (reuse, preparation, torque) = prepared(&bench);
    assert_eq!(reuse, "original, plated and baked");
    assert_eq!(
        preparation,
        "oiled; plated and baked, who plated and baked it is not cited; hard steel that was plated and not baked may break days \
         after tightening (hydrogen)"
    );
    assert_eq!(torque, None, "it is away");
    bench.decide(shown());
    arrive(&mut bench, &format!("{BOLT}, from plating and baking"), 1);
    let (_, preparation, torque) = prepared(&bench);
    assert!(
        preparation
            .starts_with("oiled; plated and baked, baking shown by certificate 118 of the plater;"),
        "{preparation}"
    );
    assert!(torque.is_some());
}
