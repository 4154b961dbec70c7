//! The sheet of a joint that a maker's publication holds for.

use crate::bench::{Bench, sound};
use crate::following::{bench, followed};
use crate::sheet::view;
use crate::shop::say;
use crate::specifications::{create, plate, revise, said, with_torque, withdraw};
use clampbook_book::fact::{Removed, SpecificationStated, SpecifiedStep};
use clampbook_book::sheet::{Pass, SheetJoint};
use clampbook_book::shop::Shop;
use clampbook_book::words::Criticality::{A, B};
use clampbook_book::words::{Outcome, TorqueUnit};

fn stripped(mut bench: Bench) -> Bench {
    for position in 1..=4 {
        bench.take_out(sound(position));
    }
    bench
}

fn shown(bench: &Bench, unit: TorqueUnit) -> SheetJoint {
    view(bench, unit).joints.remove(0)
}

fn holds(lines: &[String], words: &str) -> bool {
    lines.iter().any(|line| line.contains(words))
}

fn with(stated: SpecificationStated) -> Bench {
    let mut shop = Shop::new();
    say(&mut shop, create(stated));
    stripped(Bench::in_shop(shop, |joint| {
        joint.specification = followed(0);
    }))
}

#[test]
fn the_published_torque_stands_in_place_of_the_computed_one() {
    let bench = stripped(bench(A));
    let joint = shown(&bench, TorqueUnit::PoundForceFoot);
    let row = &joint.rows[0];
    assert_eq!(
        row.torque.to_string(),
        "55 lbf·ft (74.6 N·m) PUBLISHED, revision 1"
    );
    // 1 lbf·ft = 1.355817948 N·m, from the exact definitions of pound, foot and standard gravity.
    assert!((row.torque.nm().expect("a torque") - 55.0 * 1.355_817_948).abs() < 1e-6);
    let published = joint.published.as_ref().expect("it is published");
    assert_eq!(published.revision, 1);
    assert_eq!(
        published.lines(),
        [
            "Published: Orchard tractor workshop manual, 2nd ed., p. 41 (specifications/brake-plate, revision 1).",
            "Stated for SAE J429 5, dry.",
            "Allowed at the end: 50 lbf·ft (67.8 N·m) to 60 lbf·ft (81.3 N·m).",
        ]
    );
    assert_eq!(
        joint.passes.iter().map(Pass::to_string).collect::<Vec<_>>(),
        [
            "Pass 1 of 2 crosswise, in the order of the rows: 38.5 lbf·ft (52.2 N·m), 0.7 of the published torque.",
            "Pass 2 of 2, same order: 55 lbf·ft (74.6 N·m); then once round again.",
        ]
    );
    // The clamp load with the joint's own oil, K 0.18 (Shigley, table 8-15): 660 lbf·in / (0.18 · 0.4375 in) = 37.28 kN = 8381 lbf.
    assert!(
        holds(&joint.cautions, "aiming at 8380 lbf"),
        "{:?}",
        joint.cautions
    );
    assert!(!holds(&joint.cautions, "Computed, not the maker's"));
    let everything = format!("{joint:?}");
    assert!(!everything.contains("NOT MAKER'S"), "{everything}");
}

#[test]
fn in_another_unit_what_is_printed_stands_beside() {
    let joint = shown(&stripped(bench(B)), TorqueUnit::NewtonMetre);
    assert_eq!(
        joint.rows[0].torque.to_string(),
        "74.6 N·m (55 lbf·ft), printed as 55 lbf·ft PUBLISHED, revision 1"
    );
}

#[test]
fn a_new_revision_changes_the_sheet_and_a_withdrawn_one_leaves_it() {
    let mut bench = stripped(bench(B));
    say(&mut bench.shop, revise(with_torque("52 lbf·ft"), "\"1\""));
    let joint = shown(&bench, TorqueUnit::PoundForceFoot);
    assert_eq!(
        joint.rows[0].torque.to_string(),
        "52 lbf·ft (70.5 N·m) PUBLISHED, revision 2"
    );
    say(&mut bench.shop, withdraw("\"2\""));
    let joint = shown(&bench, TorqueUnit::PoundForceFoot);
    assert_eq!(
        joint.rows[0].torque.to_string(),
        "49.7 lbf·ft (67.3 N·m) COMPUTED, NOT MAKER'S"
    );
    assert!(joint.published.is_none());
}

#[test]
fn a_stopped_row_tells_no_published_torque_either() {
    let mut bench = bench(B);
    for position in 1..=4 {
        bench.take_out(Removed {
            outcome: Outcome::Seized,
            ..sound(position)
        });
    }
    let joint = shown(&bench, TorqueUnit::PoundForceFoot);
    assert_eq!(joint.rows[0].torque.to_string(), "STOP: seized");
    assert_eq!(joint.rows[0].torque.nm(), None);
    let everything = format!("{joint:?}");
    assert!(!everything.contains("lbf·ft"), "{everything}");
    assert!(everything.contains("p. 41"), "it can still be looked up");
}

#[test]
fn the_steps_of_a_procedure_are_shown_in_their_order() {
    let bench = with(SpecificationStated {
        steps: vec![
            SpecifiedStep::Torque(said("40 lbf·ft")),
            SpecifiedStep::TurnDegrees(90.0),
            SpecifiedStep::TurnDegrees(45.0),
        ],
        minimum: None,
        maximum: None,
        ..plate()
    });
    let joint = shown(&bench, TorqueUnit::PoundForceFoot);
    let row = &joint.rows[0];
    assert_eq!(
        row.torque.to_string(),
        "40 lbf·ft (54.2 N·m), then 90° further, then 45° further PUBLISHED, revision 1"
    );
    assert_eq!(row.torque.nm(), None, "no torque is reached at the end");
    assert_eq!(
        joint.passes.iter().map(Pass::to_string).collect::<Vec<_>>(),
        [
            "Step 1 of 3 crosswise, in the order of the rows: 40 lbf·ft (54.2 N·m).",
            "Step 2 of 3, same order: 90° further.",
            "Step 3 of 3, same order: 45° further.",
        ]
    );
    assert!(
        holds(&joint.cautions, "end in an angle"),
        "{:?}",
        joint.cautions
    );
    assert!(!holds(&joint.cautions, "Clamp load"));
}

#[test]
fn a_purpose_without_computed_torque_takes_the_published_one() {
    let mut shop = Shop::new();
    say(
        &mut shop,
        create(SpecificationStated {
            purpose: "flare-fitting".into(),
            ..with_torque("12 lbf·ft")
        }),
    );
    let bench = stripped(Bench::in_shop(shop, |joint| {
        joint.specification = followed(0);
        joint.purpose = "flare-fitting".into();
        joint.target = None;
    }));
    let joint = shown(&bench, TorqueUnit::PoundForceFoot);
    // Below 20 lbf·ft inches stand in brackets.
    assert_eq!(
        joint.rows[0].torque.to_string(),
        "12 lbf·ft (144 lbf·in) PUBLISHED, revision 1"
    );
}
