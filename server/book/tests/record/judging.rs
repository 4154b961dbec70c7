//! What is refused, and that a refusal changes nothing.

use crate::bench::{Bench, NOW, back, decision, joint_id, sound};
use clampbook_book::command::{AlikeRemovals, Command, Correction, ImportedRemoval};
use clampbook_book::context::Context;
use clampbook_book::entry::Moment;
use clampbook_book::fact::{Fact, Refitted, Removed};
use clampbook_book::ids::JointId;
use clampbook_book::judge::{CLOCK_LEAD, decide};
use clampbook_book::refusal::Refusal;
use clampbook_book::words::{Criticality, DecisionKind, Outcome, Tightness};

fn refused(bench: &mut Bench, command: &Command) -> Refusal {
    let before = bench.job.clone();
    let refusal = bench.try_say(command).expect_err("it is refused");
    assert_eq!(bench.job, before, "a refusal changes nothing");
    refusal
}

#[test]
fn an_empty_hole_cannot_be_emptied_again() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(2));
    let refusal = refused(&mut bench, &Command::LogRemoval(sound(2)));
    assert!(matches!(refusal, Refusal::State { .. }), "{refusal}");
    assert!(refusal.to_string().contains("entry 4"), "{refusal}");
}

#[test]
fn a_refitted_bolt_can_come_out_again() {
    let mut bench = Bench::new(Criticality::B);
    bench
        .take_out(sound(2))
        .refit(back(2, Tightness::Final))
        .take_out(sound(2));
    assert!(bench.joint().position(2).expect("it").refit().is_none());
}

#[test]
fn positions_that_a_joint_does_not_have_are_named() {
    let mut bench = Bench::new(Criticality::B);
    for number in [0, 5, u16::MAX] {
        let refusal = refused(&mut bench, &Command::LogRemoval(sound(number)));
        let Refusal::Invalid(violations) = refusal else {
            panic!("{refusal}");
        };
        assert_eq!(violations[0].field, "removal.position");
        assert!(
            violations[0].wrong.contains("1 to 4"),
            "{}",
            violations[0].wrong
        );
    }
}

#[test]
fn a_joint_that_does_not_exist_is_not_found() {
    let mut bench = Bench::new(Criticality::B);
    let removed = Removed {
        joint: JointId::new("nowhere").expect("a slug"),
        ..sound(1)
    };
    let refusal = refused(&mut bench, &Command::LogRemoval(removed));
    assert_eq!(
        refusal,
        Refusal::NotFound {
            name: "jobs/tractor/joints/nowhere".into()
        }
    );
}

#[test]
fn nothing_is_put_back_or_decided_where_nothing_came_out() {
    let mut bench = Bench::new(Criticality::B);
    let refusal = refused(&mut bench, &Command::LogRefit(Refitted::new(joint_id(), 1)));
    assert!(matches!(refusal, Refusal::State { .. }), "{refusal}");
    let etag = bench.joint().position(1).expect("it").etag();
    let decided = decision(1, DecisionKind::Reuse);
    let refusal = refused(&mut bench, &Command::LogDecision { decided, etag });
    assert!(matches!(refusal, Refusal::State { .. }), "{refusal}");
}

#[test]
fn a_decision_on_what_has_changed_is_stale() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(1));
    let etag = bench.joint().position(1).expect("it").etag();
    bench.decide(decision(1, DecisionKind::Reuse));
    let decided = decision(1, DecisionKind::Replace);
    let refusal = refused(&mut bench, &Command::LogDecision { decided, etag });
    assert!(matches!(refusal, Refusal::Stale { .. }), "{refusal}");
}

#[test]
fn the_future_has_not_been_said_yet() {
    let bench = Bench::new(Criticality::B);
    let judge = |ahead: i64| {
        let context = Context {
            said: Moment(NOW.0 + ahead),
            ..bench.context()
        };
        decide(&bench.job, &Command::LogRemoval(sound(1)), &context)
    };
    assert!(
        judge(CLOCK_LEAD).is_ok(),
        "a device's clock may be a little ahead"
    );
    assert!(matches!(judge(CLOCK_LEAD + 1), Err(Refusal::Invalid(_))));
    assert!(
        judge(i64::MIN / 2).is_ok(),
        "how early is judged where it is parsed"
    );
}

