//! Each rule: what raises it, what does not, what clears it, and what cannot.

mod adds_up;
mod damage;
mod fits;
mod fitted;
mod force;
mod grades;
mod hold;
mod left_out;
mod lengths;
mod loads;
mod made;
mod ordered;
mod other_side;
mod over_torqued;
mod plate_and_bake;
mod proposals;
mod published;
mod replacements;
mod ruined;
mod small_parts;
mod specified;
mod stacks;

use crate::bench::{Bench, back, decision, inches, new_bolt, read as wrench, sound, torque};
use clampbook_book::fact::{Decided, Fact, FastenerSpec, LengthSeen, Refitted, Removed};
use clampbook_book::rules;
use clampbook_book::words::Criticality::{A, B};
use clampbook_book::words::DecisionKind::{Replace, Reuse};
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::{Criticality, HoleCheck, Outcome, Tightness};

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
    let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
    let raised: Vec<&str> = flags.iter().map(|f| f.rule).collect();
    assert_eq!(raised, ["not-refitted"]);
}

#[test]
fn loose_on_arrival_is_a_finding_that_wants_the_hole_measured() {
    let mut bench = out(B, |r| r.outcome = Outcome::LooseOnArrival);
    assert_eq!(bench.flag("loose-on-arrival", 1), Some(Caution));
    bench.decide(with_hole(decision(1, Reuse), HoleCheck::RunsInByHand));
    assert_eq!(
        bench.flag("loose-on-arrival", 1),
        Some(Caution),
        "run in by hand is not measured"
    );
    bench.decide(with_hole(decision(1, Reuse), HoleCheck::Measured));
    assert_eq!(bench.flag("loose-on-arrival", 1), None);

    let mut bench = out(A, |r| r.outcome = Outcome::LooseOnArrival);
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

    let mut bench = out(B, |r| r.outcome = Outcome::MissingBefore);
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
    let all = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
    for number in 1..=4 {
        let mine: Vec<_> = all
            .iter()
            .filter(|flag| flag.position == number || flag.position == 0)
            .cloned()
            .collect();
        assert_eq!(
            rules::position_flags(bench.joint(), number, &bench.context(), bench.unit()),
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
            torque: wrench(nm),
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
        torque: wrench(67.5),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag("reading-off", 1), None);
}
