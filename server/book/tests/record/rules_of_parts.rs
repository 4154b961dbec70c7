//! Rules about which part goes in: bolts made to break, and hard plated ones.

use crate::bench::{Bench, decision, new_bolt, sound};
use crate::built::{joint, nutted, rebuild};
use clampbook_book::fact::{Decided, Fact, FastenerSpec, GripStack, Removed};
use clampbook_book::words::{Criticality, DecisionKind, Severity};

use DecisionKind::{CleanAndReuse, Replace};
use Severity::{Caution, Stop};

const FUSE: &str = "shear-bolt-other-part";
const HEAD: &str = "head-without-room";
const PLATED: &str = "plated-hard-unbaked";

fn fuse_taken_out(change: impl FnOnce(&mut Removed)) -> Bench {
    let mut bench = Bench::with(|joint| {
        joint.purpose = "shear-bolt".into();
        joint.target = None;
    });
    let mut removed = sound(1);
    removed.grade = "SAE J429 2".into();
    removed.thread = "7/16-20".into();
    change(&mut removed);
    bench.take_out(removed);
    bench
}

fn replaced_by(thread: &str, grade: &str) -> Decided {
    Decided {
        replacement: Some(FastenerSpec {
            thread: thread.into(),
            grade: grade.into(),
            ..new_bolt()
        }),
        ..decision(1, Replace)
    }
}

#[test]
fn a_shear_bolt_is_replaced_by_the_same_part_only() {
    for (thread, grade, flag) in [
        ("7/16-20 UNF", "SAE J429 8", Some(Stop)),
        ("7/16-20 UNF", "SAE J429 1", Some(Stop)),
        ("7/16-14", "SAE J429 2", Some(Stop)),
        ("7/16-20 UNF", "strong one", Some(Stop)),
        ("7/16-20 UNF", "J429 2", None),
    ] {
        let mut bench = fuse_taken_out(|_| {});
        bench.decide(replaced_by(thread, grade));
        assert_eq!(bench.flag(FUSE, 1), flag, "{thread} {grade}");
    }
}

#[test]
fn a_shear_bolt_of_unknown_make_wants_its_part_shown() {
    let mut bench = fuse_taken_out(|removed| removed.grade.clear());
    bench.decide(replaced_by("7/16-20", "SAE J429 2"));
    assert_eq!(bench.flag(FUSE, 1), Some(Stop));
    // Words without a citation show nothing.
    let shown = |citation: &str| Decided {
        grade_shown: "SAE J429 2".into(),
        citation: citation.into(),
        ..replaced_by("7/16-20", "SAE J429 2")
    };
    bench.decide(shown(""));
    assert_eq!(bench.flag(FUSE, 1), Some(Stop));
    bench.decide(shown("parts list, page 12"));
    assert_eq!(bench.flag(FUSE, 1), None);
}

#[test]
fn a_shear_bolt_that_goes_back_and_a_bolt_that_clamps_are_no_matter_of_this_rule() {
    let mut bench = fuse_taken_out(|_| {});
    assert_eq!(bench.flag(FUSE, 1), None);
    bench.decide(decision(1, CleanAndReuse));
    assert_eq!(bench.flag(FUSE, 1), None);
    let mut clamping = Bench::with(|_| {});
    clamping.take_out(sound(1));
    clamping.decide(replaced_by("7/16-20 UNF", "SAE J429 8"));
    assert_eq!(clamping.flag(FUSE, 1), None);
}

fn hard_and(finish: &str, baked: bool) -> Bench {
    Bench::with(|joint| {
        let target = joint.target.as_mut().expect("a target");
        target.thread = "M10".into();
        target.grade = "12.9".into();
        target.lubrication = finish.into();
        target.baked = baked;
    })
}

#[test]
fn hard_plated_bolts_stop_the_joint_until_they_are_said_to_be_baked() {
    let mut bench = hard_and("zinc plated", false);
    assert_eq!(bench.flag(PLATED, 0), Some(Stop));
    bench.take_out(Removed {
        grade: "12.9".into(),
        thread: "M10".into(),
        ..sound(1)
    });
    bench.decide(replaced_by("M10", "12.9"));
    assert_eq!(
        bench.flag(PLATED, 0),
        Some(Stop),
        "no new bolt bakes itself"
    );
    let mut described = (*bench.joint().fact).clone();
    described.target.as_mut().expect("a target").baked = true;
    let entry = bench.joint().entry;
    bench
        .correct(entry, Some(Fact::JointAdded(described)))
        .expect("it is accepted");
    assert_eq!(bench.flag(PLATED, 0), None);
}

#[test]
fn other_finishes_and_softer_grades_need_no_baking() {
    assert_eq!(hard_and("oiled", false).flag(PLATED, 0), None);
    assert_eq!(hard_and("zinc flake", false).flag(PLATED, 0), None);
    assert_eq!(
        hard_and("cadmium plated", false).flag(PLATED, 0),
        Some(Stop)
    );
    let softer = Bench::with(|joint| {
        let target = joint.target.as_mut().expect("a target");
        target.lubrication = "zinc plated".into();
    });
    assert_eq!(softer.flag(PLATED, 0), None);
}

/// A joint said before this release has no word about baking; it reads and is stored as before.
#[test]
fn nothing_is_stored_where_nothing_was_said() {
    let stored = |baked| {
        let bench = hard_and("oiled", baked);
        let fact = Fact::JointAdded((*bench.joint().fact).clone());
        serde_json::to_string(&fact).expect("it is stored")
    };
    assert!(!stored(false).contains("baked"), "{}", stored(false));
    assert!(stored(true).contains("\"baked\":true"));
    let read: Fact = serde_json::from_str(&stored(false)).expect("it reads");
    assert!(matches!(read, Fact::JointAdded(j) if j.target.as_ref().is_some_and(|t| !t.baked)));
}

/// ISO 4014: the head of M10 is 6.4 mm high and 18.48 mm across sharp corners.
#[test]
fn a_head_that_touches_stops_its_joint_until_it_has_room() {
    use clampbook_book::fact::JointBuild;
    let with_room = |class, height, width| {
        let build = JointBuild {
            stack: GripStack {
                head_room_mm: height,
                head_space_mm: width,
                ..nutted(35.0).stack
            },
            ..nutted(35.0)
        };
        joint(class, build)
    };
    for (class, severity) in [
        (Criticality::A, Stop),
        (Criticality::B, Stop),
        (Criticality::C, Caution),
    ] {
        assert_eq!(
            with_room(class, Some(6.0), None).flag(HEAD, 0),
            Some(severity)
        );
        assert_eq!(
            with_room(class, None, Some(18.0)).flag(HEAD, 0),
            Some(severity)
        );
        assert_eq!(with_room(class, Some(6.4), Some(18.5)).flag(HEAD, 0), None);
        assert_eq!(with_room(class, None, None).flag(HEAD, 0), None);
    }
    let mut bench = with_room(Criticality::B, Some(6.0), None);
    bench.take_out(sound(1)).decide(decision(1, CleanAndReuse));
    assert_eq!(bench.flag(HEAD, 0), Some(Stop), "no decision makes room");
    rebuild(&mut bench, |build| build.stack.head_room_mm = Some(20.0));
    assert_eq!(bench.flag(HEAD, 0), None);
}
