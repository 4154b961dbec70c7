//! Procedures laid over joints.

use clampbook_engine::{
    FaultReason, Purpose,
    procedure::{Plan, PlanAsk, StepKind, Values, along_thread, by_id, for_purpose, plan},
    sequence::{Layout, loosening_order, tightening_order},
    units::{Millimetres, NewtonMetres},
};

fn ask(layout: Layout) -> PlanAsk<'static> {
    PlanAsk {
        procedure: "",
        layout,
        purpose: Purpose::Clamping,
        is_gasketed: false,
        torque: None,
        torque_is_published: false,
        back_off_degrees: None,
        pitch: None,
    }
}

fn nm(value: f64) -> Option<NewtonMetres> {
    Some(NewtonMetres::new(value).unwrap())
}

fn torques(plan: &Plan) -> Vec<f64> {
    let torques = plan.steps.iter().filter_map(|s| s.torque);
    torques.map(|t| (t.get() * 1e6).round() / 1e6).collect()
}

const RING: Layout = Layout::Ring { positions: 8 };

#[test]
fn a_gasketed_ring_is_pulled_in_thirds_and_then_round() {
    let asked = PlanAsk {
        is_gasketed: true,
        torque: nm(100.0),
        ..ask(RING)
    };
    let plan = plan(&asked).unwrap();
    assert_eq!(plan.procedure.id, "ring-gasketed");
    assert_eq!(torques(&plan), [30.0, 70.0, 100.0, 100.0, 100.0]);
    let passes: Vec<_> = plan.steps.iter().filter(|s| s.torque.is_some()).collect();
    assert_eq!(passes[0].positions, [1, 5, 3, 7, 2, 6, 4, 8]);
    assert_eq!(passes[3].positions, [1, 2, 3, 4, 5, 6, 7, 8]);
}

/// US Army TM 5-3805-248-23-1: 70 % then full above 30 lbf ft (40.675 N·m).
#[test]
fn above_thirty_pound_feet_there_are_two_passes() {
    let of = |layout, torque, is_gasketed| {
        let asked = PlanAsk {
            torque: nm(torque),
            is_gasketed,
            ..ask(layout)
        };
        let plan = plan(&asked).unwrap();
        (plan.procedure.id, torques(&plan))
    };
    let grid = Layout::Grid {
        rows: 2,
        columns: 5,
    };
    assert_eq!(of(RING, 40.7, false), ("staged", vec![28.49, 40.7]));
    assert_eq!(of(RING, 40.6, false), ("single-pass", vec![40.6]));
    assert_eq!(of(grid, 100.0, true).0, "staged");
    assert_eq!(of(grid, 20.0, true).0, "staged");
    assert_eq!(of(Layout::Single, 100.0, false).0, "single-pass");
    assert_eq!(plan(&ask(RING)).unwrap().procedure.id, "staged");
}

#[test]
fn loosening_goes_from_the_outside_to_the_centre() {
    let layout = Layout::Line { positions: 5 };
    let asked = PlanAsk {
        procedure: "loosening",
        ..ask(layout)
    };
    let plan = plan(&asked).unwrap();
    let stages: Vec<_> = plan
        .steps
        .iter()
        .filter(|s| s.row.kind == StepKind::Loosen)
        .collect();
    assert_eq!(stages.len(), 3);
    for stage in stages {
        assert_eq!(stage.positions, [5, 1, 4, 2, 3]);
        assert_eq!(stage.torque, None);
    }
}

#[test]
fn every_purpose_without_a_number_has_a_procedure() {
    for purpose in Purpose::ALL {
        assert_eq!(
            for_purpose(purpose).is_some(),
            purpose.refusal().is_some(),
            "{purpose}"
        );
    }
}

#[test]
fn a_computed_torque_never_enters_where_only_a_published_one_may() {
    for purpose in Purpose::ALL {
        let computed = PlanAsk {
            purpose,
            torque: nm(50.0),
            ..ask(RING)
        };
        let outcome = plan(&computed);
        if purpose == Purpose::Clamping {
            assert!(outcome.is_ok());
            continue;
        }
        let faults = outcome.unwrap_err();
        assert_eq!(faults[0].field, "torque");
        assert!(matches!(
            faults[0].reason,
            FaultReason::PurposeRefused { .. }
        ));
        let published = PlanAsk {
            torque_is_published: true,
            ..computed
        };
        let takes_one = for_purpose(purpose).unwrap().values == Values::Published;
        assert_eq!(plan(&published).is_ok(), takes_one, "{purpose}");
    }
}

