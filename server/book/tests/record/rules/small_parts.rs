//! What belongs to a fastener: used once, missing or unfit; bolts past yield and lock nuts that went back.

use crate::bench::{Bench, back, beside, decision, new_bolt, sound, torque};
use clampbook_book::fact::{
    Assembled, FittedWith, PartSeen, PieceFitted, Refitted, Removed, SaidTorque, Thing,
};
use clampbook_book::words::Criticality::{A, B};
use clampbook_book::words::DecisionKind::{Hold, Replace, Reuse};
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::SmallPart::{self, Lock, Nut, Pin, Washer};
use clampbook_book::words::SmallPartCondition::{Missing, Present, Unfit};
use clampbook_book::words::{Criticality, Piece, SmallPartCondition, Tick, Tightness};

/// A bolt that came out with these small parts.
fn out_with(bench: &mut Bench, parts: &[(SmallPart, SmallPartCondition)]) {
    let seen = |&(part, found): &(SmallPart, SmallPartCondition)| PartSeen {
        part,
        found,
        said: String::new(),
    };
    bench.take_out(Removed {
        assembled: Some(Box::new(Assembled {
            parts: parts.iter().map(seen).collect(),
            ..Assembled::default()
        })),
        ..sound(1)
    });
}

fn bench_with(criticality: Criticality, parts: &[(SmallPart, SmallPartCondition)]) -> Bench {
    let mut bench = Bench::new(criticality);
    out_with(&mut bench, parts);
    bench
}

fn locked(criticality: Criticality, lock: &str) -> Bench {
    let mut bench = Bench::with(|joint| {
        joint.criticality = criticality;
        joint.lock = lock.into();
    });
    bench.take_out(sound(1));
    bench
}

fn piece(what: Thing, count: u16, is_new: bool) -> PieceFitted {
    PieceFitted {
        what,
        count,
        is_new,
        said: String::new(),
    }
}

fn in_with(tightness: Tightness, pieces: Vec<PieceFitted>) -> Refitted {
    Refitted {
        with: Some(Box::new(FittedWith {
            pieces,
            ..FittedWith::default()
        })),
        ..back(1, tightness)
    }
}

fn new(part: SmallPart) -> Vec<PieceFitted> {
    vec![piece(Thing::SmallPart(part), 1, true)]
}

#[test]
fn what_is_used_once_is_a_note_until_it_is_closed_without_a_new_one() {
    for (class, severity) in [(A, Stop), (B, Caution)] {
        for once in [Lock, Pin] {
            let mut bench = bench_with(class, &[(once, Present)]);
            assert_eq!(bench.flag("used-once", 1), Some(Note), "{once:?}");
            bench.refit(back(1, Tightness::Snug));
            assert_eq!(bench.flag("used-once", 1), Some(Note), "it goes in last");
            bench.refit(back(1, Tightness::Final));
            assert_eq!(bench.flag("used-once", 1), Some(severity), "{once:?}");
        }
        for lock in ["split pin 1/8 in", "tab washer", "lock wire", "lock plate"] {
            let mut bench = locked(class, lock);
            bench.refit(back(1, Tightness::Final));
            assert_eq!(bench.flag("used-once", 1), Some(severity), "{lock}");
        }
    }
}

#[test]
fn what_goes_back_as_it_is_raises_nothing() {
    let mut bench = bench_with(A, &[(Nut, Present), (Washer, Present)]);
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("used-once", 1), None);
    assert_eq!(bench.flag("small-part-unfit", 1), None);
    let mut bench = locked(A, "thread locker");
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("used-once", 1), None);
    assert_eq!(bench.flag("lock-nut-again", 1), None);
    let bench = Bench::new(A);
    assert_eq!(bench.flag("used-once", 1), None, "nothing came out");
}

