//! The rules on how a joint is built: what raises each, what does not, what clears it, and what cannot.
//!
//! M10 of ISO 898-1 8.8 at 0.75 of proof: 0.75 · 580 MPa · 57.99 mm² = 25.2 kN, up to 31.5 kN with the scatter. Its thread in
//! cast aluminium of 110 MPa shears by FED-STD-H28/2B with the limits of ISO 965-2 (6g major minimum 9.732, 6H pitch most 9.206 mm)
//! on π/1.5 · 9.732 (0.75 + 0.57735 · 0.526) = 21.48 mm² for each mm, so bears 2.363 kN a mm.

use crate::bench::{Bench, decision, sound};
use clampbook_book::fact::{
    Decided, Fact, FastenerSpec, GripLayer, GripStack, JointBuild, LengthSeen, Removed, SaidLength,
    TappedHole, Target,
};
use clampbook_book::rules;
use clampbook_book::words::{Criticality, DecisionKind, HoleCheck, HoleKind, Severity};

use Criticality::{A, B, C};
use DecisionKind::{CleanAndReuse, Replace, Reuse};
use Severity::{Caution, Note, Stop};

pub(crate) fn layer(metal: &str, thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: metal.into(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

/// 12 mm of steel on a blind hole in cast aluminium.
pub(crate) fn tapped(bolt_length_mm: Option<f64>, full_thread_mm: f64) -> JointBuild {
    JointBuild {
        stack: GripStack {
            layers: vec![layer("mild steel", 12.0)],
            tapped: Some(TappedHole {
                metal: "cast aluminium".into(),
                shear_mpa: None,
                full_thread_mm,
                blind: true,
                insert: false,
            }),
            bolt_length_mm,
            ..GripStack::default()
        },
        ..JointBuild::default()
    }
}

/// 20 mm of steel and a nut.
pub(crate) fn nutted(bolt_length_mm: f64) -> JointBuild {
    JointBuild {
        stack: GripStack {
            layers: vec![layer("mild steel", 10.0), layer("mild steel", 10.0)],
            bolt_length_mm: Some(bolt_length_mm),
            ..GripStack::default()
        },
        ..JointBuild::default()
    }
}

pub(crate) fn joint(class: Criticality, build: JointBuild) -> Bench {
    Bench::with(|joint| {
        joint.criticality = class;
        joint.hole_kind = if build.stack.tapped.is_some() {
            HoleKind::TappedBlind
        } else {
            HoleKind::Through
        };
        joint.target = Some(Target {
            thread: "M10".into(),
            grade: "8.8".into(),
            lubrication: "oiled".into(),
            proof_share: None,
            clamp_load_n: None,
            nut_factor: None,
            nut_grade: None,
            baked: false,
        });
        joint.build = Some(Box::new(build));
    })
}

pub(crate) fn rebuild(bench: &mut Bench, change: impl FnOnce(&mut JointBuild)) {
    let mut fact = (*bench.joint().fact).clone();
    change(fact.build.as_mut().expect("a build"));
    let entry = bench.joint().entry;
    bench
        .correct(entry, Some(Fact::JointAdded(fact)))
        .expect("the joint as it is now");
}

fn mm(mm: f64) -> SaidLength {
    SaidLength {
        said: format!("{mm} mm"),
        mm,
    }
}

pub(crate) fn out(position: u16, length_mm: f64) -> Removed {
    Removed {
        length: Some(LengthSeen::Measured(mm(length_mm))),
        grade: "8.8".into(),
        ..sound(position)
    }
}

fn replaced(position: u16, length_mm: f64) -> Decided {
    Decided {
        replacement: Some(FastenerSpec {
            thread: "M10".into(),
            length: mm(length_mm),
            grade: "8.8".into(),
            detail: None,
        }),
        ..decision(position, Replace)
    }
}

fn cited(decided: Decided) -> Decided {
    Decided {
        citation: "parts book, plate 14: under the hose bracket".into(),
        ..decided
    }
}

fn cause(bench: &Bench, rule: &str, position: u16) -> String {
    rules::joint_flags(bench.joint(), &bench.context(), bench.unit())
        .into_iter()
        .find(|flag| flag.rule == rule && flag.position == position)
        .unwrap_or_else(|| panic!("{rule} is raised at {position}"))
        .cause
}

fn raised(bench: &Bench) -> Vec<(&'static str, u16)> {
    rules::joint_flags(bench.joint(), &bench.context(), bench.unit())
        .into_iter()
        .map(|flag| (flag.rule, flag.position))
        .collect()
}

#[test]
fn a_joint_that_holds_raises_nothing_and_one_that_nobody_described_neither() {
    // 2 d engaged, 24 mm of thread: 20 mm reach against 22.5.
    assert_eq!(raised(&joint(A, tapped(Some(32.0), 24.0))), []);
    // 30 mm: 20 clamped, nut 8.4 (ISO 4032), 1.6 out, pitch 1.5.
    assert_eq!(raised(&joint(A, nutted(30.0))), []);
    assert_eq!(raised(&Bench::new(A)), []);
}

#[test]
fn threads_that_strip_stop_the_joint_in_a_and_b_and_caution_c() {
    // 9.5 mm bear 22.4 kN.
    for (class, severity) in [(A, Stop), (B, Stop), (C, Caution)] {
        let bench = joint(class, tapped(Some(21.5), 14.0));
        assert_eq!(bench.flag("thread-strips", 0), Some(severity));
    }
    let bench = joint(B, tapped(Some(21.5), 14.0));
    assert_eq!(
        cause(&bench, "thread-strips", 0),
        "the tapped thread (cast aluminium) carries 22.4 kN with 9.5 mm engaged; the target is 25.2 kN"
    );
    // 12 mm bear 28.4 kN: enough for what is aimed at, not for the scatter.
    for (class, severity) in [(A, Caution), (B, Caution), (C, Note)] {
        let bench = joint(class, tapped(Some(24.0), 14.0));
        assert_eq!(bench.flag("thread-strips", 0), Some(severity));
    }
    assert_eq!(
        joint(A, tapped(Some(32.0), 24.0)).flag("thread-strips", 0),
        None
    );
}

#[test]
fn a_stripping_joint_is_cleared_by_an_insert_or_more_thread_and_not_by_decisions() {
    let mut bench = joint(B, tapped(Some(21.5), 14.0));
    bench.take_out(out(1, 21.5));
    bench.decide(Decided {
        hole_check: Some(HoleCheck::RunsInByHand),
        ..cited(decision(1, Reuse))
    });
    assert_eq!(
        bench.flag("thread-strips", 0),
        Some(Stop),
        "a citation bears nothing"
    );
    rebuild(&mut bench, |build| {
        build.stack.parent_state = "as new".into()
    });
    assert_eq!(bench.flag("thread-strips", 0), Some(Stop), "nor do words");
    // An M10x1.5 insert sits in a hole of 11.949 mm (ASME B18.29.1, from memory): 22.4 kN · 1.195 = 26.8 kN.
    rebuild(&mut bench, |build| {
        build.stack.tapped.as_mut().expect("tapped").insert = true
    });
    assert_eq!(bench.flag("thread-strips", 0), Some(Caution));
    rebuild(&mut bench, |build| {
        let tapped = build.stack.tapped.as_mut().expect("tapped");
        tapped.insert = false;
        tapped.full_thread_mm = 24.0;
        build.stack.bolt_length_mm = Some(32.0);
    });
    assert_eq!(bench.flag("thread-strips", 0), None);
}

#[test]
fn the_weaker_partner_never_makes_the_torque_smaller() {
    let mut bench = joint(A, tapped(Some(21.5), 14.0));
    let nm = |bench: &Bench| {
        clampbook_book::target::answer(&bench.joint().fact, bench.shop.catalogue())
            .expect("a torque")
            .torque
            .get()
    };
    let before = nm(&bench);
    rebuild(&mut bench, |build| build.stack.bolt_length_mm = Some(15.0));
    assert_eq!(
        nm(&bench).to_bits(),
        before.to_bits(),
        "never a quietly smaller number"
    );
}

#[test]
fn a_fastener_of_its_own_length_is_judged_at_its_hole() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench
        .take_out(out(1, 32.0))
        .take_out(out(2, 18.0))
        .take_out(out(3, 40.0));
    assert_eq!(bench.flag("thread-strips", 1), None);
    // 6 mm bear 14.2 kN.
    assert_eq!(bench.flag("thread-strips", 2), Some(Stop));
    assert_eq!(bench.flag("engagement-short", 2), Some(Caution));
    assert_eq!(bench.flag("bottoms", 2), None);
    assert_eq!(bench.flag("thread-strips", 3), None);
    assert_eq!(bench.flag("bottoms", 3), Some(Stop));
    assert_eq!(
        bench.flag("thread-strips", 0),
        None,
        "the joint itself holds"
    );
}

#[test]
fn what_holds_for_the_whole_joint_is_not_said_again_at_every_hole() {
    let mut bench = joint(A, tapped(Some(21.5), 14.0));
    bench.take_out(out(1, 21.5)).take_out(out(2, 21.5));
    assert_eq!(bench.flag("thread-strips", 0), Some(Stop));
    assert_eq!(bench.flag("thread-strips", 1), None);
    assert_eq!(bench.flag("thread-strips", 2), None);
}

#[test]
fn a_bolt_measured_with_a_rule_is_the_one_specified() {
    // 0.5 mm either way is what a rule at the bench may be off: 29.6 mm would stand out by less than a pitch.
    let mut bench = joint(A, nutted(30.0));
    bench.take_out(out(1, 29.6)).take_out(out(2, 29.4));
    assert_eq!(bench.flag("too-short", 1), None);
    assert_eq!(bench.flag("too-short", 2), Some(Caution));
}

#[test]
fn little_engagement_is_a_caution_that_shows_both_rules() {
    // By rule of thumb two diameters in aluminium: 20 mm.
    let bench = joint(A, tapped(Some(30.0), 24.0));
    assert_eq!(bench.flag("engagement-short", 0), Some(Caution));
    let cause = cause(&bench, "engagement-short", 0);
    assert!(cause.starts_with("18 mm is engaged"), "{cause}");
    assert!(
        cause.contains("is needed for the bolt to break before a thread strips"),
        "{cause}"
    );
    assert!(cause.ends_with("20 mm by rule of thumb"), "{cause}");
    assert_eq!(
        joint(C, tapped(Some(30.0), 24.0)).flag("engagement-short", 0),
        Some(Note)
    );
    assert_eq!(
        joint(A, tapped(Some(32.0), 24.0)).flag("engagement-short", 0),
        None
    );
}

#[test]
fn little_engagement_at_a_hole_is_cleared_by_what_the_maker_had_and_not_by_reuse() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 30.0));
    assert_eq!(bench.flag("engagement-short", 1), Some(Caution));
    bench.decide(decision(1, CleanAndReuse));
    assert_eq!(bench.flag("engagement-short", 1), Some(Caution));
    bench.decide(cited(decision(1, CleanAndReuse)));
    assert_eq!(bench.flag("engagement-short", 1), None);
    bench.decide(replaced(1, 32.0));
    assert_eq!(bench.flag("engagement-short", 1), None);
}

