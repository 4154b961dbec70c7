//! Is the bolt as strong as the joint asks for?

use super::out;
use crate::bench::{decision, new_bolt};
use clampbook_book::fact::{Decided, FastenerSpec};
use clampbook_book::words::Condition;
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::Disposition::{CleanAndReuse, Replace, Reuse};
use clampbook_book::words::Severity::{Caution, Note, Stop};

#[test]
fn an_unknown_grade_stops_class_a_cautions_b_and_is_noted_in_c() {
    for (class, severity) in [(A, Stop), (B, Caution), (C, Note)] {
        let bench = out(class, |r| r.grade.clear());
        assert_eq!(bench.flag("grade-unknown", 1), Some(severity));
    }
    let odd_words = out(A, |r| r.grade = "strong one".into());
    assert_eq!(odd_words.flag("grade-unknown", 1), Some(Stop));
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
        r.condition = Condition::MissingBefore;
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
