//! What is published and in force: each rule raised, not raised, cleared, and not cleared by the wrong fact.

use crate::bench::{Bench, back, decision, sound};
use crate::following::{anew, bench, followed, shop};
use crate::shop::say;
use crate::specifications::{create, id, plate, revise, with_torque, withdraw};
use clampbook_book::fact::{JointAdded, SpecificationStated};
use clampbook_book::rules;
use clampbook_book::shop::Shop;
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::Reuse;
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::Tightness;

pub(super) fn with(stated: SpecificationStated, change: impl FnOnce(&mut JointAdded)) -> Bench {
    let mut shop = Shop::new();
    say(&mut shop, create(stated));
    Bench::in_shop(shop, |joint| {
        joint.specification = followed(0);
        change(joint);
    })
}

/// What a rule says at a position.
pub(super) fn cause(bench: &Bench, rule: &str, position: u16) -> String {
    rules::joint_flags(bench.joint(), &bench.context(), bench.unit())
        .into_iter()
        .find(|flag| flag.rule == rule && flag.position == position)
        .map(|flag| flag.cause)
        .expect("it is raised")
}

#[test]
fn a_withdrawn_specification_stops_class_a_and_cautions_the_rest() {
    const RULE: &str = "specification-not-in-force";
    for (class, severity) in [(A, Stop), (B, Caution), (C, Caution)] {
        let mut bench = bench(class);
        assert_eq!(bench.flag(RULE, 0), None);
        say(&mut bench.shop, withdraw("\"1\""));
        assert_eq!(bench.flag(RULE, 0), Some(severity));
        assert!(cause(&bench, RULE, 0).contains("was withdrawn: of another year"));
        anew(&mut bench, |joint| joint.lock = "tab plate".into()).expect("it is taken");
        assert_eq!(
            bench.flag(RULE, 0),
            Some(severity),
            "something else of the joint was corrected"
        );
        let other = SpecificationStated {
            specification: id("other-plate"),
            ..plate()
        };
        say(&mut bench.shop, create(other));
        assert_eq!(bench.flag(RULE, 0), Some(severity), "nobody named it");
        anew(&mut bench, |joint| {
            let named = joint.specification.as_mut().expect("one is named");
            named.specification = id("other-plate");
            named.revision = 0;
        })
        .expect("it is taken");
        assert_eq!(bench.flag(RULE, 0), None);
    }
}

#[test]
fn a_revision_for_another_thread_or_purpose_does_not_hold_either() {
    let coarse = SpecificationStated {
        thread: "7/16-14 UNC".into(),
        ..with_torque("50 lbf·ft")
    };
    let flare = SpecificationStated {
        purpose: "flare-fitting".into(),
        ..with_torque("50 lbf·ft")
    };
    for stated in [coarse, flare] {
        let mut bench = bench(A);
        say(&mut bench.shop, revise(stated, "\"1\""));
        assert_eq!(bench.flag("specification-not-in-force", 0), Some(Stop));
        say(&mut bench.shop, revise(plate(), "\"2\""));
        assert_eq!(bench.flag("specification-not-in-force", 0), None);
    }
}

#[test]
fn the_computed_torque_that_is_left_needs_its_approval_again() {
    const RULE: &str = "computed-torque-not-approved";
    let mut bench = bench(A);
    anew(&mut bench, |joint| joint.computed_torque_approver.clear()).expect("it is taken");
    assert_eq!(bench.flag(RULE, 0), None, "it is published");
    say(&mut bench.shop, withdraw("\"1\""));
    assert_eq!(bench.flag(RULE, 0), Some(Stop));
}

#[test]
fn a_new_revision_is_to_be_read_before_the_joint_follows_it() {
    const RULE: &str = "specification-revised";
    let mut bench = bench(B);
    assert_eq!(bench.flag(RULE, 0), None);
    let only_cited = SpecificationStated {
        citation: "Service letter 7".into(),
        ..plate()
    };
    say(&mut bench.shop, revise(only_cited, "\"1\""));
    assert_eq!(bench.flag(RULE, 0), Some(Note), "it asks for the same");
    say(&mut bench.shop, revise(with_torque("52 lbf·ft"), "\"2\""));
    assert_eq!(bench.flag(RULE, 0), Some(Caution));
    let why = cause(&bench, RULE, 0);
    assert!(
        why.contains("revision 3") && why.contains("revision 1 was read"),
        "{why}"
    );
    // The row may be stopped, and then no torque is told.
    assert!(!why.contains("lbf"), "{why}");
    anew(&mut bench, |joint| joint.lock = "tab plate".into()).expect("it is taken");
    assert_eq!(
        bench.flag(RULE, 0),
        Some(Caution),
        "nobody says to have read it"
    );
    anew(&mut bench, |joint| joint.specification = followed(3)).expect("it is taken");
    assert_eq!(bench.flag(RULE, 0), None);
}

#[test]
fn what_was_tightened_before_a_revision_is_tightened_again() {
    const RULE: &str = "specification-revised";
    let mut bench = bench(A);
    bench.take_out(sound(1)).refit(back(1, Tightness::Final));
    bench.take_out(sound(2)).refit(back(2, Tightness::Snug));
    assert_eq!(bench.flag(RULE, 1), None);
    let only_cited = SpecificationStated {
        citation: "Service letter 7".into(),
        ..plate()
    };
    say(&mut bench.shop, revise(only_cited, "\"1\""));
    assert_eq!(bench.flag(RULE, 1), None, "it asks for the same");
    say(&mut bench.shop, revise(with_torque("52 lbf·ft"), "\"2\""));
    assert_eq!(bench.flag(RULE, 1), Some(Caution));
    assert_eq!(bench.flag(RULE, 2), None, "it is not tight yet");
    anew(&mut bench, |joint| joint.specification = followed(3)).expect("it is taken");
    assert_eq!(
        bench.flag(RULE, 1),
        Some(Caution),
        "reading it tightens nothing"
    );
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag(RULE, 1), None);
}

#[test]
fn what_was_tightened_to_a_computed_torque_is_not_tightened_as_published() {
    const RULE: &str = "specification-revised";
    let mut bench = Bench::in_shop(shop(), |_| ());
    bench.take_out(sound(1)).refit(back(1, Tightness::Final));
    anew(&mut bench, |joint| joint.specification = followed(0)).expect("it is taken");
    assert_eq!(bench.flag(RULE, 1), Some(Caution));
    assert!(cause(&bench, RULE, 1).contains("not published"));
    bench.decide(decision(1, Reuse));
    assert_eq!(
        bench.flag(RULE, 1),
        Some(Caution),
        "a decision tightens nothing"
    );
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag(RULE, 1), None);
}
