//! What a published torque does with the lubrication and on the fasteners found: raised, not raised, cleared, not cleared.

use super::specified::{cause, with};
use crate::bench::{Bench, back, decision, new_bolt, read as wrench, sound, torque};
use crate::following::{anew, bench};
use crate::shop::say;
use crate::specifications::{plate, revise, said, turned, with_torque};
use clampbook_book::fact::{
    Decided, FastenerSpec, JointAdded, Refitted, Removed, SpecificationStated, SpecifiedStep,
};
use clampbook_book::orders;
use clampbook_book::rules::fits;
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::{Replace, Reuse};
use clampbook_book::words::Outcome;
use clampbook_book::words::Severity::{Caution, Stop};
use clampbook_book::words::Tightness;

fn lubrication(joint: &mut JointAdded, lubrication: &str) {
    joint.target.as_mut().expect("a target").lubrication = lubrication.into();
}

#[test]
fn another_lubrication_than_stated_is_told_with_what_it_makes() {
    const RULE: &str = "other-lubrication";
    let mut bench = bench(B);
    assert_eq!(bench.flag(RULE, 0), Some(Caution));
    // K 0.20 dry (NASA TM-106943) and 0.18 lightly oiled (Shigley, table 8-15): 1.11.
    let why = cause(&bench, RULE, 0);
    assert!(
        why.contains("dry, the joint is oiled") && why.contains("1.11 times"),
        "{why}"
    );
    anew(&mut bench, |joint| joint.preparation = "dry".into()).expect("it is taken");
    assert_eq!(
        bench.flag(RULE, 0),
        Some(Caution),
        "words are not reckoned with"
    );
    anew(&mut bench, |joint| lubrication(joint, "clean and dry")).expect("it is taken");
    assert_eq!(bench.flag(RULE, 0), None, "dry by another name");
    anew(&mut bench, |joint| {
        joint.target.as_mut().expect("a target").nut_factor = Some(0.16);
    })
    .expect("it is taken");
    // 0.20 / 0.16.
    assert!(
        cause(&bench, RULE, 0).contains("nut factor 0.16: the published torque gives 1.25 times")
    );
    anew(&mut bench, |joint| {
        let target = joint.target.as_mut().expect("a target");
        target.nut_factor = None;
        target.lubrication = "oiled".into();
    })
    .expect("it is taken");
    let oiled = SpecificationStated {
        lubrication: "oiled".into(),
        ..plate()
    };
    say(&mut bench.shop, revise(oiled, "\"1\""));
    assert_eq!(bench.flag(RULE, 0), None, "the new revision states it");
}

#[test]
fn a_publication_without_lubrication_has_none_to_differ_from() {
    let silent = SpecificationStated {
        lubrication: String::new(),
        ..plate()
    };
    assert_eq!(with(silent, |_| ()).flag("other-lubrication", 0), None);
    assert_eq!(Bench::new(B).flag("other-lubrication", 0), None);
}

#[test]
fn steps_that_end_in_an_angle_are_told_without_a_ratio() {
    let bench = with(turned(), |_| ());
    let why = cause(&bench, "other-lubrication", 0);
    assert!(
        why.contains("published steps") && !why.contains("times"),
        "{why}"
    );
}

#[test]
fn a_weaker_bolt_is_judged_against_the_published_grade() {
    const RULE: &str = "weaker-than-specified";
    let strong = SpecificationStated {
        grade: "SAE J429 8".into(),
        ..plate()
    };
    let mut bench = with(strong, |joint| joint.criticality = A);
    bench.take_out(sound(1));
    // Proof 85 ksi against 120 ksi (SAE J429).
    assert_eq!(bench.flag(RULE, 1), Some(Stop));
    anew(&mut bench, |joint| {
        joint.target.as_mut().expect("a target").grade = "SAE J429 2".into();
    })
    .expect("it is taken");
    assert_eq!(
        bench.flag(RULE, 1),
        Some(Stop),
        "the joint's own words do not waive it"
    );
    let bolt = |grade: &str| Decided {
        replacement: Some(FastenerSpec {
            grade: grade.into(),
            ..new_bolt()
        }),
        ..decision(1, Replace)
    };
    bench.decide(bolt("SAE J429 5"));
    assert_eq!(bench.flag(RULE, 1), Some(Stop));
    bench.decide(bolt("SAE J429 8"));
    assert_eq!(bench.flag(RULE, 1), None);
    bench.decide(bolt("SAE J429 5"));
    say(&mut bench.shop, revise(plate(), "\"1\""));
    assert_eq!(bench.flag(RULE, 1), None, "the new revision is for grade 5");
}

#[test]
fn a_published_torque_that_the_bolt_does_not_carry_stops_with_its_number() {
    const RULE: &str = "published-torque-overloads";
    for (class, severity) in [(A, Stop), (B, Stop), (C, Caution)] {
        let mut bench = with(plate(), |joint| {
            joint.criticality = class;
            lubrication(joint, "dry");
        });
        bench.take_out(sound(1));
        assert_eq!(bench.flag(RULE, 1), None);
        // Grade 2 proves 55 ksi (SAE J429) on 0.1187 in² (ASME B1.1), 6,529 lbf; 660 lbf·in / (0.20 · 0.4375 in) is 7,543.
        bench.take_out(Removed {
            grade: "SAE J429 2".into(),
            ..sound(2)
        });
        assert_eq!(bench.flag(RULE, 2), Some(severity));
        let why = cause(&bench, RULE, 2);
        assert!(
            why.contains("1.16 of the proof load of SAE J429 2"),
            "{why}"
        );
        bench.decide(decision(2, Reuse));
        assert_eq!(
            bench.flag(RULE, 2),
            Some(severity),
            "a decision makes it no stronger"
        );
        bench.decide(decision(2, Replace));
        assert_eq!(bench.flag(RULE, 2), None);
    }
}

