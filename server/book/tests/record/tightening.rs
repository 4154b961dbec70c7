//! Tightening is said apart from what went in: by steps, of several holes at once, all or none.

use crate::bench::{
    Bench, back, beside, decision, joint_id, new_bolt, read, sound, tightening, torque,
};
use clampbook_book::command::{Command, Tightening};
use clampbook_book::fact::{Fact, PieceFitted, Refitted, Removed, Thing, Tightened, TorqueRead};
use clampbook_book::job::{Position, Standing};
use clampbook_book::refusal::Refusal;
use clampbook_book::words::Severity::{Caution, Stop};
use clampbook_book::words::{Criticality, DecisionKind, Outcome, SmallPart, Step, Tightness};
use serde_json::json;

fn in_by_hand(positions: &[u16]) -> Bench {
    let mut bench = Bench::new(Criticality::B);
    for position in positions {
        bench
            .take_out(sound(*position))
            .refit(Refitted::new(joint_id(), *position));
    }
    bench
}

fn position(bench: &Bench, number: u16) -> &Position {
    bench.joint().position(number).expect("a position")
}

fn standing(bench: &Bench, number: u16) -> Standing {
    position(bench, number).standing()
}

/// Tries it and shows that a refusal changes nothing.
fn refused(bench: &mut Bench, asked: Tightening) -> Refusal {
    let before = bench.job.clone();
    let outcome = bench.try_say(&Command::LogTightening(asked));
    assert_eq!(bench.job, before);
    outcome.expect_err("it is refused")
}

fn violations(refusal: Refusal) -> Vec<(String, String)> {
    match refusal {
        Refusal::Invalid(wrong) => wrong
            .into_iter()
            .map(|one| (one.field, one.wrong))
            .collect(),
        other => panic!("{other}"),
    }
}

#[test]
fn what_goes_in_is_in_by_hand_until_it_is_tightened() {
    let mut bench = in_by_hand(&[1]);
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Started));
    assert_eq!(bench.flag("not-tight", 1), Some(Caution));
    bench.tighten(&[1], Step::Snug);
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Snug));
    assert_eq!(bench.flag("not-tight", 1), Some(Caution));
    bench.tighten(&[1], Step::Final);
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Final));
    assert_eq!(bench.flag("not-tight", 1), None);
    // The last step counts: a fastener that was slackened to snug again is not tight.
    bench.tighten(&[1], Step::Snug);
    assert_eq!(bench.flag("not-tight", 1), Some(Caution));
}

#[test]
fn a_fastener_that_goes_in_again_is_by_hand_again_and_a_pin_beside_it_leaves_it_tight() {
    let mut bench = in_by_hand(&[1]);
    bench.tighten(&[1], Step::Final);
    let pin = PieceFitted {
        what: Thing::SmallPart(SmallPart::Pin),
        count: 1,
        is_new: true,
        said: String::new(),
    };
    bench.refit(beside(1, vec![pin.clone()]));
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Final));
    bench.refit(beside(1, Vec::new()));
    let told: Vec<_> = position(&bench, 1)
        .beside()
        .map(|(_, said)| said.clone())
        .collect();
    assert_eq!(told, [beside(1, vec![pin]), beside(1, Vec::new())]);
    bench.refit(Refitted::new(joint_id(), 1));
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Started));
    assert_eq!(
        position(&bench, 1).beside().count(),
        0,
        "they were beside the one before"
    );
    bench.tighten(&[1], Step::Final).take_out(sound(1));
    assert_eq!(standing(&bench, 1), Standing::Empty);
    bench.refit(Refitted::new(joint_id(), 1));
    assert_eq!(
        standing(&bench, 1),
        Standing::Fitted(Tightness::Started),
        "the tightening was of its time before"
    );
}