#[test]
fn a_new_one_clears_what_is_used_once_until_the_fastener_goes_in_again() {
    let mut bench = bench_with(A, &[(Pin, Present)]);
    bench.refit(back(1, Tightness::Final));
    bench.refit(beside(1, new(Pin)));
    assert_eq!(bench.flag("used-once", 1), None);
    bench.refit(back(1, Tightness::Final));
    assert_eq!(
        bench.flag("used-once", 1),
        Some(Stop),
        "the fastener went in again, and the pin before it is used now"
    );
    bench.refit(in_with(Tightness::Final, new(Pin)));
    assert_eq!(bench.flag("used-once", 1), None);
    out_with(&mut bench, &[(Pin, Present)]);
    bench.refit(back(1, Tightness::Final));
    assert_eq!(
        bench.flag("used-once", 1),
        Some(Stop),
        "that one is used now"
    );
}

#[test]
fn an_old_one_another_part_or_a_decision_does_not_clear_what_is_used_once() {
    let old = vec![piece(Thing::SmallPart(Pin), 1, false)];
    for wrong in [
        old,
        new(Washer),
        new(Lock),
        vec![piece(Thing::Piece(Piece::Clip), 1, true)],
    ] {
        let mut bench = bench_with(A, &[(Pin, Present)]);
        bench.refit(in_with(Tightness::Final, wrong.clone()));
        bench.decide(decision(1, Replace));
        assert_eq!(bench.flag("used-once", 1), Some(Stop), "{wrong:?}");
    }
}

#[test]
fn both_washers_of_a_banjo_are_new() {
    let mut bench = Bench::with(|joint| {
        joint.purpose = "banjo-fitting".into();
        joint.target = None;
        joint.criticality = A;
    });
    bench.take_out(sound(1));
    let washers = |count| {
        in_with(
            Tightness::Final,
            vec![piece(Thing::Piece(Piece::Washer), count, true)],
        )
    };
    bench.refit(washers(1));
    assert_eq!(bench.flag("used-once", 1), Some(Stop), "one of two");
    let other = vec![piece(Thing::Piece(Piece::Washer), 1, true)];
    bench.refit(beside(1, other));
    assert_eq!(bench.flag("used-once", 1), None, "and the other");
}

#[test]
fn a_missing_or_unfit_small_part_is_told_until_a_new_one_is_in() {
    for part in [Nut, Lock, Washer, Pin] {
        for found in [Missing, Unfit] {
            let mut bench = bench_with(B, &[(part, found)]);
            assert_eq!(bench.flag("small-part-unfit", 1), Some(Caution));
            assert_eq!(bench.flag("used-once", 1), None, "told once");
            bench.refit(back(1, Tightness::Final));
            assert_eq!(bench.flag("small-part-unfit", 1), Some(Caution));
            bench.refit(in_with(Tightness::Final, new(part)));
            assert_eq!(
                bench.flag("small-part-unfit", 1),
                None,
                "{part:?} {found:?}"
            );
        }
    }
    let mut bench = bench_with(A, &[(Nut, Unfit)]);
    assert_eq!(
        bench.flag("small-part-unfit", 1),
        Some(Caution),
        "not closed yet"
    );
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("small-part-unfit", 1), Some(Stop));
}

#[test]
fn a_lock_that_was_ticked_as_missing_counts_as_one() {
    let mut bench = Bench::new(B);
    bench.take_out(Removed {
        ticks: vec![Tick::LockMissing],
        ..sound(1)
    });
    assert_eq!(bench.flag("small-part-unfit", 1), Some(Caution));
    bench.refit(in_with(Tightness::Final, new(Nut)));
    assert_eq!(
        bench.flag("small-part-unfit", 1),
        Some(Caution),
        "a nut is no lock"
    );
    bench.refit(in_with(Tightness::Final, new(Lock)));
    assert_eq!(bench.flag("small-part-unfit", 1), None);
}

#[test]
fn a_small_part_is_not_made_fit_by_the_old_one_nor_by_one_of_two() {
    let mut bench = bench_with(B, &[(Washer, Missing), (Washer, Unfit)]);
    bench.decide(decision(1, Reuse));
    bench.refit(in_with(
        Tightness::Final,
        vec![piece(Thing::SmallPart(Washer), 2, false)],
    ));
    assert_eq!(bench.flag("small-part-unfit", 1), Some(Caution), "old ones");
    bench.refit(in_with(Tightness::Final, new(Washer)));
    assert_eq!(
        bench.flag("small-part-unfit", 1),
        Some(Caution),
        "one of two"
    );
    bench.refit(beside(1, new(Washer)));
    assert_eq!(bench.flag("small-part-unfit", 1), None);
}

