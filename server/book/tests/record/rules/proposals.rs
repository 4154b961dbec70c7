//! What the rules propose to decide.

use crate::bench::{Bench, decision, new_bolt, sound};
use clampbook_book::fact::{Decided, LengthSeen, Removed};
use clampbook_book::rules;
use clampbook_book::words::{
    Compared, Criticality, DecisionKind, HoldReason, HoleCheck, Method, Outcome,
};

/// What is proposed for a position, by the rules that propose something there.
fn proposed(bench: &Bench, position: u16) -> Vec<(&'static str, DecisionKind, Option<HoldReason>)> {
    rules::joint_flags(bench.joint(), &bench.context(), bench.unit())
        .iter()
        .filter(|flag| flag.position == position)
        .filter_map(|flag| rules::proposal(flag).map(|(what, waits)| (flag.rule, what, waits)))
        .collect()
}

#[test]
fn what_was_forced_out_or_heated_is_to_be_replaced_and_a_person_decides() {
    let mut bench = Bench::new(Criticality::A);
    bench.take_out(Removed {
        outcome: Outcome::Seized,
        methods: vec![Method::Heat, Method::Hammer],
        ..sound(1)
    });
    assert_eq!(
        proposed(&bench, 1),
        [
            ("forced-out", DecisionKind::Replace, None),
            ("heated", DecisionKind::Replace, None),
        ]
    );
    bench.decide(Decided {
        replacement: Some(new_bolt()),
        hole_check: Some(HoleCheck::RunsInByHand),
        ..decision(1, DecisionKind::Replace)
    });
    assert_eq!(proposed(&bench, 1), []);
}

#[test]
fn what_is_not_known_is_to_be_held_until_it_is() {
    let mut bench = Bench::new(Criticality::A);
    for position in 1..=3 {
        bench.take_out(sound(position));
    }
    bench.take_out(Removed {
        grade: String::new(),
        head_marking: String::new(),
        length: Some(LengthSeen::Compared(Compared::Longer)),
        ..sound(4)
    });
    let held = |waits| (DecisionKind::Hold, Some(waits));
    let found = proposed(&bench, 4);
    let of = |rule: &str| {
        let one = found.iter().find(|(id, _, _)| *id == rule);
        one.map(|(_, what, waits)| (*what, *waits))
    };
    assert_eq!(of("grade-unknown"), Some(held(HoldReason::Hardness)));
    assert_eq!(of("odd-length"), Some(held(HoldReason::Measuring)));
    assert_eq!(found.len(), 2, "{found:?}");
}

#[test]
fn a_sound_bolt_is_not_decided_on_for_anybody() {
    let mut bench = Bench::new(Criticality::A);
    bench.take_out(sound(1));
    assert!(bench.flag("not-refitted", 1).is_some());
    assert_eq!(proposed(&bench, 1), []);
}
