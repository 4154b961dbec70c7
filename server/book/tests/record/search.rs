//! Searching one job.

use crate::bench::{Bench, decision, new_bolt, sound};
use clampbook_book::fact::{Decided, FastenerSpec, Removed};
use clampbook_book::search::{Wanted, hits};
use clampbook_book::words::{Criticality, DecisionKind, Outcome};

fn found(bench: &Bench, wanted: Wanted) -> Vec<u16> {
    let hits = hits(&bench.job, &wanted, &bench.context());
    hits.into_iter().map(|hit| hit.position).collect()
}

fn thread(thread: &str) -> Wanted {
    Wanted {
        thread: thread.into(),
        ..Wanted::default()
    }
}

#[test]
fn a_hole_has_the_thread_of_what_goes_in_else_of_what_came_out_else_of_its_joint() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(Removed {
        thread: "7/16-14".into(),
        ..sound(1)
    });
    bench.take_out(sound(2)).decide(Decided {
        replacement: Some(FastenerSpec {
            thread: "1/2-13".into(),
            ..new_bolt()
        }),
        ..decision(2, DecisionKind::Replace)
    });
    assert_eq!(found(&bench, thread("7/16-20 UNF-2A")), [3, 4]);
    assert_eq!(found(&bench, thread("7/16-14 UNC")), [1]);
    assert_eq!(found(&bench, thread("1/2-13")), [2]);
    assert_eq!(found(&bench, thread("nonsense")), [0_u16; 0]);
}

#[test]
fn all_that_is_said_must_hold() {
    let mut bench = Bench::new(Criticality::B);
    for (position, outcome, kept_in) in [
        (1, Outcome::Seized, "Bag 1"),
        (2, Outcome::Seized, "bag 2"),
        (3, Outcome::Normal, "bag 1"),
    ] {
        bench.take_out(Removed {
            outcome,
            kept_in: kept_in.into(),
            ..sound(position)
        });
    }
    let forced = Wanted {
        rule: "forced-out".into(),
        ..Wanted::default()
    };
    let bag = Wanted {
        kept_in: "BAG 1".into(),
        ..Wanted::default()
    };
    assert_eq!(found(&bench, forced.clone()), [1, 2]);
    assert_eq!(found(&bench, bag.clone()), [1, 3]);
    let both = Wanted {
        kept_in: "bag 1".into(),
        ..forced
    };
    assert_eq!(found(&bench, both), [1]);
    let elsewhere = Wanted {
        machine: "press".into(),
        ..bag
    };
    assert_eq!(found(&bench, elsewhere), [0_u16; 0]);
    let machine = Wanted {
        machine: "orchard".into(),
        ..Wanted::default()
    };
    assert_eq!(
        found(&bench, machine),
        [0],
        "a machine alone is its one assembly"
    );
}
