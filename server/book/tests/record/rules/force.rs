//! What force and heat leave behind.

use super::{out, with_hole};
use crate::bench::{back, decision, torque};
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::{CleanAndReuse, Replace};
use clampbook_book::words::Severity::{Caution, Stop};
use clampbook_book::words::{HeatColour, HoleCheck, Method, Outcome, Tightness};

#[test]
fn force_of_any_kind_stops_the_bolt_and_its_hole() {
    for outcome in [Outcome::Seized, Outcome::Spun] {
        let bench = out(C, |r| r.outcome = outcome);
        assert_eq!(bench.flag("forced-out", 1), Some(Stop), "{outcome:?}");
    }
    for methods in [
        Method::Hammer,
        Method::PullerOrPress,
        Method::SplitOrCut,
        Method::ExtractorOrWeldedNut,
        Method::Drilled,
    ] {
        let bench = out(C, |r| r.methods = vec![methods]);
        assert_eq!(bench.flag("forced-out", 1), Some(Stop), "{methods:?}");
    }
    for methods in [
        Method::Hand,
        Method::LongBar,
        Method::PenetrantSoak,
        Method::AirImpact,
    ] {
        let bench = out(A, |r| r.methods = vec![methods]);
        assert_eq!(bench.flag("forced-out", 1), None, "{methods:?}");
    }
}

#[test]
fn a_breakaway_above_one_and_a_half_times_the_torque_counts_as_force() {
    // The joint's torque is 67.3 N·m; see the engine for where that comes from.
    assert_eq!(
        out(B, |r| r.breakaway = Some(torque(103.0))).flag("forced-out", 1),
        Some(Stop)
    );
    assert_eq!(
        out(B, |r| r.breakaway = Some(torque(99.0))).flag("forced-out", 1),
        None
    );
}

#[test]
fn force_is_cleared_by_a_decision_and_a_proved_hole_together_and_by_neither_alone() {
    let mut bench = out(B, |r| r.outcome = Outcome::Seized);
    bench.decide(decision(1, CleanAndReuse));
    assert_eq!(
        bench.flag("forced-out", 1),
        Some(Stop),
        "the hole was not looked at"
    );
    bench.decide(with_hole(decision(1, CleanAndReuse), HoleCheck::Measured));
    assert_eq!(
        bench.flag("forced-out", 1),
        Some(Stop),
        "measured is not run in by hand"
    );
    bench.decide(with_hole(
        decision(1, CleanAndReuse),
        HoleCheck::RunsInByHand,
    ));
    assert_eq!(bench.flag("forced-out", 1), None);

    let mut bench = out(A, |r| r.outcome = Outcome::Seized);
    bench.decide(with_hole(
        decision(1, CleanAndReuse),
        HoleCheck::RunsInByHand,
    ));
    assert_eq!(
        bench.flag("forced-out", 1),
        Some(Stop),
        "class A wants a new bolt"
    );
    bench.decide(with_hole(decision(1, Replace), HoleCheck::RunsInByHand));
    assert_eq!(bench.flag("forced-out", 1), None);
}

#[test]
fn a_refit_does_not_clear_force() {
    let mut bench = out(B, |r| r.outcome = Outcome::Seized);
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("forced-out", 1), Some(Stop));
}

#[test]
fn heat_stops_by_colour_or_class_and_only_a_new_bolt_clears_it() {
    let heated = |class, colour| {
        out(class, |r| {
            r.methods = vec![Method::Heat];
            r.heat_colour = colour;
        })
    };
    for (class, colour, severity) in [
        (B, Some(HeatColour::Warm), Caution),
        (B, Some(HeatColour::Blue), Stop),
        (C, Some(HeatColour::Red), Stop),
        (C, None, Stop),
        (A, Some(HeatColour::Warm), Stop),
    ] {
        assert_eq!(
            heated(class, colour).flag("heated", 1),
            Some(severity),
            "{class:?} {colour:?}"
        );
    }
    let mut bench = heated(C, Some(HeatColour::Red));
    bench.decide(with_hole(
        decision(1, CleanAndReuse),
        HoleCheck::RunsInByHand,
    ));
    assert_eq!(bench.flag("heated", 1), Some(Stop));
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("heated", 1), None);
    assert_eq!(out(A, |_| {}).flag("heated", 1), None);
}
