//! Orders, passes, turns and back-offs as printed.

use super::{close, same};
use clampbook_engine::{
    Purpose,
    procedure::{ONE_PASS_UP_TO_NM, Plan, PlanAsk, StepKind, along_thread, by_id, plan},
    published_targets::{Target, published_targets},
    sequence::{Layout, tightening_order},
    units::{Degrees, Millimetres, NEWTON_METRES_PER_POUND_FORCE_FOOT, NewtonMetres},
};

/// Star orders, clockwise from 1: up to 12 as commonly published (ASME PCC-1 practice), 16 to 24 from memory of its table of
/// legacy orders. From 28 on that table goes on in groups and is not ours.
#[test]
pub(super) fn star_orders_are_those_published() {
    let published: [&[u16]; 9] = [
        &[1, 3, 2, 4],
        &[1, 3, 5, 2, 4],
        &[1, 4, 2, 5, 3, 6],
        &[1, 5, 3, 7, 2, 6, 4, 8],
        &[1, 6, 3, 8, 5, 10, 2, 7, 4, 9],
        &[1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12],
        &[1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16],
        &[
            1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19,
        ],
        &[
            1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20, 5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24,
        ],
    ];
    for order in published {
        let positions = u16::try_from(order.len()).unwrap();
        let ours = tightening_order(Layout::Ring { positions }).unwrap();
        same(ours.as_slice(), order, "order");
    }
}

fn planned(is_gasketed: bool, torque_nm: f64) -> Plan {
    plan(&PlanAsk {
        procedure: "",
        layout: Layout::Ring { positions: 8 },
        purpose: Purpose::Clamping,
        is_gasketed,
        torque: Some(NewtonMetres::new(torque_nm).unwrap()),
        torque_is_published: false,
        back_off_degrees: None,
        pitch: None,
    })
    .unwrap()
}

/// ASME PCC-1 as reported: 30, 70 and 100 % crosswise, then 100 % round. US Army TM 5-3805-248-23-1: above 30 lbf ft 70 %, then
/// full; up to it one pass.
#[test]
pub(super) fn passes_are_those_published() {
    let passes = |plan: &Plan| -> Vec<f64> {
        let torques = plan
            .steps
            .iter()
            .filter(|s| s.row.kind == StepKind::TorqueTo);
        torques
            .filter_map(|s| s.torque.map(NewtonMetres::get))
            .collect()
    };
    let gasketed = passes(&planned(true, 100.0));
    for (ours, published) in gasketed.iter().zip([30.0, 70.0, 100.0, 100.0]) {
        close(*ours, published, 1e-9, "PCC-1");
    }
    let staged = passes(&planned(false, 100.0));
    for (ours, published) in staged.iter().zip([70.0, 100.0]) {
        close(*ours, published, 1e-9, "Army");
    }
    let limit = ONE_PASS_UP_TO_NM / NEWTON_METRES_PER_POUND_FORCE_FOOT;
    close(limit, 30.0, 1e-9, "lbf ft");
    same(
        planned(false, 1.01 * ONE_PASS_UP_TO_NM).procedure.id,
        "staged",
        "above",
    );
    same(
        planned(false, 0.99 * ONE_PASS_UP_TO_NM).procedure.id,
        "single-pass",
        "up to it",
    );
}

/// RCSC specification: nut rotation from snug by length in diameters and by how many faces slope.
#[test]
pub(super) fn turns_of_the_nut_are_those_published() {
    for (id, degrees) in [
        ("turn-4d-square", 120.0),
        ("turn-8d-square", 180.0),
        ("turn-12d-square", 240.0),
        ("turn-4d-one-sloped", 180.0),
        ("turn-8d-one-sloped", 240.0),
        ("turn-12d-one-sloped", 300.0),
        ("turn-4d-two-sloped", 240.0),
        ("turn-8d-two-sloped", 300.0),
        ("turn-12d-two-sloped", 360.0),
    ] {
        let row = published_targets().find(|row| row.id() == id);
        let target = row.unwrap_or_else(|| panic!("no {id}")).target();
        same(target, Target::Turn(Degrees::new(degrees).unwrap()), id);
    }
}

/// TMC RP 618: a sixth of a turn at 12 threads per inch and a quarter at 18 are both 0.0139 in; end play 0.001 to 0.005 in.
#[test]
pub(super) fn a_wheel_bearing_is_backed_off_as_published() {
    for (per_inch, degrees) in [(12.0, 60.0), (18.0, 90.0)] {
        let way = along_thread(Millimetres::new(25.4 / per_inch).unwrap(), degrees);
        close(way.unwrap().get() / 25.4, 0.0139, 0.000_05, "back-off");
    }
    let bearing = by_id("taper-roller-bearing").unwrap();
    let limits = bearing.steps.iter().map(|step| step.limits);
    let end_play: Vec<&str> = limits.filter(|text| text.contains("0.001")).collect();
    same(end_play.len(), 1, "0.001 in");
    same(end_play[0].contains("0.005"), true, "0.005 in");
}
