//! Is one bolt longer or shorter than its neighbours?

use super::{four, out};
use crate::bench::{Bench, decision, inches, sound};
use clampbook_book::fact::{Decided, LengthSeen, Removed};
use clampbook_book::rules;
use clampbook_book::words::Compared;
use clampbook_book::words::Criticality::B;
use clampbook_book::words::DecisionKind::{Replace, Reuse};
use clampbook_book::words::Severity::Caution;

#[test]
fn one_long_bolt_among_four_is_odd_and_one_within_tolerance_is_not() {
    let bench = four(1.75);
    assert_eq!(bench.flag("odd-length", 3), Some(Caution));
    assert_eq!(bench.flag("odd-length", 1), None);
    assert_eq!(four(1.27).flag("odd-length", 3), None);
}

#[test]
fn an_odd_length_is_cleared_by_a_citation_or_the_common_length_and_not_by_reuse() {
    let mut bench = four(1.75);
    bench.decide(decision(3, Reuse));
    assert_eq!(bench.flag("odd-length", 3), Some(Caution));
    bench.decide(Decided {
        citation: "stack measured: 12.7 mm bracket under the head".into(),
        ..decision(3, Reuse)
    });
    assert_eq!(bench.flag("odd-length", 3), None);
    let odd = rules::odd_lengths(bench.joint(), &bench.context());
    assert_eq!(
        odd,
        [(3, Compared::Longer)],
        "explained, and still drawn as the long one"
    );
    bench.decide(decision(3, Replace));
    assert_eq!(bench.flag("odd-length", 3), None);
    let odd = rules::odd_lengths(bench.joint(), &bench.context());
    assert_eq!(odd, [], "the common length is not odd");
}

#[test]
fn two_and_two_is_a_question_about_the_joint_and_accuses_no_bolt() {
    let mut bench = Bench::new(B);
    for position in 1..=4 {
        let length = if position % 2 == 0 { 1.75 } else { 1.25 };
        bench.take_out(Removed {
            length: Some(LengthSeen::Measured(inches(length))),
            ..sound(position)
        });
    }
    assert_eq!(bench.flag("odd-length", 0), Some(Caution));
    assert_eq!(bench.flag("odd-length", 2), None);
}

#[test]
fn a_bolt_laid_beside_its_neighbours_needs_no_number_to_be_odd() {
    for (word, flag) in [
        (Compared::Longer, Some(Caution)),
        (Compared::Shorter, Some(Caution)),
        (Compared::Same, None),
    ] {
        let bench = out(B, |r| r.length = Some(LengthSeen::Compared(word)));
        assert_eq!(bench.flag("odd-length", 1), flag, "{word:?}");
    }
}
