//! A position that waits.

use super::out;
use crate::bench::{back, decision};
use clampbook_book::fact::Decided;
use clampbook_book::rules;
use clampbook_book::words::Criticality::C;
use clampbook_book::words::DecisionKind::{Hold, Replace, Reuse};
use clampbook_book::words::Severity::Stop;
use clampbook_book::words::{HoldReason, HoleCheck, Tightness};

fn hold(hold_reason: HoldReason) -> Decided {
    Decided {
        hold_reason: Some(hold_reason),
        reason: "no marking, looks old".into(),
        ..decision(1, Hold)
    }
}

#[test]
fn a_hold_stops_its_hole_in_every_class_and_says_what_it_waits_for() {
    for (hold_reason, words) in [
        (HoldReason::Measuring, "measuring"),
        (HoldReason::Hardness, "hardness readings"),
        (HoldReason::CrackTest, "a crack test"),
        (HoldReason::Part, "a part to arrive"),
    ] {
        let mut bench = out(C, |_| {});
        bench.decide(hold(hold_reason));
        let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
        let flag = flags.iter().find(|f| f.rule == "on-hold").expect("raised");
        assert_eq!((flag.severity, flag.position), (Stop, 1));
        assert_eq!(
            flag.cause,
            format!("on hold, waits for {words}: no marking, looks old")
        );
    }
}

#[test]
fn no_other_decision_is_a_hold() {
    for kind in [Reuse, Replace] {
        let mut bench = out(C, |_| {});
        assert_eq!(bench.flag("on-hold", 1), None);
        bench.decide(decision(1, kind));
        assert_eq!(bench.flag("on-hold", 1), None);
    }
}

#[test]
fn only_another_decision_ends_it() {
    let mut bench = out(C, |_| {});
    bench.decide(hold(HoldReason::Hardness));
    bench.decide(Decided {
        hole_check: Some(HoleCheck::Measured),
        citation: "hardness log 4".into(),
        ..hold(HoldReason::Part)
    });
    bench.refit(back(1, Tightness::Final));
    assert_eq!(
        bench.flag("on-hold", 1),
        Some(Stop),
        "neither papers nor a refit end it"
    );
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag("on-hold", 1), None);
}