#[test]
fn what_goes_in_beside_a_fastener_needs_one_that_is_in_and_is_no_other_one() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(1));
    let nothing_in = bench.try_say(&Command::LogRefit(beside(1, Vec::new())));
    let told = nothing_in.expect_err("nothing is in").to_string();
    assert!(
        told.ends_with("nothing is in; say which part went in, the original or a new one"),
        "{told}"
    );
    bench.refit(Refitted {
        new_part: Some(new_bolt()),
        ..Refitted::new(joint_id(), 1)
    });
    let other = bench.try_say(&Command::LogRefit(Refitted {
        new_part: Some(new_bolt()),
        ..beside(1, Vec::new())
    }));
    let [(field, wrong)] = violations(other.expect_err("another one"))
        .try_into()
        .expect("one");
    assert_eq!(field, "refit.new_part");
    assert!(
        wrong.contains("leave it out, or say that a new one went in"),
        "{wrong}"
    );
    bench.refit(beside(1, Vec::new()));
    let part = position(&bench, 1).new_part();
    assert_eq!(part, Some(&new_bolt()), "the new one is still in");
}

#[test]
fn one_command_tightens_several_holes_and_none_named_are_all_that_are_not_left_out() {
    let mut bench = in_by_hand(&[1, 2, 4]);
    bench
        .take_out(sound(3))
        .decide(clampbook_book::fact::Decided {
            left_out_by: "Ida".into(),
            ..decision(3, DecisionKind::LeaveOut)
        });
    let before = bench.entries.len();
    bench.tighten(&[4, 1], Step::Snug);
    let said: Vec<&Fact> = bench.entries[before..]
        .iter()
        .map(|entry| &entry.fact)
        .collect();
    let of = |fact: &Fact| match fact {
        Fact::Tightened(said) => (said.position, said.step),
        other => panic!("{other:?}"),
    };
    let said: Vec<_> = said.into_iter().map(of).collect();
    assert_eq!(
        said,
        [(4, Step::Snug), (1, Step::Snug)],
        "one entry a hole, as named"
    );
    bench.tighten(&[], Step::Final);
    for number in [1, 2, 4] {
        assert_eq!(
            standing(&bench, number),
            Standing::Fitted(Tightness::Final),
            "{number}"
        );
    }
    assert_eq!(standing(&bench, 3), Standing::LeftOut);
}

#[test]
fn one_hole_that_cannot_be_tightened_refuses_all_and_each_cause_names_its_holes() {
    let mut bench = in_by_hand(&[1]);
    bench.take_out(sound(2)).take_out(sound(3));
    let refusal = refused(&mut bench, tightening(&[1, 2, 3, 4], Step::Final));
    let Refusal::State {
        subject,
        explanation,
    } = refusal
    else {
        panic!("{refusal}");
    };
    assert_eq!(subject, "jobs/tractor/joints/plate");
    assert_eq!(
        explanation,
        "positions 2, 3: each is empty; log the refit before the tightening; position 4 was never removed; only what went \
         back in can be tightened here"
    );
    bench.decide(clampbook_book::fact::Decided {
        left_out_by: "Ida".into(),
        ..decision(2, DecisionKind::LeaveOut)
    });
    let told = refused(&mut bench, tightening(&[1, 2], Step::Snug)).to_string();
    assert!(
        told.ends_with("position 2 is left out by decision of Ida (entry 8); decide again before anything goes in"),
        "{told}"
    );
}

#[test]
fn a_joint_of_which_every_hole_is_left_out_has_nothing_to_tighten() {
    let mut bench = Bench::with(|joint| joint.labels = vec![String::new(); 2]);
    for number in [1, 2] {
        bench
            .take_out(sound(number))
            .decide(clampbook_book::fact::Decided {
                left_out_by: "Ida".into(),
                ..decision(number, DecisionKind::LeaveOut)
            });
    }
    let told = refused(&mut bench, tightening(&[], Step::Final)).to_string();
    assert!(
        told.ends_with("every position is left out by decision"),
        "{told}"
    );
}