#[test]
fn bottoming_begins_one_pitch_before_the_end_and_stops_every_class() {
    // 24 mm of thread less 1.5: 22.5 mm reach at most.
    for class in [A, B, C] {
        assert_eq!(
            joint(class, tapped(Some(34.4), 24.0)).flag("bottoms", 0),
            None
        );
        assert_eq!(
            joint(class, tapped(Some(34.6), 24.0)).flag("bottoms", 0),
            Some(Stop)
        );
    }
    let mut open = tapped(Some(40.0), 24.0);
    open.stack.tapped.as_mut().expect("tapped").blind = false;
    let bench = Bench::with(|joint| {
        joint.target.as_mut().expect("a target").thread = "M10".into();
        joint.target.as_mut().expect("a target").grade = "8.8".into();
        joint.build = Some(Box::new(open));
    });
    assert_eq!(bench.flag("bottoms", 0), None, "an open hole has no bottom");
}

#[test]
fn a_bottoming_bolt_is_cleared_by_a_shorter_one_or_a_citation_and_not_by_the_hole_or_words() {
    let mut bench = joint(B, tapped(Some(32.0), 24.0));
    bench.take_out(out(3, 40.0));
    bench.decide(Decided {
        hole_check: Some(HoleCheck::RunsInByHand),
        ..decision(3, Reuse)
    });
    assert_eq!(
        bench.flag("bottoms", 3),
        Some(Stop),
        "a clean hole is no deeper"
    );
    bench.decide(replaced(3, 45.0));
    assert_eq!(
        bench.flag("bottoms", 3),
        Some(Stop),
        "a longer one bottoms too"
    );
    bench.decide(replaced(3, 32.0));
    assert_eq!(bench.flag("bottoms", 3), None);
    bench.decide(cited(decision(3, Reuse)));
    assert_eq!(bench.flag("bottoms", 3), None);
}

