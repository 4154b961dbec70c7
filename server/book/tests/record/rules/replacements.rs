//! A new part against its joint: made for something else, of another grade, of a metal that does not go with it, plated and hard,
//! with a head or a body of its own. And what is said of a replacement before it is decided on.

use crate::bench::{Bench, back, decision, new_bolt, sound};
use crate::built::{joint, layer, nutted, out, tapped};
use clampbook_book::fact::{
    Decided, Fact, FastenerDetail, FastenerSpec, JointBuild, Refitted, Removed, SaidLength,
};
use clampbook_book::rules::{
    self,
    fits::{self, FitCheck, Subject},
};
use clampbook_book::words::{Criticality, Disposition, Severity, Tightness};

use Criticality::{A, B, C};
use Disposition::{Replace, Reuse};
use Severity::{Caution, Note, Stop};

const PURPOSE: &str = "made-for-another-purpose";
const MIXED: &str = "mixed-grades";
const PAIR: &str = "finish-pair";
const PLATED: &str = "plated-hard-unbaked";

fn detailed(part: FastenerSpec, change: impl FnOnce(&mut FastenerDetail)) -> FastenerSpec {
    let mut detail = FastenerDetail::default();
    change(&mut detail);
    FastenerSpec {
        detail: Some(Box::new(detail)),
        ..part
    }
}

fn by(position: u16, part: FastenerSpec) -> Decided {
    Decided {
        replacement: Some(part),
        ..decision(position, Replace)
    }
}

fn m10(length_mm: f64, grade: &str) -> FastenerSpec {
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

fn of_grade(grade: &str) -> FastenerSpec {
    FastenerSpec {
        grade: grade.into(),
        ..new_bolt()
    }
}

fn one_out(criticality: Criticality) -> Bench {
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
        let flags = rules::joint_flags(bench.joint(), &bench.shop);
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
        layers: vec![layer(metal, 20.0)],
        bolt_length_mm: Some(35.0),
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
    let flags = rules::joint_flags(bench.joint(), &bench.shop);
    let flag = flags.iter().find(|f| f.rule == PAIR).expect("raised");
    assert_eq!(
        flag.cause,
        "stainless steel (group 4) on cast aluminium (group 2): in the wet the cast aluminium is eaten"
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
    for (condition, flag) in [("dry", Some(Caution)), ("oiled", None), ("greased", None)] {
        let mut bench = Bench::with(|joint| {
            joint.target.as_mut().expect("a target").condition = condition.into();
        });
        bench.take_out(sound(1));
        bench.decide(by(
            1,
            detailed(new_bolt(), |d| d.finish = "stainless".into()),
        ));
        assert_eq!(bench.flag(PAIR, 1), flag, "{condition}");
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
        layers: vec![layer("mild steel", 55.0)],
        bolt_length_mm: Some(70.0),
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
        head_room_mm: Some(8.0),
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

// Threads.

#[test]
fn a_look_alike_is_told_with_what_happens_and_a_left_hand_with_its_hand() {
    let mut bench = Bench::with(|joint| {
        joint.target.as_mut().expect("a target").thread = "1/2-20 UNF".into();
    });
    bench.take_out(sound(1));
    let part = |thread: &str| FastenerSpec {
        thread: thread.into(),
        ..new_bolt()
    };
    let checks = check(&bench, &part("M12x1.25"));
    let thread = of(&checks, Subject::Thread);
    assert_eq!(thread.severity, Some(Stop));
    // (12 - 11.325) / (12.7 - 11.325) = 0.49, reckoned by hand with the internal minor diameter of ASME B1.1.
    assert!(
        thread.text.contains("49 % of the thread's depth bears"),
        "{thread:?}"
    );
    assert!(
        thread.text.contains("strips near full torque"),
        "{thread:?}"
    );
    let checks = check(&bench, &part("1/2-20 UNF-LH"));
    assert_eq!(of(&checks, Subject::Thread).severity, Some(Stop));
    bench.decide(by(1, part("1/2-20 UNF-LH")));
    assert_eq!(bench.flag("other-thread", 1), Some(Stop));
    bench.decide(by(1, part("1/2-20")));
    assert_eq!(bench.flag("other-thread", 1), None);
}

// What is said before it is decided.

fn check(bench: &Bench, part: &FastenerSpec) -> Vec<FitCheck> {
    fits::check(bench.joint(), 1, part, &bench.shop).expect("a position")
}

fn of(checks: &[FitCheck], subject: Subject) -> &FitCheck {
    let mut found = checks.iter().filter(|check| check.subject == subject);
    found
        .next()
        .unwrap_or_else(|| panic!("{subject:?} in {checks:?}"))
}

#[test]
fn a_part_that_fits_is_told_with_its_numbers() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 32.0)).take_out(out(2, 32.0));
    let part = detailed(m10(32.0, "8.8"), |d| d.finish = "zinc plated".into());
    let checks = check(&bench, &part);
    assert_eq!(fits::worst(&checks), None, "{checks:#?}");
    let text = |subject| of(&checks, subject).text.as_str();
    assert_eq!(text(Subject::Thread), "M10, as specified");
    // ISO 898-1: 580 MPa; ISO 724 and 898-1: 57.99 mm2 by the formula; 33.6 kN.
    assert_eq!(
        text(Subject::Grade),
        "ISO 898-1 8.8, as specified: 33.6 kN proof load on M10x1.5"
    );
    // 20 mm reach into the hole, which bottoms beyond 12 + 24 - 1.5 mm; 2 d by the trade in aluminium.
    assert!(
        text(Subject::Length).starts_with("32 mm long: engages 20.0 mm;"),
        "{}",
        text(Subject::Length)
    );
    assert!(text(Subject::Length).contains("by the trade 20.0 mm; bottoms beyond 34.5 mm"));
    assert_eq!(
        text(Subject::Finish),
        "zinc (group 2) on mild steel (group 3), cast aluminium (group 2)"
    );
    assert_eq!(text(Subject::Neighbours), "the grade of hole 2");
    for check in &checks {
        assert!(!check.source.is_empty(), "{check:?}");
        assert_eq!(check.rule, "", "{check:?}");
    }
}

#[test]
fn a_part_that_does_not_fit_is_told_what_the_rules_would_flag() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 32.0)).take_out(out(2, 32.0));
    let parts = [
        m10(45.0, "8.8"),
        m10(20.0, "8.8"),
        m10(32.0, "4.6"),
        m10(32.0, "10.9"),
        detailed(m10(32.0, "12.9"), |d| d.finish = "zinc plated".into()),
    ];
    for part in parts {
        let checks = check(&bench, &part);
        bench.decide(by(1, part.clone()));
        for flag in rules::position_flags(bench.joint(), 1, &bench.shop) {
            let is_of_the_part = flag.position == 1 && flag.rule != "not-refitted";
            let told = checks
                .iter()
                .any(|check| check.rule == flag.rule && check.text == flag.cause);
            assert_eq!(told, is_of_the_part, "{flag:?} for {part:?}");
        }
    }
    let checks = check(&bench, &m10(45.0, "8.8"));
    assert_eq!(of(&checks, Subject::Length).rule, "bottoms");
    assert_eq!(fits::worst(&checks), Some(Stop));
}

