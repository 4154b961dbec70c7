//! What went in, against what should: threads, decisions and empty holes that the wrong fact does not put right.

use super::{out, with_hole};
use crate::bench::{Bench, back, decision, joint_id, new_bolt, sound, tightening, torque};
use crate::ordering::{BOLT, arrive};
use clampbook_book::command::{Command, Tightening};
use clampbook_book::fact::{Decided, FastenerSpec, Refitted};
use clampbook_book::rules;
use clampbook_book::words::Criticality::{self, A, B, C};
use clampbook_book::words::DecisionKind::{Replace, Reuse};
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::{HoleCheck, Step, Tightness};

fn coarse() -> FastenerSpec {
    FastenerSpec {
        thread: "7/16-14 UNC".into(),
        ..new_bolt()
    }
}

#[test]
fn neither_a_citation_nor_a_proved_hole_nor_a_refit_makes_another_thread_fit() {
    let cited = |decided| Decided {
        citation: "parts book, plate 14".into(),
        ..with_hole(decided, HoleCheck::RunsInByHand)
    };
    let mut bench = out(B, |r| r.thread = "7/16-14 UNC".into());
    bench.decide(cited(decision(1, Reuse)));
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("other-thread", 1), Some(Caution));
    bench.decide(cited(Decided {
        replacement: Some(coarse()),
        ..decision(1, Replace)
    }));
    bench.refit(Refitted {
        new_part: Some(coarse()),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag("other-thread", 1), Some(Stop), "it is even in");
}

#[test]
fn an_original_that_may_go_back_goes_back_at_its_torque_and_nothing_is_said() {
    let mut bench = out(B, |_| {});
    assert_eq!(bench.flag("not-refitted", 2), None, "it never came out");
    assert_eq!(bench.flag("not-tight", 1), None, "nothing is in");
    bench.decide(decision(1, Reuse));
    bench.refit(back(1, Tightness::Final));
    for rule in ["not-as-decided", "not-tight", "not-refitted"] {
        assert_eq!(bench.flag(rule, 1), None, "{rule}");
    }
}

#[test]
fn tightening_a_part_that_is_not_the_decided_one_does_not_make_it_so() {
    let mut bench = out(B, |_| {});
    bench
        .decide(decision(1, Replace))
        .refit(back(1, Tightness::Snug))
        .refit(back(1, Tightness::Final));
    bench.decide(Decided {
        citation: "parts book, plate 14".into(),
        ..decision(1, Replace)
    });
    arrive(&mut bench, BOLT, 1);
    assert_eq!(bench.flag("not-as-decided", 1), Some(Stop));
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag("not-as-decided", 1), None, "a new decision does");
}

#[test]
fn neither_a_decision_nor_a_part_that_came_fills_an_empty_hole() {
    let mut bench = out(B, |_| {});
    bench.take_out(sound(2)).decide(decision(2, Replace));
    arrive(&mut bench, BOLT, 1);
    assert_eq!(bench.flag("not-refitted", 2), Some(Note));
    bench.refit(back(1, Tightness::Final));
    assert_eq!(
        bench.flag("not-refitted", 2),
        Some(Caution),
        "another hole is filled"
    );
}

/// The fastener of hole 1 in, and at its final torque with this reading and wrench.
fn final_with(criticality: Criticality, reading: Option<f64>, tool: &str) -> Bench {
    let mut bench = out(criticality, |_| {});
    bench.refit(Refitted::new(joint_id(), 1));
    pull(&mut bench, reading, tool);
    bench
}

fn pull(bench: &mut Bench, reading: Option<f64>, tool: &str) {
    bench.say(Command::LogTightening(Tightening {
        reading: reading.map(torque),
        tool: tool.into(),
        ..tightening(&[1], Step::Final)
    }));
}

#[test]
fn a_final_torque_without_reading_or_wrench_is_not_read_in_class_a_and_b() {
    for criticality in [A, B] {
        for (reading, tool, told) in [
            (None, "", "neither reading nor wrench is logged"),
            (None, "TW1", "no reading is logged"),
            (Some(67.0), "", "no wrench is logged"),
        ] {
            let bench = final_with(criticality, reading, tool);
            assert_eq!(bench.flag("not-read", 1), Some(Caution));
            let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
            let flag = flags.into_iter().find(|flag| flag.rule == "not-read");
            let cause = flag.expect("it is raised").cause;
            assert!(cause.ends_with(told), "{cause}");
        }
    }
}

#[test]
fn class_c_snug_and_what_no_torque_is_asked_for_need_no_reading() {
    assert_eq!(final_with(C, None, "").flag("not-read", 1), None);
    let mut snug = out(B, |_| {});
    snug.refit(back(1, Tightness::Snug));
    assert_eq!(snug.flag("not-read", 1), None);
    let mut bearing = Bench::with(|joint| {
        joint.purpose = "wheel-bearing".into();
        joint.target = None;
    });
    bearing.take_out(sound(1)).refit(back(1, Tightness::Final));
    assert_eq!(bearing.flag("not-read", 1), None);
}

#[test]
fn reading_and_wrench_clear_it_and_one_of_the_two_does_not() {
    let mut bench = final_with(A, None, "");
    bench.decide(decision(1, Reuse));
    pull(&mut bench, Some(67.0), "");
    assert_eq!(bench.flag("not-read", 1), Some(Caution));
    pull(&mut bench, Some(67.0), "TW1");
    assert_eq!(bench.flag("not-read", 1), None);
}