#[test]
fn a_joint_specified_to_bottom_is_not_cleared_by_a_citation_at_a_hole() {
    let mut bench = joint(B, tapped(Some(40.0), 24.0));
    bench.take_out(out(1, 40.0));
    bench.decide(cited(decision(1, Reuse)));
    assert_eq!(bench.flag("bottoms", 0), Some(Stop));
    rebuild(&mut bench, |build| {
        build.stack.layers.push(layer("mild steel", 6.0))
    });
    assert_eq!(bench.flag("bottoms", 0), None);
}

#[test]
fn a_bolt_that_does_not_come_through_is_a_stop_and_one_that_barely_does_a_caution() {
    // Nut 8.4 mm (ISO 4032), pitch 1.5: from 29.9 mm all is well.
    for (length, severity) in [
        (19.0, Some(Stop)),
        (28.0, Some(Stop)),
        (29.8, Some(Caution)),
        (30.0, None),
    ] {
        let bench = joint(A, nutted(length));
        assert_eq!(bench.flag("too-short", 0), severity, "{length}");
    }
    assert_eq!(joint(C, nutted(29.8)).flag("too-short", 0), Some(Note));
    assert_eq!(joint(C, nutted(28.0)).flag("too-short", 0), Some(Stop));
}

#[test]
fn a_short_bolt_is_cleared_by_a_longer_one_and_not_by_reuse() {
    let mut bench = joint(A, nutted(30.0));
    bench.take_out(out(2, 25.0));
    assert_eq!(bench.flag("too-short", 2), Some(Stop));
    bench.decide(decision(2, Reuse));
    assert_eq!(bench.flag("too-short", 2), Some(Stop));
    bench.decide(replaced(2, 25.0));
    assert_eq!(bench.flag("too-short", 2), Some(Stop));
    bench.decide(replaced(2, 30.0));
    assert_eq!(bench.flag("too-short", 2), None);
}

