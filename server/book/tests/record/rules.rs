//! Each rule: what raises it, what does not, what clears it, and what cannot.

use crate::bench::{Bench, back, decision, inches, new_bolt, sound, torque};
use clampbook_book::fact::{Decided, Fact, FastenerSpec, LengthSeen, Refitted, Removed};
use clampbook_book::rules;
use clampbook_book::words::{
    Compared, Condition, Criticality, Disposition, HeatColour, HoleCheck, Means, Severity, Tick,
    Tightness,
};

use Criticality::{A, B, C};
use Disposition::{CleanAndReuse, Replace, Reuse};
use Severity::{Caution, Note, Stop};

fn out(criticality: Criticality, change: impl FnOnce(&mut Removed)) -> Bench {
    let mut bench = Bench::new(criticality);
    let mut removed = sound(1);
    change(&mut removed);
    bench.take_out(removed);
    bench
}

fn with_hole(decided: Decided, hole: HoleCheck) -> Decided {
    Decided {
        hole_check: Some(hole),
        ..decided
    }
}

#[test]
fn every_rule_says_when_it_is_raised_and_cleared_and_where_it_comes_from() {
    let mut ids: Vec<&str> = rules::ALL.iter().map(|rule| rule.id).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), rules::ALL.len(), "ids are distinct");
    for rule in rules::ALL {
        for text in [rule.title, rule.raised_when, rule.cleared_by, rule.source] {
            assert!(text.len() > 10, "{}: {text:?}", rule.id);
        }
    }
}

#[test]
fn a_sound_bolt_raises_nothing_but_its_empty_hole() {
    let bench = out(A, |_| {});
    let flags = rules::joint_flags(bench.joint(), &bench.catalogue);
    let raised: Vec<&str> = flags.iter().map(|f| f.rule).collect();
    assert_eq!(raised, ["not-refitted"]);
}

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

fn four(third: f64) -> Bench {
    let mut bench = Bench::new(B);
    for position in 1..=4 {
        let length = if position == 3 { third } else { 1.25 };
        bench.take_out(Removed {
            length: Some(LengthSeen::Measured(inches(length))),
            ..sound(position)
        });
    }
    bench
}

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
    let odd = rules::odd_lengths(bench.joint(), &bench.catalogue);
    assert_eq!(
        odd,
        [(3, Compared::Longer)],
        "explained, and still drawn as the long one"
    );
    bench.decide(decision(3, Replace));
    assert_eq!(bench.flag("odd-length", 3), None);
    let odd = rules::odd_lengths(bench.joint(), &bench.catalogue);
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

#[test]
fn force_of_any_kind_stops_the_bolt_and_its_hole() {
    for condition in [Condition::Seized, Condition::Spun] {
        let bench = out(C, |r| r.condition = condition);
        assert_eq!(bench.flag("forced-out", 1), Some(Stop), "{condition:?}");
    }
    for means in [
        Means::Hammer,
        Means::PullerOrPress,
        Means::SplitOrCut,
        Means::ExtractorOrWeldedNut,
        Means::Drilled,
    ] {
        let bench = out(C, |r| r.means = vec![means]);
        assert_eq!(bench.flag("forced-out", 1), Some(Stop), "{means:?}");
    }
    for means in [
        Means::Hand,
        Means::LongBar,
        Means::PenetrantSoak,
        Means::AirImpact,
    ] {
        let bench = out(A, |r| r.means = vec![means]);
        assert_eq!(bench.flag("forced-out", 1), None, "{means:?}");
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
    let mut bench = out(B, |r| r.condition = Condition::Seized);
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

    let mut bench = out(A, |r| r.condition = Condition::Seized);
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
    let mut bench = out(B, |r| r.condition = Condition::Seized);
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("forced-out", 1), Some(Stop));
}

#[test]
fn broken_and_missing_bolts_are_replaced_and_a_stub_wants_its_hole_proved() {
    for condition in [
        Condition::BrokeNow,
        Condition::BrokenBefore,
        Condition::CutOnPurpose,
    ] {
        let mut bench = out(C, |r| r.condition = condition);
        assert_eq!(
            bench.flag("broken-or-missing", 1),
            Some(Stop),
            "{condition:?}"
        );
        bench.decide(decision(1, Replace));
        assert_eq!(
            bench.flag("broken-or-missing", 1),
            Some(Stop),
            "{condition:?}"
        );
        bench.decide(with_hole(decision(1, Replace), HoleCheck::Repaired));
        assert_eq!(bench.flag("broken-or-missing", 1), None, "{condition:?}");
    }
    let mut bench = out(C, |r| r.condition = Condition::MissingBefore);
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag("broken-or-missing", 1), Some(Stop));
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("broken-or-missing", 1), None);
    assert_eq!(out(C, |_| {}).flag("broken-or-missing", 1), None);
}

