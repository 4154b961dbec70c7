//! A new part against its joint: made for something else, of another grade, of a metal that does not go with it, plated and hard,
//! with a head or a body of its own.

use crate::bench::{Bench, back, decision, new_bolt, sound};
use crate::built::{joint, layer, nutted, out};
use clampbook_book::fact::{
    Decided, FastenerDetail, FastenerSpec, GripStack, JointBuild, Refitted, Removed, SaidLength,
};
use clampbook_book::rules;
use clampbook_book::words::{Criticality, DecisionKind, Severity, Tightness};

use Criticality::{A, B, C};
use DecisionKind::{Replace, Reuse};
use Severity::{Caution, Note, Stop};

const PURPOSE: &str = "made-for-another-purpose";
const MIXED: &str = "mixed-grades";
const PAIR: &str = "finish-pair";
const PLATED: &str = "plated-hard-unbaked";

pub(super) fn detailed(
    part: FastenerSpec,
    change: impl FnOnce(&mut FastenerDetail),
) -> FastenerSpec {
    let mut detail = FastenerDetail::default();
    change(&mut detail);
    FastenerSpec {
        detail: Some(Box::new(detail)),
        ..part
    }
}

pub(super) fn by(position: u16, part: FastenerSpec) -> Decided {
    Decided {
        replacement: Some(part),
        ..decision(position, Replace)
    }
}

pub(super) fn m10(length_mm: f64, grade: &str) -> FastenerSpec {
    FastenerSpec {
        thread: "M10".into(),
        length: SaidLength {
            said: format!("{length_mm} mm"),
            mm: length_mm,
        },
        grade: grade.into(),
        detail: None,
    }
}

pub(super) fn of_grade(grade: &str) -> FastenerSpec {
    FastenerSpec {
        grade: grade.into(),
        ..new_bolt()
    }
}

pub(super) fn one_out(criticality: Criticality) -> Bench {
    let mut bench = Bench::new(criticality);
    bench.take_out(sound(1));
    bench
}

// Made for another purpose.

#[test]
fn a_part_made_for_another_purpose_stops_in_every_class() {
    for class in [A, B, C] {
        for purpose in ["shear-bolt", "yield-bolt", "banjo-fitting"] {
            let mut bench = one_out(class);
            bench.decide(by(1, detailed(new_bolt(), |d| d.purpose = purpose.into())));
            assert_eq!(bench.flag(PURPOSE, 1), Some(Stop), "{purpose}");
        }
    }
}

#[test]
fn a_part_for_the_joints_own_purpose_or_for_any_is_none() {
    for purpose in ["clamping", ""] {
        let mut bench = one_out(A);
        bench.decide(by(1, detailed(new_bolt(), |d| d.purpose = purpose.into())));
        assert_eq!(bench.flag(PURPOSE, 1), None, "{purpose}");
    }
}