#[test]
fn a_thread_that_runs_out_stops_where_it_was_measured_and_cautions_where_it_is_the_standards() {
    // ISO 4014: an M10x60 has 26 mm of thread, so 34 mm without; 20 are clamped.
    assert_eq!(
        joint(B, nutted(60.0)).flag("thread-runs-out", 0),
        Some(Caution)
    );
    let measured = |thread_length_mm| JointBuild {
        stack: GripStack {
            thread_length_mm: Some(thread_length_mm),
            ..nutted(60.0).stack
        },
        ..nutted(60.0)
    };
    assert_eq!(
        joint(B, measured(26.0)).flag("thread-runs-out", 0),
        Some(Stop)
    );
    let mut bench = joint(B, measured(26.0));
    bench.take_out(out(1, 60.0));
    bench.decide(cited(decision(1, Reuse)));
    assert_eq!(
        bench.flag("thread-runs-out", 0),
        Some(Stop),
        "no word makes thread"
    );
    rebuild(&mut bench, |build| {
        build.stack.thread_length_mm = Some(45.0)
    });
    assert_eq!(bench.flag("thread-runs-out", 0), None);
    assert_eq!(joint(B, nutted(30.0)).flag("thread-runs-out", 0), None);
}

#[test]
fn thread_in_the_shear_plane_is_a_caution_until_the_body_is_long_enough() {
    let sheared = |length| JointBuild {
        shear_plane_mm: Some(10.0),
        ..nutted(length)
    };
    // ISO 4014: of 45 mm the last 26 are thread, and five pitches run out: 11.5 mm of body; of 40 mm 6.5.
    for class in [A, B, C] {
        let bench = joint(class, sheared(40.0));
        assert_eq!(bench.flag("thread-in-shear-plane", 0), Some(Caution));
        assert_eq!(
            joint(class, sheared(45.0)).flag("thread-in-shear-plane", 0),
            None
        );
    }
    let mut bench = joint(B, sheared(40.0));
    bench.take_out(out(1, 40.0));
    bench.decide(cited(decision(1, Reuse)));
    assert_eq!(bench.flag("thread-in-shear-plane", 0), Some(Caution));
    rebuild(&mut bench, |build| build.stack.bolt_length_mm = Some(45.0));
    assert_eq!(bench.flag("thread-in-shear-plane", 0), None);
}