#[test]
fn what_is_wrong_with_the_holes_or_the_reading_is_named_by_its_field() {
    let mut bench = in_by_hand(&[1, 2]);
    let wrong = violations(refused(
        &mut bench,
        Tightening {
            reading: Some(torque(67.0)),
            ..tightening(&[1, 9, 1], Step::Final)
        },
    ));
    let fields: Vec<&str> = wrong.iter().map(|(field, _)| field.as_str()).collect();
    assert_eq!(fields, ["positions[1]", "positions[2]", "torque_reading"]);
    assert!(wrong[0].1.contains("allowed is 1 to 4"), "{wrong:?}");
    assert_eq!(wrong[1].1, "repeats position 1");
    assert!(
        wrong[2].1.contains("log each with its own reading"),
        "{wrong:?}"
    );
    let refit = bench.try_say(&Command::LogRefit(back(1, Tightness::Final)));
    let [(field, wrong)] = violations(refit.expect_err("two things"))
        .try_into()
        .expect("one");
    assert_eq!(field, "refit.tightness");
    assert_eq!(wrong, "is not part of a refit; log the tightening");
}

fn tightened(position: u16, torque: TorqueRead) -> Fact {
    Fact::Tightened(Tightened {
        joint: joint_id(),
        position,
        step: Step::Final,
        note: String::new(),
        torque,
    })
}

#[test]
fn a_tightening_is_corrected_in_its_place_and_taken_back_but_never_moved() {
    let mut bench = in_by_hand(&[1, 2]);
    bench.tighten(&[1], Step::Snug);
    let entry = bench.job.last;
    bench
        .correct(entry, Some(tightened(1, read(67.0))))
        .expect("it is taken");
    let tight = position(&bench, 1).at_final().expect("at its final torque");
    assert_eq!(tight.torque.reading, Some(torque(67.0)));
    assert!(tight.torque.wanted.is_some(), "what was asked for stays");
    let moved = bench.correct(entry, Some(tightened(2, read(67.0))));
    let [(field, wrong)] = violations(moved.expect_err("moved"))
        .try_into()
        .expect("one");
    assert_eq!(field, "tightening.position");
    assert!(
        wrong.contains("withdraw the tightening and log the right one"),
        "{wrong}"
    );
    let refit = entry - 2;
    assert!(
        bench
            .correct(refit, Some(tightened(1, read(67.0))))
            .is_err(),
        "a refit is none"
    );
    bench.correct(entry, None).expect("it is taken back");
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Started));
}

#[test]
fn a_corrected_refit_keeps_the_tightening_after_it_and_stays_what_it_was() {
    let mut bench = in_by_hand(&[1]);
    let entry = bench.job.last;
    bench.tighten(&[1], Step::Final);
    let new = Refitted {
        new_part: Some(new_bolt()),
        ..Refitted::new(joint_id(), 1)
    };
    bench
        .correct(entry, Some(Fact::Refitted(new)))
        .expect("it is taken");
    assert_eq!(standing(&bench, 1), Standing::Fitted(Tightness::Final));
    assert_eq!(position(&bench, 1).new_part(), Some(&new_bolt()));
    let beside = bench.correct(entry, Some(Fact::Refitted(beside(1, Vec::new()))));
    let [(field, _)] = violations(beside.expect_err("not that"))
        .try_into()
        .expect("one");
    assert_eq!(field, "refit.fitted_part");
}

/// A refit as entries said it while how tight was part of it.
fn old_refit(tightness: &str) -> Fact {
    serde_json::from_value(json!({
        "kind": "refitted", "joint": "plate", "position": 1, "tightness": tightness,
        "reading": {"said": "67 N·m", "nm": 67.0}, "tool": "TW1", "note": "as it was",
        "wanted": {"torque_nm": 67.3, "least_clamp_load_n": 20000.0, "greatest_clamp_load_n": 30000.0, "nut_factor": 0.18,
            "catalog_edition": "2025.01"},
    }))
    .expect("it is read for ever")
}

