//! A part that has not arrived: the rule `part-not-arrived`.

use crate::bench::{Bench, back, new_bolt, sound};
use crate::ordering::{arrive, flagged, gasket, list, replaced, ruined, told, want};
use clampbook_book::command::Command;
use clampbook_book::fact::{PartFound, PartWanted, Refitted, Removed};
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::{FindingSeverity, Outcome, Tightness};

#[test]
fn a_part_wanted_by_hand_stops_its_joint_in_a_and_b_and_is_a_caution_in_c() {
    for (class, severity) in [(A, Stop), (B, Stop), (C, Caution)] {
        let mut bench = Bench::new(class);
        want(&mut bench, gasket());
        assert_eq!(flagged(&bench), [(severity, 0)]);
        let mut whole = Bench::new(class);
        want(
            &mut whole,
            PartWanted {
                joint: None,
                ..gasket()
            },
        );
        assert_eq!(flagged(&whole), [(severity, 0)], "by its most vital joint");
    }
}

#[test]
fn a_replacement_that_has_not_come_is_milder_because_another_rule_stops_the_original() {
    for (class, severity) in [(A, Caution), (B, Caution), (C, Note)] {
        assert_eq!(flagged(&replaced(class, &[2])), [(severity, 2)]);
    }
    let mut bench = replaced(B, &[2]);
    bench.refit(back(2, Tightness::Final));
    assert_eq!(bench.flag("not-as-decided", 2), Some(Stop));
}

#[test]
fn a_ruined_part_stops_what_it_belongs_to_until_its_successor_is_there() {
    for (class, severity) in [(A, Stop), (B, Stop), (C, Caution)] {
        let mut bench = Bench::new(C);
        bench.say(Command::LogFinding(ruined("Spindle", class)));
        assert_eq!(flagged(&bench), [(severity, 0)]);
        arrive(&mut bench, "spindle", 1);
        assert_eq!(flagged(&bench), []);
    }
    let mut doubtful = Bench::new(A);
    doubtful.say(Command::LogFinding(PartFound {
        severity: FindingSeverity::Doubtful,
        ..ruined("Spindle", A)
    }));
    assert_eq!(flagged(&doubtful), []);
}

#[test]
fn small_parts_things_used_once_and_what_is_not_decided_are_listed_and_not_flagged() {
    let mut bench = Bench::with(|joint| joint.lock = "split pin 1/8 in".into());
    bench.take_out(sound(1));
    bench.take_out(Removed {
        outcome: Outcome::BrokeNow,
        ..sound(2)
    });
    assert_eq!(list(&bench).len(), 2, "{:?}", told(&bench));
    assert_eq!(flagged(&bench), []);
    assert_eq!(flagged(&Bench::new(A)), [], "nothing is wanted");
}

#[test]
fn the_arrival_or_the_new_part_in_its_hole_clears_it() {
    let mut bench = Bench::new(A);
    want(&mut bench, gasket());
    arrive(&mut bench, "gasket cover", 1);
    assert_eq!(flagged(&bench), []);

    let mut fitted = replaced(B, &[1]);
    fitted.refit(Refitted {
        new_part: Some(new_bolt()),
        ..back(1, Tightness::Final)
    });
    assert_eq!(flagged(&fitted), []);

    let mut withdrawn = Bench::new(A);
    let entry = want(&mut withdrawn, gasket());
    withdrawn.correct(entry, None).expect("withdrawn");
    assert_eq!(flagged(&withdrawn), []);
    assert!(withdrawn.job.parts.is_empty());
}

#[test]
fn too_few_another_part_or_the_original_back_do_not_clear_it() {
    let mut bench = Bench::new(A);
    want(
        &mut bench,
        PartWanted {
            quantity: 2,
            ..gasket()
        },
    );
    want(
        &mut bench,
        PartWanted {
            joint: None,
            what: "Oil seal".into(),
            ..gasket()
        },
    );
    arrive(&mut bench, "Gasket, cover", 1);
    arrive(&mut bench, "Oil seal", 1);
    assert_eq!(flagged(&bench), [(Stop, 0)], "one of two gaskets");
    let came = arrive(&mut bench, "Gasket, cover", 1);
    assert_eq!(flagged(&bench), []);
    bench.correct(came, None).expect("it had not come");
    assert_eq!(flagged(&bench), [(Stop, 0)]);

    let mut original = replaced(B, &[1]);
    original.refit(back(1, Tightness::Final));
    assert_eq!(flagged(&original), [(Caution, 1)]);
}
