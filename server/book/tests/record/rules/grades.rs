//! Is the bolt as strong as the joint asks for?

use super::out;
use crate::bench::{Bench, decision, new_bolt, sound};
use crate::sheet::view;
use clampbook_book::fact::{Decided, FastenerSpec, Removed};
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::{CleanAndReuse, Replace, Reuse};
use clampbook_book::words::Outcome;
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::TorqueUnit;
use clampbook_engine::Catalogue;

#[test]
fn an_unknown_grade_stops_class_a_cautions_b_and_is_noted_in_c() {
    for (class, severity) in [(A, Stop), (B, Caution), (C, Note)] {
        let bench = out(class, |r| r.grade.clear());
        assert_eq!(bench.flag("grade-unknown", 1), Some(severity));
    }
    let odd_words = out(A, |r| r.grade = "strong one".into());
    assert_eq!(odd_words.flag("grade-unknown", 1), Some(Stop));
}

/// Every thread of the catalogue that a quenched grade has a strength for; those grades all carry a head mark (SAE J429,
/// ISO 898-1), so that a head without one is not theirs.
#[test]
fn an_unmarked_head_under_a_high_grade_never_goes_without_a_stop() {
    let catalogue = Catalogue::built_in();
    let mut tried = 0;
    for name in ["SAE J429 5", "SAE J429 8", "8.8", "10.9", "12.9"] {
        let grade = catalogue.grade(name).expect("a grade");
        let sizes = catalogue.threads().iter();
        for thread in sizes.filter(|thread| grade.strength_at(thread).is_some()) {
            let mut bench = Bench::with(|joint| {
                joint.criticality = A;
                if let Some(target) = &mut joint.target {
                    target.thread = thread.to_string();
                    target.grade = name.into();
                }
            });
            bench.take_out(Removed {
                thread: thread.to_string(),
                head_marking: "none".into(),
                grade: String::new(),
                ..sound(1)
            });
            assert_eq!(
                bench.flag("grade-unknown", 1),
                Some(Stop),
                "{thread} {name}"
            );
            let sheet = view(&bench, TorqueUnit::NewtonMetre);
            let row = sheet.joints[0].rows.iter().find(|row| row.position == 1);
            assert_eq!(row.expect("a row").torque.nm(), None, "{thread} {name}");
            tried += 1;
        }
    }
    assert!(tried > 100, "{tried}");
}

#[test]
fn a_grade_is_known_by_a_marked_part_or_by_a_cited_showing_and_not_by_a_reuse() {
    let mut bench = out(A, |r| r.grade.clear());
    bench.decide(decision(1, Reuse));
    assert_eq!(
        bench.flag("grade-unknown", 1),
        Some(Stop),
        "a decision shows no grade"
    );
    bench.decide(Decided {
        grade_shown: "SAE J429 5".into(),
        ..decision(1, Reuse)
    });
    assert_eq!(
        bench.flag("grade-unknown", 1),
        Some(Stop),
        "nothing is cited"
    );
    bench.decide(Decided {
        grade_shown: "SAE J429 5".into(),
        citation: "hardness 28, 29, 28 HRC".into(),
        ..decision(1, Reuse)
    });
    assert_eq!(bench.flag("grade-unknown", 1), None);
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("grade-unknown", 1), None);
}

#[test]
fn a_missing_bolt_has_no_grade_to_know() {
    let bench = out(A, |r| {
        r.outcome = Outcome::MissingBefore;
        r.grade.clear();
    });
    assert_eq!(bench.flag("grade-unknown", 1), None);
}

#[test]
fn a_weaker_bolt_is_a_stop_in_every_class_and_a_stronger_one_is_not() {
    for class in [A, B, C] {
        let bench = out(class, |r| r.grade = "SAE J429 2".into());
        assert_eq!(bench.flag("weaker-than-specified", 1), Some(Stop));
        let bench = out(class, |r| r.grade = "SAE J429 8".into());
        assert_eq!(bench.flag("weaker-than-specified", 1), None);
    }
}

#[test]
fn a_weak_bolt_is_cleared_by_a_strong_one_and_not_by_a_weak_one_or_by_words() {
    let mut bench = out(A, |r| r.grade = "SAE J429 2".into());
    bench.decide(decision(1, CleanAndReuse));
    assert_eq!(bench.flag("weaker-than-specified", 1), Some(Stop));
    bench.decide(Decided {
        replacement: Some(FastenerSpec {
            grade: "SAE J429 1".into(),
            ..new_bolt()
        }),
        ..decision(1, Replace)
    });
    assert_eq!(bench.flag("weaker-than-specified", 1), Some(Stop));
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("weaker-than-specified", 1), None);
}

#[test]
fn a_metric_grade_on_an_inch_thread_is_not_strong_enough() {
    let bench = out(C, |r| r.grade = "ISO 898-1 10.9".into());
    assert_eq!(bench.flag("weaker-than-specified", 1), Some(Stop));
}
