//! What is said of a replacement before it is decided on: what the rules would flag, and the numbers where they flag nothing.

use super::replacements::{by, detailed, m10, of_grade, one_out};
use crate::bench::{Bench, new_bolt, sound};
use crate::built::{joint, nutted, out, tapped};
use clampbook_book::fact::{Decided, Fact, FastenerSpec, GripStack, JointBuild, Removed};
use clampbook_book::rules::{
    self,
    fits::{self, FitCheck, Subject},
};
use clampbook_book::words::{Criticality, Severity};

use Criticality::{A, B};
use Severity::{Note, Stop};

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

fn check(bench: &Bench, part: &FastenerSpec) -> Vec<FitCheck> {
    fits::check(bench.joint(), 1, part, &bench.context(), bench.unit()).expect("a position")
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
        text(Subject::Length).starts_with("32 mm long: engages 20 mm;"),
        "{}",
        text(Subject::Length)
    );
    assert!(text(Subject::Length).contains("by rule of thumb 20 mm; bottoms beyond 34.5 mm"));
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
        for flag in rules::position_flags(bench.joint(), 1, &bench.context(), bench.unit()) {
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
        stack: GripStack {
            head_room_mm: Some(6.0),
            ..nutted(35.0).stack
        },
        shear_plane_mm: Some(5.0),
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
            target.lubrication = "zinc plated".into();
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
        fits::check(
            bench.joint(),
            5,
            &new_bolt(),
            &bench.context(),
            bench.unit()
        ),
        None
    );
    assert_eq!(
        fits::check(
            bench.joint(),
            0,
            &new_bolt(),
            &bench.context(),
            bench.unit()
        ),
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
        joint.target.as_mut().expect("a target").lubrication = "dry".into();
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
