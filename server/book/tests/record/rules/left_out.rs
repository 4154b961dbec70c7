//! A fastener that is left out on purpose, and one whose thread is chased.

use super::out;
use crate::bench::{Bench, back, decision, sound};
use crate::ordering::told;
use crate::sheet::view;
use clampbook_book::command::Command;
use clampbook_book::fact::{Decided, Fact, Removed};
use clampbook_book::refusal::Refusal;
use clampbook_book::rules;
use clampbook_book::standings::Standings;
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::{Chase, LeaveOut, Replace, Reuse};
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::{HoleCheck, Outcome, Tightness, TorqueUnit};

fn left_out() -> Decided {
    Decided {
        left_out_by: "Ida".into(),
        reason: "the bracket it held is gone".into(),
        ..decision(1, LeaveOut)
    }
}

fn cited() -> Decided {
    Decided {
        citation: "service sheet 12 of the maker".into(),
        ..left_out()
    }
}

fn raised(bench: &Bench) -> Vec<&'static str> {
    let flags = rules::flags(&bench.job, &bench.context()).into_iter();
    flags.map(|flag| flag.rule).collect()
}

#[test]
fn left_out_is_a_note_in_c_a_caution_in_b_and_a_stop_in_a_until_the_maker_is_cited() {
    for (class, plain, with_citation) in
        [(C, Note, Note), (B, Caution, Caution), (A, Stop, Caution)]
    {
        let mut bench = out(class, |_| {});
        assert_eq!(bench.flag("left-out", 1), None);
        bench.decide(left_out());
        assert_eq!(bench.flag("left-out", 1), Some(plain));
        assert_eq!(raised(&bench), ["left-out"], "nothing else is asked of it");
        bench.decide(cited());
        assert_eq!(bench.flag("left-out", 1), Some(with_citation));
        bench.decide(decision(1, Reuse));
        assert_eq!(raised(&bench), ["not-refitted"]);
    }
}

#[test]
fn nothing_but_a_citation_makes_it_less_than_a_stop_in_class_a() {
    let mut bench = out(A, |_| {});
    bench.decide(Decided {
        hole_check: Some(HoleCheck::Measured),
        reason: "the maker's service sheet 12 says so".into(),
        ..left_out()
    });
    assert_eq!(bench.flag("left-out", 1), Some(Stop));
}

#[test]
fn what_does_not_go_back_is_not_judged_and_nothing_is_ordered_for_it() {
    let mut bench = Bench::with(|joint| {
        joint.criticality = C;
        joint.lock = "split pin 1/8 in".into();
    });
    bench.take_out(Removed {
        outcome: Outcome::BrokeNow,
        grade: String::new(),
        ..sound(1)
    });
    assert!(raised(&bench).contains(&"broken-or-missing"));
    assert!(!told(&bench).is_empty());
    bench.decide(left_out());
    assert_eq!(raised(&bench), ["left-out"]);
    assert_eq!(told(&bench), []);
}

#[test]
fn nothing_goes_in_until_it_is_decided_anew() {
    let mut bench = out(C, |_| {});
    bench.decide(left_out());
    let refused = bench.try_say(&Command::LogRefit(back(1, Tightness::Final)));
    let Err(Refusal::State { explanation, .. }) = refused else {
        panic!("{refused:?}");
    };
    assert!(
        explanation.contains("left out by decision of Ida (entry"),
        "{explanation}"
    );
    bench.decide(decision(1, Reuse));
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("not-as-decided", 1), None);
    let etag = bench.joint().position(1).expect("a position").etag();
    let decided = left_out();
    let refused = bench.try_say(&Command::LogDecision { decided, etag });
    assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
}

#[test]
fn a_decision_corrected_under_a_refit_contradicts_it_until_one_of_them_goes() {
    let mut bench = out(C, |_| {});
    bench.decide(decision(1, Reuse));
    let entry = bench.job.last;
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("not-as-decided", 1), None);
    let corrected = bench.correct(entry, Some(Fact::Decided(left_out())));
    corrected.expect("it is taken");
    assert_eq!(bench.flag("not-as-decided", 1), Some(Stop));
    bench.decide(Decided {
        hole_check: Some(HoleCheck::Measured),
        ..decision(1, Reuse)
    });
    assert_eq!(bench.flag("not-as-decided", 1), None);
}

#[test]
fn it_counts_as_left_out_and_not_as_empty_loose_or_left_over() {
    let mut bench = Bench::new(C);
    bench.take_out(sound(1)).take_out(sound(2));
    bench.decide(left_out()).refit(back(2, Tightness::Final));
    let counts = Standings {
        in_place: 2,
        tight: 1,
        left_out: 1,
        ..Standings::default()
    };
    assert_eq!(bench.job.standings, counts);
    assert_eq!(Standings::of(&bench.job.joints), counts);
    assert_eq!(raised(&bench), ["left-out"], "nothing is left over");
    bench.decide(decision(1, Reuse));
    let empty = Standings {
        empty: 1,
        left_out: 0,
        ..counts
    };
    assert_eq!(bench.job.standings, empty);
}

#[test]
fn its_row_says_who_and_why_and_carries_no_torque() {
    let mut bench = Bench::with(|joint| {
        joint.criticality = C;
        joint.lock = "lock washer".into();
    });
    bench.take_out(sound(1)).take_out(sound(2));
    bench.decide(left_out());
    let sheet = view(&bench, TorqueUnit::NewtonMetre);
    let rows = &sheet.joints[0].rows;
    let row = |number| {
        rows.iter()
            .find(|row| row.position == number)
            .expect("a row")
    };
    assert_eq!(row(1).fastener, "no fastener");
    assert_eq!(row(1).reuse, "left out by Ida: the bracket it held is gone");
    assert_eq!(row(1).torque.to_string(), "LEFT OUT: no torque");
    assert_eq!(row(1).torque.nm(), None);
    assert_eq!(
        (row(1).lock.as_str(), row(1).preparation.as_str()),
        ("", "")
    );
    assert!(row(2).torque.nm().is_some());
    assert_eq!(row(2).lock, "lock washer");
}

#[test]
fn a_chased_thread_goes_back_and_does_not_mend_a_pulled_one() {
    let mut bench = out(C, |r| r.outcome = Outcome::PulledThreads);
    let proved = |kind| Decided {
        hole_check: Some(HoleCheck::Chased),
        ..decision(1, kind)
    };
    bench.decide(proved(Chase));
    assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
    let sheet = view(&bench, TorqueUnit::NewtonMetre);
    let row = |sheet: &clampbook_book::sheet::Sheet| sheet.joints[0].rows[0].clone();
    assert_eq!(row(&sheet).reuse, "original, thread chased");
    bench.decide(proved(Replace));
    assert_eq!(bench.flag("thread-damaged", 1), None);
}

#[test]
fn the_sheet_tells_how_a_hole_was_repaired() {
    let mut bench = out(C, |_| {});
    bench.decide(Decided {
        hole_check: Some(HoleCheck::Repaired),
        hole_repair: "thread insert 7/16-20".into(),
        ..decision(1, Reuse)
    });
    let sheet = view(&bench, TorqueUnit::NewtonMetre);
    let prepared = &sheet.joints[0].rows[0].preparation;
    assert_eq!(prepared, "oiled; hole repaired: thread insert 7/16-20");
}