#[test]
fn slippery_grease_overloads_even_the_grade_that_is_meant() {
    const RULE: &str = "published-torque-overloads";
    // K 0.11 (AN6 example): 660 / (0.11 · 0.4375) = 13,714 lbf; grade 5 proves 85 ksi (SAE J429) on 0.1187 in²: 10,090 lbf.
    let mut bench = with(plate(), |joint| lubrication(joint, "moly paste"));
    assert_eq!(bench.flag(RULE, 0), Some(Stop));
    assert!(cause(&bench, RULE, 0).contains("1.36 of the proof load"));
    bench.take_out(sound(1));
    assert_eq!(bench.flag(RULE, 1), None, "said once for the whole joint");
    anew(&mut bench, |joint| lubrication(joint, "oiled")).expect("it is taken");
    assert_eq!(bench.flag(RULE, 0), None);
    // K 0.11 on grade 2, which breaks at 74 ksi on 0.1187 in²: 8,784 lbf.
    let mut weak = with(plate(), |joint| lubrication(joint, "moly paste"));
    weak.take_out(Removed {
        grade: "SAE J429 2".into(),
        ..sound(1)
    });
    assert!(cause(&weak, RULE, 1).contains("before it breaks"));
}

#[test]
fn what_a_maker_prints_for_a_grade_and_lubrication_is_his_to_answer_for() {
    const RULE: &str = "published-torque-overloads";
    // 75 lbf·ft dry: 10,286 lbf, 1.02 of 10,090 lbf.
    let hard = || SpecificationStated {
        minimum: None,
        maximum: None,
        ..with_torque("75 lbf·ft")
    };
    let dry = |joint: &mut JointAdded| lubrication(joint, "dry");
    assert_eq!(with(hard(), dry).flag(RULE, 0), None);
    let unnamed = SpecificationStated {
        grade: String::new(),
        ..hard()
    };
    assert_eq!(
        with(unnamed, dry).flag(RULE, 0),
        Some(Stop),
        "no grade is named"
    );
}

#[test]
fn a_reading_is_held_against_the_published_limits() {
    const RULE: &str = "reading-off";
    let read = |nm: f64| Refitted {
        torque: wrench(nm),
        ..back(1, Tightness::Final)
    };
    // 50 to 60 lbf·ft are 67.8 to 81.3 N·m.
    for (nm, severity) in [(67.0, Some(Caution)), (68.5, None), (81.0, None)] {
        let mut bench = bench(B);
        bench.take_out(sound(1)).refit(read(nm));
        assert_eq!(bench.flag(RULE, 1), severity, "{nm}");
    }
    let mut above = bench(B);
    above.take_out(sound(1)).refit(read(82.0));
    assert_eq!(
        above.flag(RULE, 1),
        None,
        "too much is told by its own rule"
    );
    assert_eq!(above.flag("over-torqued", 1), Some(Caution));
    // Without limits it is 6 % of 74.6 N·m.
    for (nm, severity) in [
        (70.0, Some(Caution)),
        (70.5, None),
        (79.0, None),
        (79.3, Some(Caution)),
    ] {
        let mut bench = with(with_torque("55 lbf·ft"), |_| ());
        bench.take_out(sound(1)).refit(read(nm));
        assert_eq!(bench.flag(RULE, 1), severity, "{nm}");
    }
}

#[test]
fn breakaway_is_held_against_the_published_torque() {
    // Three tenths of 55 lbf·ft are 22.4 N·m; of the 67.3 N·m computed they would be 20.2.
    for (nm, severity) in [(22.0, Some(Caution)), (23.0, None)] {
        let mut bench = bench(B);
        bench.take_out(Removed {
            breakaway: Some(torque(nm)),
            ..sound(1)
        });
        assert_eq!(bench.flag("loose-on-arrival", 1), severity, "{nm}");
    }
}

#[test]
fn what_is_offered_or_ordered_is_judged_by_the_published_grade() {
    let strong = SpecificationStated {
        grade: "SAE J429 8".into(),
        ..plate()
    };
    let mut bench = with(strong, |_| ());
    let checks = fits::check(
        bench.joint(),
        1,
        &new_bolt(),
        &bench.context(),
        bench.unit(),
    )
    .expect("a position");
    let rules: Vec<_> = checks.iter().map(|check| check.rule).collect();
    assert!(rules.contains(&"weaker-than-specified"), "{rules:?}");
    bench.take_out(Removed {
        outcome: Outcome::BrokeNow,
        ..sound(1)
    });
    let wanted = orders::list(&bench.job, None, &bench.context());
    assert!(wanted[0].what.contains("J429 8"), "{wanted:?}");
}

#[test]
fn a_weaker_bolt_is_found_where_no_torque_is_computed_too() {
    let head = SpecificationStated {
        purpose: "yield-bolt".into(),
        steps: vec![
            SpecifiedStep::Torque(said("30 lbf·ft")),
            SpecifiedStep::TurnDegrees(90.0),
        ],
        minimum: None,
        maximum: None,
        lubrication: String::new(),
        ..plate()
    };
    let mut bench = with(head, |joint| {
        joint.purpose = "yield-bolt".into();
        joint.target = None;
    });
    bench.take_out(sound(1));
    bench.take_out(Removed {
        grade: "SAE J429 2".into(),
        ..sound(2)
    });
    bench.take_out(Removed {
        grade: String::new(),
        ..sound(3)
    });
    let weaker = [1, 2].map(|hole| bench.flag("weaker-than-specified", hole));
    assert_eq!(weaker, [None, Some(Stop)]);
    assert_eq!(bench.flag("grade-unknown", 3), Some(Caution));
}