#[test]
fn a_stronger_part_keeps_the_torque_and_a_weaker_one_stops() {
    let bench = one_out(B);
    let stronger = check(&bench, &of_grade("SAE J429 8"));
    let grade = of(&stronger, Subject::Grade);
    assert_eq!((grade.severity, grade.rule), (Some(Note), ""));
    assert!(
        grade.text.contains("keeps the torque specified"),
        "{grade:?}"
    );
    let weaker = check(&bench, &of_grade("SAE J429 2"));
    let grade = of(&weaker, Subject::Grade);
    assert_eq!(
        (grade.severity, grade.rule),
        (Some(Stop), "weaker-than-specified")
    );
}

#[test]
fn what_is_wrong_with_the_whole_joint_is_wrong_with_its_part_too() {
    // 8 mm of 35 are engaged where the bolt that belongs there engages no more; nothing is raised at the hole for it.
    let mut bench = joint(B, tapped(Some(20.0), 24.0));
    bench.take_out(out(1, 20.0));
    let checks = check(&bench, &m10(20.0, "8.8"));
    let length = of(&checks, Subject::Length);
    assert_eq!(length.severity, Some(Stop), "{length:?}");
    assert_eq!(length.rule, "thread-strips");
    bench.decide(by(1, m10(20.0, "8.8")));
    assert_eq!(bench.flag("thread-strips", 1), None);
    assert_eq!(bench.flag("thread-strips", 0), Some(Stop));

    let build = JointBuild {
        shear_plane_mm: Some(5.0),
        head_room_mm: Some(6.0),
        ..nutted(35.0)
    };
    let mut bench = joint(B, build);
    bench.take_out(out(1, 35.0));
    let checks = check(&bench, &m10(35.0, "8.8"));
    assert_eq!(of(&checks, Subject::Body).rule, "thread-in-shear-plane");
    assert_eq!(of(&checks, Subject::Head).rule, "head-without-room");
    // A head of its own that goes in, where the standard's does not.
    let low = detailed(m10(35.0, "8.8"), |d| d.head_height_mm = Some(5.0));
    let checks = check(&bench, &low);
    assert_eq!(of(&checks, Subject::Head).severity, None);

    let hard = joint(B, nutted(35.0));
    let asks = |finish: &str| {
        let mut bench = Bench::with(|joint| {
            *joint = (*hard.joint().fact).clone();
            let target = joint.target.as_mut().expect("a target");
            target.grade = "12.9".into();
            target.condition = "zinc plated".into();
        });
        bench.take_out(sound(1));
        let part = detailed(m10(35.0, "12.9"), |d| d.finish = finish.into());
        let checks = check(&bench, &part);
        let plating = checks.iter().find(|c| c.subject == Subject::Plating);
        plating.map(|check| check.severity)
    };
    assert_eq!(asks(""), Some(Some(Stop)), "ordered as the joint asks");
    assert_eq!(asks("black oxide"), None);
}