#[test]
fn a_face_that_is_pressed_in_stops_a_cautions_b_and_is_noted_in_c() {
    // 25.2 kN on the ring between 14.63 (ISO 4014) and 11 mm: 345 MPa on aluminium that bears 220 (VDI 2230).
    let soft = || JointBuild {
        stack: GripStack {
            layers: vec![layer("cast aluminium", 20.0)],
            bolt_length_mm: Some(30.0),
            ..GripStack::default()
        },
        ..JointBuild::default()
    };
    for (class, severity) in [(A, Stop), (B, Caution), (C, Note)] {
        assert_eq!(
            joint(class, soft()).flag("bearing-pressure", 0),
            Some(severity)
        );
    }
    let mut bench = joint(A, soft());
    bench.take_out(out(1, 30.0));
    bench.decide(cited(decision(1, Reuse)));
    bench.decide(replaced(1, 35.0));
    assert_eq!(
        bench.flag("bearing-pressure", 0),
        Some(Stop),
        "no longer bolt helps"
    );
    let washer = || GripLayer {
        outer_diameter_mm: Some(20.0),
        ..layer("alloy steel", 2.0)
    };
    rebuild(&mut bench, |build| {
        build.stack.layers.insert(0, washer());
        build.stack.layers.push(washer());
    });
    assert_eq!(bench.flag("bearing-pressure", 0), None);
}

fn with_nut(class: Criticality, nut: &str) -> Bench {
    Bench::with(|joint| {
        joint.criticality = class;
        joint.hole_kind = HoleKind::Through;
        let target = joint.target.as_mut().expect("a target");
        target.grade = "SAE J429 8".into();
        target.nut_grade = Some(nut.into());
    })
}

#[test]
fn a_nut_that_does_not_carry_stops_a_and_b_and_cautions_c() {
    // SAE J995: grade 2 fine carries 80 ksi, the bolt is tightened to 0.75 of 120 ksi.
    for (class, severity) in [(A, Stop), (B, Stop), (C, Caution)] {
        assert_eq!(
            with_nut(class, "J995 2").flag("nut-does-not-carry", 0),
            Some(severity)
        );
        assert_eq!(
            with_nut(class, "J995 8").flag("nut-does-not-carry", 0),
            None
        );
    }
    assert_eq!(
        Bench::new(A).flag("nut-does-not-carry", 0),
        None,
        "no nut was named"
    );
}

#[test]
fn a_weak_nut_is_cleared_by_a_strong_one_and_not_by_a_decision_on_the_bolt() {
    let mut bench = with_nut(A, "J995 2");
    bench.take_out(sound(1));
    bench.decide(cited(decision(1, Replace)));
    assert_eq!(bench.flag("nut-does-not-carry", 0), Some(Stop));
    let mut fact = (*bench.joint().fact).clone();
    fact.target.as_mut().expect("a target").nut_grade = Some("J995 8".into());
    let entry = bench.joint().entry;
    bench
        .correct(entry, Some(Fact::JointAdded(fact)))
        .expect("another nut");
    assert_eq!(bench.flag("nut-does-not-carry", 0), None);
}

#[test]
fn a_bolt_of_another_thread_is_left_to_the_rule_on_threads() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench.take_out(Removed {
        thread: "M10x1.25".into(),
        ..out(1, 45.0)
    });
    assert_eq!(bench.flag("bottoms", 1), None);
    assert_eq!(bench.flag("other-thread", 1), Some(Caution));
}