#[test]
fn another_part_clears_it_and_a_citation_does_not() {
    let mut bench = one_out(B);
    let wrong = by(1, detailed(new_bolt(), |d| d.purpose = "shear-bolt".into()));
    bench.decide(Decided {
        citation: "parts book, plate 14".into(),
        ..wrong
    });
    bench.refit(back(1, Tightness::Final));
    bench.decide(by(
        1,
        detailed(new_bolt(), |d| d.purpose = "yield-bolt".into()),
    ));
    let fitted = detailed(new_bolt(), |d| d.purpose = "yield-bolt".into());
    bench.refit(Refitted {
        new_part: Some(fitted),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag(PURPOSE, 1), Some(Stop), "it is even in");
    bench.refit(Refitted {
        new_part: Some(new_bolt()),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag(PURPOSE, 1), None);
}

// Another grade than its neighbours.

fn four_of_grade_5(class: Criticality) -> Bench {
    let mut bench = Bench::new(class);
    for position in 1..=4 {
        bench.take_out(Removed {
            grade: "SAE J429 5".into(),
            ..sound(position)
        });
    }
    bench
}

#[test]
fn a_stronger_bolt_among_its_neighbours_is_a_caution_in_a_and_b_and_a_note_in_c() {
    for (class, severity) in [(A, Caution), (B, Caution), (C, Note)] {
        let mut bench = four_of_grade_5(class);
        bench.decide(by(3, of_grade("SAE J429 8")));
        assert_eq!(bench.flag(MIXED, 3), Some(severity));
        let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
        let flag = flags.iter().find(|f| f.rule == MIXED).expect("raised");
        assert_eq!(
            flag.cause,
            "SAE J429 8 goes in beside SAE J429 5 at hole 1, 2, 4"
        );
    }
}

#[test]
fn the_grade_of_its_neighbours_or_neighbours_of_unknown_grade_raise_nothing() {
    let mut bench = four_of_grade_5(A);
    bench.decide(by(3, of_grade("grade 5")));
    assert_eq!(bench.flag(MIXED, 3), None);
    let mut unknown = Bench::new(A);
    for position in 1..=4 {
        unknown.take_out(Removed {
            grade: String::new(),
            ..sound(position)
        });
    }
    unknown.decide(by(3, of_grade("SAE J429 8")));
    assert_eq!(unknown.flag(MIXED, 3), None);
}

#[test]
fn one_grade_for_all_clears_it() {
    let mut bench = four_of_grade_5(B);
    for position in 1..=4 {
        assert_eq!(bench.flag(MIXED, position), None);
        bench.decide(by(position, of_grade("SAE J429 8")));
    }
    for position in 1..=4 {
        assert_eq!(bench.flag(MIXED, position), None, "all are of grade 8");
    }
}

#[test]
fn a_refit_or_a_citation_does_not_make_them_alike() {
    let mut bench = four_of_grade_5(B);
    bench.decide(Decided {
        citation: "invoice 7".into(),
        ..by(3, of_grade("SAE J429 8"))
    });
    bench.refit(Refitted {
        new_part: Some(of_grade("SAE J429 8")),
        ..back(3, Tightness::Final)
    });
    assert_eq!(bench.flag(MIXED, 3), Some(Caution));
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag(MIXED, 3), Some(Caution));
}

// Metals. Groups of Niu, Airframe Structural Design (1988): I magnesium; II aluminium, zinc, cadmium; III steel, cast iron, tin;
// IV stainless of the 300 series, nickel, titanium, chromium, copper alloys.

fn on_metal(class: Criticality, metal: &str, finish: &str) -> Bench {
    let build = JointBuild {
        stack: GripStack {
            layers: vec![layer(metal, 20.0)],
            bolt_length_mm: Some(35.0),
            ..GripStack::default()
        },
        ..JointBuild::default()
    };
    let mut bench = joint(class, build);
    bench.take_out(out(1, 35.0));
    bench.decide(by(
        1,
        detailed(m10(35.0, "8.8"), |d| d.finish = finish.into()),
    ));
    bench
}

#[test]
fn metals_two_groups_apart_are_a_caution_and_a_note_in_class_c() {
    for (metal, finish) in [
        ("cast aluminium", "stainless"),
        ("wrought aluminium", "nickel plated"),
        ("brass", "zinc plated"),
        ("magnesium", "black"),
    ] {
        for (class, severity) in [(A, Caution), (B, Caution), (C, Note)] {
            let bench = on_metal(class, metal, finish);
            assert_eq!(bench.flag(PAIR, 1), Some(severity), "{finish} on {metal}");
        }
    }
    let bench = on_metal(B, "cast aluminium", "A2 stainless");
    let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
    let flag = flags.iter().find(|f| f.rule == PAIR).expect("raised");
    assert_eq!(
        flag.cause,
        "stainless steel (group 4) on cast aluminium (group 2): in the wet the cast aluminium corrodes"
    );
}

#[test]
fn neighbouring_groups_and_what_nobody_said_raise_nothing() {
    for (metal, finish) in [
        ("cast aluminium", "zinc plated"),
        ("cast aluminium", "black oxide"),
        ("mild steel", "stainless"),
        ("grey cast iron", "zinc flake"),
        ("brass", "black"),
        ("brass", ""),
        ("brass", "painted"),
    ] {
        let bench = on_metal(A, metal, finish);
        assert_eq!(bench.flag(PAIR, 1), None, "{finish} on {metal}");
    }
    let mut unbuilt = one_out(A);
    unbuilt.decide(by(
        1,
        detailed(new_bolt(), |d| d.finish = "stainless".into()),
    ));
    assert_eq!(unbuilt.flag(PAIR, 1), None);
}

#[test]
fn stainless_into_a_joint_that_is_tightened_dry_galls() {
    for (lubrication, flag) in [("dry", Some(Caution)), ("oiled", None), ("greased", None)] {
        let mut bench = Bench::with(|joint| {
            joint.target.as_mut().expect("a target").lubrication = lubrication.into();
        });
        bench.take_out(sound(1));
        bench.decide(by(
            1,
            detailed(new_bolt(), |d| d.finish = "stainless".into()),
        ));
        assert_eq!(bench.flag(PAIR, 1), flag, "{lubrication}");
    }
}

#[test]
fn another_finish_clears_it_and_no_hole_check_does() {
    let mut bench = on_metal(B, "cast aluminium", "stainless");
    bench.decide(Decided {
        hole_check: Some(clampbook_book::words::HoleCheck::Measured),
        citation: "invoice 7".into(),
        ..by(
            1,
            detailed(m10(35.0, "8.8"), |d| d.finish = "stainless".into()),
        )
    });
    assert_eq!(bench.flag(PAIR, 1), Some(Caution));
    bench.decide(by(
        1,
        detailed(m10(35.0, "8.8"), |d| d.finish = "zinc flake".into()),
    ));
    assert_eq!(bench.flag(PAIR, 1), None);
}

// Hard and electroplated by its own finish, in a joint that is not.

fn hard(finish: &str, baked: bool) -> FastenerSpec {
    detailed(m10(35.0, "12.9"), |d| {
        d.finish = finish.into();
        d.baked = baked;
    })
}

#[test]
fn a_hard_plated_part_stops_its_hole_until_it_was_baked_or_is_of_another_finish() {
    let mut bench = joint(C, nutted(35.0));
    bench.take_out(out(1, 35.0));
    for finish in ["zinc plated", "bright zinc, passivated", "cadmium"] {
        bench.decide(by(1, hard(finish, false)));
        assert_eq!(bench.flag(PLATED, 1), Some(Stop), "{finish}");
    }
    assert_eq!(bench.flag(PLATED, 0), None, "the joint asks for none");
    bench.decide(Decided {
        citation: "invoice 7".into(),
        ..by(1, hard("zinc plated", false))
    });
    assert_eq!(
        bench.flag(PLATED, 1),
        Some(Stop),
        "an invoice bakes nothing"
    );
    for part in [
        hard("zinc plated", true),
        hard("zinc flake", false),
        hard("mechanical zinc", false),
        hard("black oxide", false),
        detailed(m10(35.0, "8.8"), |d| d.finish = "zinc plated".into()),
    ] {
        bench.decide(by(1, part.clone()));
        assert_eq!(bench.flag(PLATED, 1), None, "{part:?}");
    }
}

// Sizes of its own. ISO 4014: M10x70 has 26 mm of thread, so 44 mm to the thread and, less five pitches of 1.5 mm, 36.5 mm of body.

#[test]
fn a_part_threaded_to_its_head_puts_thread_in_the_shear_plane() {
    let build = JointBuild {
        stack: GripStack {
            layers: vec![layer("mild steel", 55.0)],
            bolt_length_mm: Some(70.0),
            ..GripStack::default()
        },
        shear_plane_mm: Some(30.0),
        ..JointBuild::default()
    };
    let mut bench = joint(B, build);
    bench.take_out(out(1, 70.0));
    bench.decide(by(1, m10(70.0, "8.8")));
    assert_eq!(bench.flag("thread-in-shear-plane", 1), None);
    bench.decide(by(
        1,
        detailed(m10(70.0, "8.8"), |d| d.thread_length_mm = Some(65.0)),
    ));
    assert_eq!(bench.flag("thread-in-shear-plane", 1), Some(Caution));
}

#[test]
fn a_part_with_a_head_of_its_own_needs_room_for_it() {
    let build = JointBuild {
        stack: GripStack {
            head_room_mm: Some(8.0),
            ..nutted(35.0).stack
        },
        ..nutted(35.0)
    };
    let mut bench = joint(B, build);
    bench.take_out(out(1, 35.0));
    bench.decide(by(1, m10(35.0, "8.8")));
    assert_eq!(bench.flag("head-without-room", 1), None);
    // The head of a socket screw M10 is 10 mm high (ISO 4762, from memory).
    bench.decide(by(
        1,
        detailed(m10(35.0, "8.8"), |d| d.head_height_mm = Some(10.0)),
    ));
    assert_eq!(bench.flag("head-without-room", 1), Some(Stop));
}