fn yield_bolt() -> Bench {
    let mut bench = Bench::with(|joint| {
        joint.purpose = "yield-bolt".into();
        joint.target = None;
        joint.criticality = B;
    });
    bench.take_out(sound(1));
    bench
}

#[test]
fn a_bolt_past_yield_wants_a_new_one_and_never_goes_back() {
    let mut bench = yield_bolt();
    assert_eq!(bench.flag("yield-bolt-again", 1), Some(Caution));
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag("yield-bolt-again", 1), Some(Stop));
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("yield-bolt-again", 1), None);
    bench.refit(back(1, Tightness::Snug));
    assert_eq!(
        bench.flag("yield-bolt-again", 1),
        Some(Stop),
        "the old one is in"
    );
    bench.refit(Refitted {
        new_part: Some(new_bolt()),
        ..back(1, Tightness::Final)
    });
    assert_eq!(bench.flag("yield-bolt-again", 1), None);
}

#[test]
fn a_bolt_that_clamps_may_go_back_and_one_on_hold_is_not_decided() {
    let mut bench = Bench::new(B);
    bench.take_out(sound(1)).refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("yield-bolt-again", 1), None);
    let mut bench = yield_bolt();
    bench.decide(clampbook_book::fact::Decided {
        hold_reason: Some(clampbook_book::words::HoldReason::Part),
        ..decision(1, Hold)
    });
    assert_eq!(
        bench.flag("yield-bolt-again", 1),
        None,
        "on hold says so itself"
    );
    bench.refit(in_with(Tightness::Final, new(Nut)));
    assert_eq!(
        bench.flag("yield-bolt-again", 1),
        Some(Stop),
        "a new nut is no new bolt"
    );
}

/// A used nut that took so much to turn before it seated.
fn turned(prevailing_torque: SaidTorque) -> Refitted {
    Refitted {
        with: Some(Box::new(FittedWith {
            prevailing_torque: Some(prevailing_torque),
            ..FittedWith::default()
        })),
        ..back(1, Tightness::Final)
    }
}

#[test]
fn a_used_lock_nut_shows_its_grip_or_is_replaced() {
    // FAA AC 43.13-1B, table 7-2: 7/16-20 takes at least 8 lbf·in, 0.904 N·m.
    for (class, unread) in [(A, Stop), (B, Caution)] {
        let mut bench = locked(class, "lock nut, nylon insert");
        assert_eq!(bench.flag("lock-nut-again", 1), None, "nothing is in");
        bench.refit(back(1, Tightness::Snug));
        assert_eq!(bench.flag("lock-nut-again", 1), None, "not closed yet");
        bench.refit(back(1, Tightness::Final));
        assert_eq!(bench.flag("lock-nut-again", 1), Some(unread), "not read");
        bench.refit(turned(torque(0.5)));
        assert_eq!(
            bench.flag("lock-nut-again", 1),
            Some(Stop),
            "hardly any grip"
        );
        bench.refit(turned(torque(2.0)));
        assert_eq!(bench.flag("lock-nut-again", 1), None, "it grips");
    }
    let mut bench = locked(A, "locknut");
    bench.refit(in_with(Tightness::Final, new(Lock)));
    assert_eq!(
        bench.flag("lock-nut-again", 1),
        Some(Stop),
        "a tab is no nut"
    );
    bench.refit(in_with(
        Tightness::Final,
        vec![piece(Thing::SmallPart(Nut), 1, false)],
    ));
    assert_eq!(bench.flag("lock-nut-again", 1), Some(Stop), "the old nut");
    bench.refit(in_with(Tightness::Final, new(Nut)));
    assert_eq!(bench.flag("lock-nut-again", 1), None);
}