#[test]
fn nothing_is_reckoned_on_a_thread_that_is_not_the_joints() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 32.0));
    let fine = FastenerSpec {
        thread: "M10x1.25".into(),
        ..m10(32.0, "8.8")
    };
    let checks = check(&bench, &fine);
    assert_eq!(of(&checks, Subject::Thread).severity, Some(Stop));
    for subject in [Subject::Grade, Subject::Length] {
        let text = &of(&checks, subject).text;
        assert!(text.contains("its thread is not the joint's"), "{text}");
    }
}

#[test]
fn what_cannot_be_judged_is_said_and_not_passed() {
    let bench = one_out(B);
    let checks = check(&bench, &new_bolt());
    for subject in [Subject::Length, Subject::Finish] {
        let told = of(&checks, subject);
        assert_eq!(told.severity, Some(Note));
        assert!(told.text.starts_with("not judged: "), "{told:?}");
    }
    let unspecified = Bench::with(|joint| {
        joint.purpose = "tapered-ball-stud".into();
        joint.target = None;
    });
    let checks = check(&unspecified, &new_bolt());
    for subject in [Subject::Thread, Subject::Grade] {
        assert!(of(&checks, subject).text.starts_with("not judged: "));
    }
}

#[test]
fn a_check_writes_nothing_and_what_was_cited_for_another_part_does_not_count() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    bench.take_out(out(1, 32.0));
    bench.decide(Decided {
        citation: "parts book, plate 14: longer here".into(),
        ..by(1, m10(45.0, "8.8"))
    });
    let before = bench.job.clone();
    let cited = check(&bench, &m10(45.0, "8.8"));
    assert_eq!(of(&cited, Subject::Length).severity, None, "cited for it");
    let other = check(&bench, &m10(50.0, "8.8"));
    assert_eq!(of(&other, Subject::Length).rule, "bottoms");
    assert_eq!(bench.job, before);
    assert_eq!(
        fits::check(bench.joint(), 5, &new_bolt(), &bench.shop),
        None
    );
    assert_eq!(
        fits::check(bench.joint(), 0, &new_bolt(), &bench.shop),
        None
    );
}

#[test]
fn a_shear_bolt_is_told_to_be_the_same_part_or_not() {
    let mut bench = Bench::with(|joint| {
        joint.purpose = "shear-bolt".into();
        joint.target = None;
    });
    bench.take_out(Removed {
        grade: "SAE J429 2".into(),
        thread: "7/16-20".into(),
        ..sound(1)
    });
    let same = check(&bench, &of_grade("SAE J429 2"));
    assert_eq!(of(&same, Subject::Purpose).severity, None);
    let stronger = check(&bench, &of_grade("SAE J429 8"));
    let purpose = of(&stronger, Subject::Purpose);
    assert_eq!(purpose.severity, Some(Stop));
    assert!(
        purpose
            .text
            .contains("a shear bolt of SAE J429 2 would be replaced")
    );
}

#[test]
fn a_published_torque_that_the_part_does_not_carry_is_told_with_its_grade() {
    let mut bench = super::specified::with(crate::specifications::plate(), |joint| {
        joint.target.as_mut().expect("a target").condition = "dry".into();
    });
    bench.take_out(sound(1));
    let rules_of = |part: &FastenerSpec| -> Vec<&str> {
        let checks = check(&bench, part).into_iter();
        let grade = checks.filter(|check| check.subject == Subject::Grade);
        grade.map(|check| check.rule).collect()
    };
    assert_eq!(rules_of(&new_bolt()), [""]);
    // 55 lbf·ft dry is 1.16 of what grade 2 proves (55 ksi on 0.1187 sq in).
    assert_eq!(
        rules_of(&of_grade("SAE J429 2")),
        ["weaker-than-specified", "published-torque-overloads"]
    );
}

/// A replacement said before this release has no detail; it reads and is stored as before.
#[test]
fn nothing_is_stored_of_a_part_where_nothing_was_said() {
    let stored = serde_json::to_string(&Fact::Decided(by(1, new_bolt()))).expect("it is stored");
    assert!(!stored.contains("detail"), "{stored}");
    let read: Fact = serde_json::from_str(&stored).expect("it reads");
    assert_eq!(read, Fact::Decided(by(1, new_bolt())));
}
