//! Adapters, choice of wrenches, lock nuts, and torques restated, against what is printed.

use super::{close, lbf, rows, same};
use clampbook_engine::{
    Catalogue,
    lock_nut::{LockNutKind, UsedNut},
    published::{implied_clamp_load, restated},
    quantity::Torque,
    units::{
        MILLIMETRES_PER_INCH, Millimetres, NEWTON_METRES_PER_POUND_FORCE_FOOT,
        NEWTON_METRES_PER_POUND_FORCE_INCH, NewtonMetres, NutFactor,
    },
    wrench::{Adapter, Calibration, Wrench, choose, setting},
};
use std::collections::BTreeMap;

fn inches(value: f64) -> Millimetres {
    Millimetres::new(value * MILLIMETRES_PER_INCH).unwrap()
}

#[test]
pub(super) fn adapters_are_set_as_printed() {
    let published = rows(include_str!("adapters.csv"));
    assert_eq!(published.len(), 7);
    for row in &published {
        let adapter = Adapter::new(
            inches(row.number("wrench_length")),
            inches(row.number("adapter_length")),
            row.number("angle_degrees"),
        );
        let wanted = NewtonMetres::new(row.number("wanted")).unwrap();
        let set = setting(wanted, None, Some(&adapter.unwrap())).unwrap();
        let half_digit = row.half_last_digit("setting");
        close(set.get(), row.number("setting"), half_digit, "setting");
    }
}

/// In the middle of each range that the manual gives a wrench, ours chooses the same one of all six.
#[test]
pub(super) fn wrenches_are_chosen_as_printed() {
    let published = rows(include_str!("wrench_selection.csv"));
    let torque = |text: &str| Torque::parse(text).unwrap().torque;
    let wrenches: Vec<Wrench> = published
        .iter()
        .map(|row| Wrench {
            minimum: None,
            maximum: torque(row.text("wrench")),
            graduation: NewtonMetres::new(torque(row.text("wrench")).get() / 150.0).unwrap(),
            stated_deviation: None,
            calibration: Calibration::InDate,
        })
        .collect();
    for (index, row) in published.iter().enumerate() {
        let middle = f64::midpoint(row.number("low"), row.number("high"));
        let wanted = torque(&format!("{middle} {}", row.text("unit")));
        same(
            choose(&wrenches, wanted),
            Some(index),
            &format!("{wanted:?}"),
        );
    }
}

#[test]
pub(super) fn a_used_lock_nut_is_judged_by_the_printed_minimum() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("lock_nuts.csv"));
    assert_eq!(published.len(), 24);
    for row in &published {
        let thread = catalogue.thread(row.text("thread")).unwrap();
        let minimum = row.number("minimum_lbf_in");
        let kind = match row.text("nut") {
            "all-metal" => LockNutKind::AllMetal,
            "insert" => LockNutKind::Insert,
            _ => LockNutKind::Any,
        };
        let judged = |lbf_in: f64| {
            let measured = NewtonMetres::new(lbf_in * NEWTON_METRES_PER_POUND_FORCE_INCH).unwrap();
            let used = UsedNut::judge(thread, kind, measured);
            let wanted = used
                .minimum
                .iter()
                .find(|l| l.row.minimum_lbf_in == minimum);
            wanted
                .unwrap_or_else(|| panic!("no row of {minimum}"))
                .is_reached
        };
        let reached = (judged(minimum * 1.001), judged(minimum - 0.5));
        same(reached, (true, false), row.text("thread"));
    }
}

/// One table prints both a plain (K 0.20) and a plated column (K 0.15) for the same clamp load: each plated torque is
/// the plain one restated. Both are rounded to a whole lbf ft, the plain one before it is restated.
#[test]
pub(super) fn plated_torques_are_the_plain_ones_restated() {
    let published = rows(include_str!("sae_5_and_8.csv"));
    let mut by_joint: BTreeMap<(&str, &str), Vec<(f64, f64)>> = BTreeMap::new();
    for row in &published {
        let key = (row.text("thread"), row.text("grade"));
        let value = (row.number("nut_factor"), row.number("torque_lbf_ft"));
        by_joint.entry(key).or_default().push(value);
    }
    let mut pairs = 0;
    for ((thread, grade), mut values) in by_joint {
        values.sort_by(|a, b| a.0.total_cmp(&b.0));
        let [(k2, plated), (k1, plain)] = values[..] else {
            continue;
        };
        let factor = |k| NutFactor::new(k).unwrap();
        let t1 = NewtonMetres::new(plain).unwrap();
        let ours = restated(t1, factor(k1), factor(k2)).unwrap();
        close(
            ours.get(),
            plated,
            0.5 + 0.5 * k2 / k1,
            &format!("{thread} {grade}"),
        );
        pairs += 1;
    }
    assert_eq!(pairs, 40);
}

/// Published AN6 example: both torques of 3/8-24 imply the 5788 lbf it states.
#[test]
pub(super) fn both_torques_of_the_an6_example_imply_its_clamp_load() {
    let d = inches(0.375);
    for (torque, k) in [(28.9, 0.160), (19.9, 0.110)] {
        let t = NewtonMetres::new(torque * NEWTON_METRES_PER_POUND_FORCE_FOOT).unwrap();
        let f = implied_clamp_load(t, NutFactor::new(k).unwrap(), d);
        close(lbf(f.get()), 5788.0, 5788.0 * 0.05 / torque, "clamp load");
    }
}