#[test]
fn a_bearing_takes_its_makers_values_only() {
    let bearing = PlanAsk {
        purpose: Purpose::WheelBearing,
        back_off_degrees: Some(60.0),
        pitch: Some(Millimetres::new(25.4 / 12.0).unwrap()),
        ..ask(Layout::Single)
    };
    let plan = plan(&bearing).unwrap();
    assert_eq!(torques(&plan), [0.0; 0]);
    let back_off = plan
        .steps
        .iter()
        .find(|s| s.row.kind == StepKind::BackOffBy);
    let back_off = back_off.unwrap();
    assert_eq!(back_off.degrees, Some(60.0));
    // TMC RP 618: a sixth of a turn at 12 threads per inch is 0.0139 in.
    assert!((back_off.along_thread.unwrap().get() / 25.4 - 0.0139).abs() < 0.00005);
    let measured: Vec<_> = plan
        .steps
        .iter()
        .filter(|s| s.row.kind == StepKind::Measure)
        .collect();
    assert_eq!(measured.len(), 2);
    assert!(
        measured
            .iter()
            .all(|s| !s.row.instrument.is_empty() && !s.row.limits.is_empty())
    );
}

/// A slot of a castellated nut is 60°; the way per slot at 20, 28, 24 and 16 threads per inch (computed from the pitch).
#[test]
fn a_slot_moves_a_sixth_of_the_pitch() {
    for (per_inch, way) in [
        (20.0, 0.00833),
        (28.0, 0.00595),
        (24.0, 0.00694),
        (16.0, 0.01042),
    ] {
        let pitch = Millimetres::new(25.4 / per_inch).unwrap();
        let moved = along_thread(pitch, 60.0).unwrap().get() / 25.4;
        assert!((moved - way).abs() <= 0.000_005, "{per_inch}: {moved}");
    }
}

#[test]
fn wrong_values_are_all_said() {
    let wrong = PlanAsk {
        procedure: "by-feel",
        back_off_degrees: Some(f64::NAN),
        ..ask(Layout::Ring { positions: 501 })
    };
    let faults = plan(&wrong).unwrap_err();
    let fields: Vec<_> = faults.iter().map(|f| f.field).collect();
    assert_eq!(fields, ["layout", "procedure", "back_off_degrees"]);
    assert!(faults[1].reason.to_string().contains("ring-gasketed"));
    for angle in [0.0, -60.0, 1081.0, f64::INFINITY] {
        assert!(along_thread(Millimetres::new(1.5).unwrap(), angle).is_err());
    }
}

#[test]
fn every_template_can_be_laid_over_any_joint() {
    let ids = clampbook_data::PROCEDURES.iter().map(|p| p.id);
    for id in ids {
        assert!(by_id(id).is_some());
        for layout in [Layout::Single, RING, Layout::Line { positions: 7 }] {
            let asked = PlanAsk {
                procedure: id,
                ..ask(layout)
            };
            let plan = plan(&asked).unwrap();
            assert_eq!(plan.procedure.id, id);
            assert_eq!(plan.steps.len(), plan.procedure.steps.len());
        }
    }
}

/// Rings of 3 to 36 (all that flanges have): a permutation; even ones in opposite pairs, neighbours never follow each
/// other from 5 upwards; each half of the order is spread over the whole ring.
#[test]
fn rings_of_three_to_thirty_six_are_spread() {
    for n in 3..=36_u16 {
        let order = tightening_order(Layout::Ring { positions: n }).unwrap();
        let mut sorted = order.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (1..=n).collect::<Vec<_>>());
        let apart = |a: u16, b: u16| a.abs_diff(b).min(n - a.abs_diff(b));
        if n.is_multiple_of(2) {
            for pair in order.chunks_exact(2) {
                assert_eq!(apart(pair[0], pair[1]), n / 2, "{n}: {order:?}");
            }
        }
        if n >= 5 {
            for pair in order.windows(2) {
                assert!(apart(pair[0], pair[1]) > 1, "{n}: {order:?}");
            }
        }
        if n >= 6 {
            let mut half: Vec<u16> = order[..usize::from(n / 2)].to_vec();
            half.sort_unstable();
            let gaps = half.windows(2).map(|w| w[1] - w[0]);
            let widest = gaps.chain([half[0] + n - half[half.len() - 1]]).max();
            assert!(widest < Some(n / 2 + 1), "{n}: {order:?}");
        }
        let mut loosening = loosening_order(Layout::Ring { positions: n }).unwrap();
        loosening.reverse();
        assert_eq!(loosening, order);
    }
}

/// From the centre outwards, so from the outside to the centre when loosening.
#[test]
fn grids_and_lines_go_outwards_and_loosen_inwards() {
    for rows in 1..=5_u16 {
        for columns in 1..=9_u16 {
            let layout = Layout::Grid { rows, columns };
            let distance = |p: u16| {
                let (r, c) = ((p - 1) / columns, (p - 1) % columns);
                let off = |at: u16, n: u16| (2 * i32::from(at) + 1 - i32::from(n)).pow(2);
                off(r, rows) + off(c, columns)
            };
            assert!(
                tightening_order(layout)
                    .unwrap()
                    .is_sorted_by_key(|p| distance(*p))
            );
            assert!(
                loosening_order(layout)
                    .unwrap()
                    .is_sorted_by_key(|p| -distance(*p))
            );
        }
    }
}