#[test]
fn damaged_threads_want_a_new_bolt_and_a_proved_hole() {
    for condition in [Condition::PulledThreads, Condition::CrossThreaded] {
        let mut bench = out(C, |r| r.condition = condition);
        assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
        bench.decide(decision(1, Replace));
        assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
        bench.decide(with_hole(decision(1, CleanAndReuse), HoleCheck::Chased));
        assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
        bench.decide(with_hole(decision(1, Replace), HoleCheck::Chased));
        assert_eq!(bench.flag("thread-damaged", 1), None);
    }
    assert_eq!(
        out(C, |r| r.condition = Condition::Stiff).flag("thread-damaged", 1),
        None
    );
}

#[test]
fn unfit_bolts_are_replaced_and_cleaning_does_not_mend_them() {
    for tick in [Tick::Bent, Tick::Necked, Tick::WrongBolt] {
        let mut bench = out(C, |r| r.ticks = vec![tick]);
        assert_eq!(bench.flag("fastener-unfit", 1), Some(Stop), "{tick:?}");
        bench.decide(decision(1, CleanAndReuse));
        assert_eq!(bench.flag("fastener-unfit", 1), Some(Stop), "{tick:?}");
        bench.decide(decision(1, Replace));
        assert_eq!(bench.flag("fastener-unfit", 1), None, "{tick:?}");
    }
    for tick in [Tick::Fretted, Tick::Pitted] {
        assert_eq!(
            out(A, |r| r.ticks = vec![tick]).flag("fastener-unfit", 1),
            Some(Stop)
        );
        assert_eq!(
            out(B, |r| r.ticks = vec![tick]).flag("fastener-unfit", 1),
            Some(Caution)
        );
    }
    for tick in [Tick::LockMissing, Tick::LeftHand] {
        assert_eq!(
            out(A, |r| r.ticks = vec![tick]).flag("fastener-unfit", 1),
            None
        );
    }
    let rounded = out(C, |r| r.condition = Condition::Rounded);
    assert_eq!(rounded.flag("fastener-unfit", 1), Some(Stop));
    let both = out(B, |r| r.ticks = vec![Tick::Bent, Tick::Pitted]);
    assert_eq!(
        both.flag("fastener-unfit", 1),
        Some(Stop),
        "the worse tick decides"
    );
}

