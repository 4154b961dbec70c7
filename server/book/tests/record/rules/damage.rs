//! Broken, missing, damaged and worn.

use super::{out, with_hole};
use crate::bench::decision;
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::{CleanAndReuse, Replace, Reuse};
use clampbook_book::words::Severity::{Caution, Stop};
use clampbook_book::words::{HoleCheck, Outcome, Tick};

#[test]
fn broken_and_missing_bolts_are_replaced_and_a_stub_wants_its_hole_proved() {
    for outcome in [
        Outcome::BrokeNow,
        Outcome::BrokenBefore,
        Outcome::CutOnPurpose,
    ] {
        let mut bench = out(C, |r| r.outcome = outcome);
        assert_eq!(
            bench.flag("broken-or-missing", 1),
            Some(Stop),
            "{outcome:?}"
        );
        bench.decide(decision(1, Replace));
        assert_eq!(
            bench.flag("broken-or-missing", 1),
            Some(Stop),
            "{outcome:?}"
        );
        bench.decide(with_hole(decision(1, Replace), HoleCheck::Repaired));
        assert_eq!(bench.flag("broken-or-missing", 1), None, "{outcome:?}");
    }
    let mut bench = out(C, |r| r.outcome = Outcome::MissingBefore);
    bench.decide(decision(1, Reuse));
    assert_eq!(bench.flag("broken-or-missing", 1), Some(Stop));
    bench.decide(decision(1, Replace));
    assert_eq!(bench.flag("broken-or-missing", 1), None);
    assert_eq!(out(C, |_| {}).flag("broken-or-missing", 1), None);
}

#[test]
fn damaged_threads_want_a_new_bolt_and_a_proved_hole() {
    for outcome in [Outcome::PulledThreads, Outcome::CrossThreaded] {
        let mut bench = out(C, |r| r.outcome = outcome);
        assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
        bench.decide(decision(1, Replace));
        assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
        bench.decide(with_hole(decision(1, CleanAndReuse), HoleCheck::Chased));
        assert_eq!(bench.flag("thread-damaged", 1), Some(Stop));
        bench.decide(with_hole(decision(1, Replace), HoleCheck::Chased));
        assert_eq!(bench.flag("thread-damaged", 1), None);
    }
    assert_eq!(
        out(C, |r| r.outcome = Outcome::Stiff).flag("thread-damaged", 1),
        None
    );
}

#[test]
fn unfit_bolts_are_replaced_and_cleaning_does_not_mend_them() {
    for tick in [Tick::Bent, Tick::Necked, Tick::WrongBolt] {
        let mut bench = out(C, |r| r.ticks = vec![tick]);
        assert_eq!(bench.flag("fastener-unfit", 1), Some(Stop), "{tick:?}");
        bench.decide(decision(1, CleanAndReuse));
        assert_eq!(bench.flag("fastener-unfit", 1), Some(Stop), "{tick:?}");
        bench.decide(decision(1, Replace));
        assert_eq!(bench.flag("fastener-unfit", 1), None, "{tick:?}");
    }
    for tick in [Tick::Fretted, Tick::Pitted] {
        assert_eq!(
            out(A, |r| r.ticks = vec![tick]).flag("fastener-unfit", 1),
            Some(Stop)
        );
        assert_eq!(
            out(B, |r| r.ticks = vec![tick]).flag("fastener-unfit", 1),
            Some(Caution)
        );
    }
    for tick in [Tick::LockMissing, Tick::LeftHand] {
        assert_eq!(
            out(A, |r| r.ticks = vec![tick]).flag("fastener-unfit", 1),
            None
        );
    }
    let rounded = out(C, |r| r.outcome = Outcome::Rounded);
    assert_eq!(rounded.flag("fastener-unfit", 1), Some(Stop));
    let both = out(B, |r| r.ticks = vec![Tick::Bent, Tick::Pitted]);
    assert_eq!(
        both.flag("fastener-unfit", 1),
        Some(Stop),
        "the worse tick decides"
    );
}