#[test]
fn all_alike_takes_what_is_in_place_and_copies_neither_length_nor_marking() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(2));
    let alike = AlikeRemovals {
        joint: joint_id(),
        positions: Vec::new(),
        outcome: Outcome::Stiff,
        methods: Vec::new(),
        heat_colour: None,
        kept_in: "tin".into(),
    };
    bench.say(Command::LogAlikeRemovals(alike.clone()));
    for number in [1, 3, 4] {
        let position = bench.joint().position(number).expect("it");
        let (_, removed) = position.removal().expect("it is out");
        assert_eq!(removed.outcome, Outcome::Stiff);
        assert!(
            removed.length.is_none() && removed.head_marking.is_empty() && removed.grade.is_empty()
        );
    }
    let refusal = refused(&mut bench, &Command::LogAlikeRemovals(alike));
    assert!(matches!(refusal, Refusal::State { .. }), "{refusal}");
}

#[test]
fn all_alike_is_all_or_nothing() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(2));
    let alike = AlikeRemovals {
        joint: joint_id(),
        positions: vec![1, 2, 3],
        outcome: Outcome::Normal,
        methods: Vec::new(),
        heat_colour: None,
        kept_in: String::new(),
    };
    refused(&mut bench, &Command::LogAlikeRemovals(alike));
}

#[test]
fn an_import_names_every_wrong_line_and_keeps_none() {
    let mut bench = Bench::new(Criticality::B);
    let line = |line, removed| ImportedRemoval { line, removed };
    let elsewhere = Removed {
        joint: JointId::new("nowhere").expect("a slug"),
        ..sound(1)
    };
    let lines = vec![
        line(2, sound(1)),
        line(3, sound(9)),
        line(4, elsewhere),
        line(5, sound(1)),
    ];
    let Refusal::Invalid(violations) = refused(&mut bench, &Command::ImportRemovals(lines)) else {
        panic!("fields are wrong");
    };
    let told: Vec<&str> = violations.iter().map(|v| &v.wrong[..7]).collect();
    assert_eq!(told, ["line 3,", "line 4,", "line 5,"]);
}

#[test]
fn a_correction_keeps_its_kind_its_joint_and_the_order_of_things() {
    let mut bench = Bench::new(Criticality::B);
    bench
        .take_out(sound(1))
        .refit(back(1, Tightness::Final))
        .take_out(sound(2));
    let removal = 4;
    let wrong_kind = Fact::Refitted(Refitted::new(joint_id(), 1));
    assert!(matches!(
        bench.correct(removal, Some(wrong_kind)),
        Err(Refusal::State { .. })
    ));
    assert!(
        matches!(bench.correct(removal, None), Err(Refusal::State { .. })),
        "refit and tightening rest on it"
    );
    assert!(
        matches!(
            bench.correct(removal, Some(Fact::Removed(sound(3)))),
            Err(Refusal::State { .. })
        ),
        "its refit cannot stay behind alone"
    );
    let second = 7;
    assert_eq!(
        bench.correct(second, Some(Fact::Removed(sound(3)))),
        Ok(()),
        "it was hole 3"
    );
    assert!(bench.joint().position(2).expect("it").removal().is_none());
    assert!(bench.joint().position(3).expect("it").removal().is_some());
    assert!(matches!(
        bench.correct(99, None),
        Err(Refusal::NotFound { .. })
    ));
    let opened = bench.correct(1, None);
    let told = opened.expect_err("the job stays open").to_string();
    assert!(
        told.contains(
            "is not a removal, a decision, a refit, a tightening, marks, an account of pieces, a finding, an answer, a part wanted, \
             an arrival or a photo, or stands no more"
        ),
        "{told}"
    );
}

#[test]
fn a_correction_of_a_job_that_has_changed_is_stale() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(1));
    let etag = bench.job.etag();
    bench.take_out(sound(2));
    let correction = Correction {
        entry: 4,
        with: None,
        reason: "misread".into(),
        etag,
    };
    let refusal = refused(&mut bench, &Command::Correct(correction));
    assert!(matches!(refusal, Refusal::Stale { .. }), "{refusal}");
}

#[test]
fn a_tightening_keeps_the_torque_that_was_wanted_when_it_was_said() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(1)).refit(back(1, Tightness::Final));
    let position = bench.joint().position(1).expect("it");
    let wanted = position
        .tight()
        .and_then(|tight| tight.torque.wanted.clone())
        .expect("a torque");
    // 0.75 x 85 000 psi x 0.1187 in² = 7567 lbf; K 0.18, 0.4375 in: 595.9 lbf·in, 67.3 N·m.
    // Stress area and proof: Shigley, 9th ed., tables 8-2 and 8-9; K: table 8-15.
    assert!(
        (wanted.torque_nm - 67.3).abs() < 0.05,
        "{}",
        wanted.torque_nm
    );
    assert_eq!(wanted.catalog_edition, clampbook_book::CATALOGUE_EDITION);
}