#[test]
fn a_refit_that_says_how_tight_is_read_for_ever_and_a_correction_keeps_what_it_said() {
    let bench = in_by_hand(&[1]);
    for (word, tightness) in [
        ("started", Tightness::Started),
        ("snug", Tightness::Snug),
        ("final", Tightness::Final),
    ] {
        let mut entry = bench.entries.last().expect("the refit").clone();
        entry.fact = old_refit(word);
        let mut job = bench.job.clone();
        entry.number = job.last + 1;
        job.apply(&entry);
        let there = job.joint(&joint_id()).and_then(|joint| joint.position(1));
        let tight = there.and_then(Position::tight).expect("it is in");
        assert_eq!(tight.tightness, tightness);
        assert_eq!(
            (tight.torque.tool.as_str(), tight.note),
            ("TW1", "as it was")
        );
        assert_eq!(tight.torque.wanted_nm(), Some(67.3));
        let stored = serde_json::to_value(&entry.fact).expect("it is stored");
        assert_eq!(stored["tightness"], word, "and written as it was");

        let mut bench = in_by_hand(&[]);
        bench.job = job;
        let corrected = Refitted {
            note: "put right".into(),
            ..Refitted::new(joint_id(), 1)
        };
        bench
            .correct(entry.number, Some(Fact::Refitted(corrected)))
            .expect("it is taken");
        assert_eq!(standing(&bench, 1), Standing::Fitted(tightness));
        let tight = position(&bench, 1).tight().expect("it is in");
        assert_eq!(
            (tight.torque.wanted_nm(), tight.note),
            (Some(67.3), "put right")
        );
    }
}

#[test]
fn a_new_refit_stores_nothing_of_how_tight_and_a_tightening_stores_its_step() {
    let mut bench = in_by_hand(&[1]);
    let stored = |bench: &Bench| {
        let fact = &bench.entries.last().expect("an entry").fact;
        serde_json::to_value(fact).expect("it is stored")
    };
    assert_eq!(
        stored(&bench),
        json!({"kind": "refitted", "joint": "plate", "position": 1})
    );
    bench.say(Command::LogTightening(Tightening {
        reading: Some(torque(67.0)),
        tool: "TW1".into(),
        note: "second go".into(),
        ..tightening(&[1], Step::Final)
    }));
    let mut said = stored(&bench);
    let wanted = said.as_object_mut().and_then(|said| said.remove("wanted"));
    assert!(wanted.is_some_and(|wanted| wanted["torque_nm"].is_f64()));
    assert_eq!(
        said,
        json!({"kind": "tightened", "joint": "plate", "position": 1, "step": "final", "note": "second go",
            "reading": {"said": "67 N·m", "nm": 67.0}, "tool": "TW1", "unit": "newton-metre"})
    );
}

#[test]
fn the_record_asks_for_no_torque_where_a_stop_is_open() {
    let mut bench = in_by_hand(&[1, 2]);
    bench.take_out(Removed {
        outcome: Outcome::Seized,
        ..sound(3)
    });
    bench.refit(Refitted::new(joint_id(), 3));
    assert_eq!(bench.flag("forced-out", 3), Some(Stop));
    bench.tighten(&[2, 3], Step::Final);
    let asked = |number| position(&bench, number).tight().expect("it is in").torque;
    assert!(asked(2).wanted.is_some());
    assert_eq!((&asked(3).wanted, asked(3).unit), (&None, None));
}

#[test]
fn the_record_asks_in_the_unit_of_the_job_else_in_that_of_the_thread() {
    let asked = |bench: &Bench| {
        let fact = &bench.entries.last().expect("an entry").fact;
        clampbook_book::spoken::fact(fact)
    };
    let mut bench = in_by_hand(&[1]);
    bench.tighten(&[1], Step::Final);
    assert!(
        asked(&bench).contains("asks for 67.3 N·m (49.7 lbf·ft)"),
        "{}",
        asked(&bench)
    );
    bench.say(Command::LogTightening(Tightening {
        reading: Some(clampbook_book::fact::SaidTorque {
            said: "50 lbf·ft".into(),
            nm: 67.8,
        }),
        ..tightening(&[1], Step::Final)
    }));
    assert!(
        asked(&bench).contains("asks for 49.7 lbf·ft (67.3 N·m)"),
        "{}",
        asked(&bench)
    );
}