#[test]
fn heat_stops_by_colour_or_class_and_only_a_new_bolt_clears_it() {
    let heated = |class, colour| {
        out(class, |r| {
            r.means = vec![Means::Heat];
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

#[test]
fn loose_on_arrival_is_a_finding_that_wants_the_hole_measured() {
    let mut bench = out(B, |r| r.condition = Condition::LooseOnArrival);
    assert_eq!(bench.flag("loose-on-arrival", 1), Some(Caution));
    bench.decide(with_hole(decision(1, Reuse), HoleCheck::RunsInByHand));
    assert_eq!(
        bench.flag("loose-on-arrival", 1),
        Some(Caution),
        "run in by hand is not measured"
    );
    bench.decide(with_hole(decision(1, Reuse), HoleCheck::Measured));
    assert_eq!(bench.flag("loose-on-arrival", 1), None);

    let mut bench = out(A, |r| r.condition = Condition::LooseOnArrival);
    bench.decide(with_hole(decision(1, Reuse), HoleCheck::Measured));
    assert_eq!(
        bench.flag("loose-on-arrival", 1),
        Some(Stop),
        "class A wants a new bolt as well"
    );
    bench.decide(with_hole(decision(1, Replace), HoleCheck::Measured));
    assert_eq!(bench.flag("loose-on-arrival", 1), None);
}

#[test]
fn a_breakaway_below_three_tenths_of_the_torque_counts_as_loose() {
    // The joint's torque is 67.3 N·m.
    assert_eq!(
        out(B, |r| r.breakaway = Some(torque(19.0))).flag("loose-on-arrival", 1),
        Some(Caution)
    );
    assert_eq!(
        out(B, |r| r.breakaway = Some(torque(21.0))).flag("loose-on-arrival", 1),
        None
    );
}

#[test]
fn another_thread_is_a_caution_as_found_and_a_stop_as_bought() {
    let bench = out(B, |r| r.thread = "7/16-14 UNC".into());
    assert_eq!(bench.flag("other-thread", 1), Some(Caution));
    let mut bench = out(B, |r| r.thread = "7/16-20".into());
    assert_eq!(
        bench.flag("other-thread", 1),
        None,
        "the same thread said shorter"
    );
    bench.decide(Decided {
        replacement: Some(FastenerSpec {
            thread: "7/16-14 UNC".into(),
            ..new_bolt()
        }),
        ..decision(1, Replace)
    });
    assert_eq!(bench.flag("other-thread", 1), Some(Stop));
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("other-thread", 1), None);
}

#[test]
fn a_computed_torque_in_class_a_stops_until_somebody_approves_it_by_name() {
    let unapproved = |class| {
        Bench::with(|joint| {
            joint.criticality = class;
            joint.computed_torque_approver.clear();
        })
    };
    assert_eq!(unapproved(B).flag("computed-torque-not-approved", 0), None);
    let mut bench = unapproved(A);
    assert_eq!(bench.flag("computed-torque-not-approved", 0), Some(Stop));
    bench.take_out(sound(1)).decide(decision(1, Replace));
    assert_eq!(
        bench.flag("computed-torque-not-approved", 0),
        Some(Stop),
        "no bolt approves a torque"
    );
    let mut described = (*bench.joint().fact).clone();
    described.computed_torque_approver = "Ida".into();
    let entry = bench.joint().entry;
    bench
        .correct(entry, Some(Fact::JointAdded(described)))
        .expect("it is accepted");
    assert_eq!(bench.flag("computed-torque-not-approved", 0), None);
}

#[test]
fn what_went_in_is_what_was_decided() {
    let mut bench = out(B, |_| {});
    bench
        .decide(decision(1, Replace))
        .refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("not-as-decided", 1), Some(Stop));
    bench.refit(Refitted {
        new_part: Some(new_bolt()),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag("not-as-decided", 1), None);

    let mut bench = out(B, |r| r.condition = Condition::MissingBefore);
    bench.refit(back(1, Tightness::Final));
    assert_eq!(
        bench.flag("not-as-decided", 1),
        Some(Stop),
        "what was missing cannot be back"
    );
}

#[test]
fn in_but_not_tight_and_not_in_at_all_are_said() {
    let mut bench = out(B, |_| {});
    bench.take_out(sound(2));
    assert_eq!(
        bench.flag("not-refitted", 1),
        Some(Note),
        "nothing is back yet"
    );
    bench.refit(back(1, Tightness::Snug));
    assert_eq!(bench.flag("not-tight", 1), Some(Caution));
    assert_eq!(bench.flag("not-refitted", 1), None);
    assert_eq!(
        bench.flag("not-refitted", 2),
        Some(Caution),
        "its neighbour is in"
    );
    bench.decide(decision(1, Reuse));
    assert_eq!(
        bench.flag("not-tight", 1),
        Some(Caution),
        "deciding tightens nothing"
    );
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("not-tight", 1), None);
}

#[test]
fn one_position_is_judged_as_it_is_among_all() {
    let mut bench = four(1.75);
    bench
        .decide(decision(2, Replace))
        .refit(back(2, Tightness::Snug));
    let all = rules::joint_flags(bench.joint(), &bench.catalogue);
    for number in 1..=4 {
        let mine: Vec<_> = all
            .iter()
            .filter(|flag| flag.position == number || flag.position == 0)
            .cloned()
            .collect();
        assert_eq!(
            rules::position_flags(bench.joint(), number, &bench.catalogue),
            mine
        );
    }
}

#[test]
fn a_reading_that_is_not_the_torque_asked_for_is_said() {
    // The joint's torque is 67.3 N·m.
    let read = |tightness, nm| {
        let mut bench = out(B, |_| {});
        bench.refit(Refitted {
            reading: Some(torque(nm)),
            ..back(1, tightness)
        });
        bench
    };
    assert_eq!(read(Tightness::Final, 67.0).flag("reading-off", 1), None);
    assert_eq!(
        read(Tightness::Final, 44.0).flag("reading-off", 1),
        Some(Caution)
    );
    assert_eq!(
        read(Tightness::Final, 80.0).flag("reading-off", 1),
        Some(Caution)
    );
    assert_eq!(
        read(Tightness::Snug, 20.0).flag("reading-off", 1),
        None,
        "snug asks for no torque"
    );
    let mut bench = read(Tightness::Final, 44.0);
    bench.decide(decision(1, Reuse));
    assert_eq!(
        bench.flag("reading-off", 1),
        Some(Caution),
        "a decision turns no wrench"
    );
    bench.refit(Refitted {
        reading: Some(torque(67.5)),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag("reading-off", 1), None);
}
