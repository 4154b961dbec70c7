//! The sheet as a view: order, stops, odd ones.

use crate::bench::{Bench, NOW, back, inches, sound};
use clampbook_book::command::Command;
use clampbook_book::fact::{Fact, LengthSeen, PartFound, Removed};
use clampbook_book::sheet::{Head, Scope, Sheet, sheet};
use clampbook_book::words::{
    Compared, Criticality, FindingKind, FindingSeverity, Method, Outcome, Tightness, TorqueUnit,
};

pub(crate) fn view(bench: &Bench, unit: TorqueUnit) -> Sheet {
    let scope = Scope {
        assembly: None,
        unit: Some(unit),
    };
    let head = Head {
        entry: bench.job.last,
        hash: [7; 32],
        made: NOW,
    };
    sheet(&bench.job, &scope, &bench.context(), &head)
}

fn stripped(criticality: Criticality) -> Bench {
    let mut bench = Bench::new(criticality);
    for position in 1..=4 {
        bench.take_out(sound(position));
    }
    bench
}

#[test]
fn positions_come_in_tightening_order_and_opposite_ones_follow_each_other() {
    let view = view(&stripped(Criticality::B), TorqueUnit::NewtonMetre);
    let order: Vec<u16> = view.joints[0].rows.iter().map(|row| row.position).collect();
    // Star order of four: 1 3 2 4 (common practice for flanges, ASME PCC-1).
    assert_eq!(order, [1, 3, 2, 4]);
}

#[test]
fn every_torque_says_that_it_is_computed_and_carries_its_unit() {
    for (unit, shown) in [
        (
            TorqueUnit::NewtonMetre,
            "67.3 N·m (49.7 lbf·ft) COMPUTED, NOT MAKER'S",
        ),
        (
            TorqueUnit::PoundForceFoot,
            "49.7 lbf·ft (67.3 N·m) COMPUTED, NOT MAKER'S",
        ),
        (
            TorqueUnit::PoundForceInch,
            "596 lbf·in (67.3 N·m) COMPUTED, NOT MAKER'S",
        ),
        (
            TorqueUnit::KilogramForceMetre,
            "6.87 kgf·m (67.3 N·m) COMPUTED, NOT MAKER'S",
        ),
    ] {
        let view = view(&stripped(Criticality::B), unit);
        assert_eq!(view.joints[0].rows[0].torque.to_string(), shown);
    }
}

#[test]
fn where_heat_was_used_the_step_says_what_to_keep_it_from() {
    let mut bench = stripped(Criticality::C);
    let phosgene = |bench: &Bench| {
        let view = view(bench, TorqueUnit::NewtonMetre);
        let cautions = &view.joints[0].cautions;
        cautions.iter().any(|said| said.contains("phosgene"))
    };
    assert!(!phosgene(&bench));
    bench
        .correct(
            bench.job.last,
            Some(Fact::Removed(Removed {
                methods: vec![Method::Heat],
                ..sound(4)
            })),
        )
        .expect("it was heated");
    assert!(phosgene(&bench));
}

#[test]
fn what_stops_one_hole_is_told_there_before_what_stops_the_whole_assembly() {
    let mut bench = Bench::new(Criticality::A);
    bench.take_out(sound(1)).take_out(Removed {
        outcome: Outcome::Seized,
        ..sound(2)
    });
    bench.say(Command::LogFinding(PartFound {
        assembly: bench.joint().fact.assembly.clone(),
        joint: None,
        part: "spindle".into(),
        kind: FindingKind::Wear,
        severity: FindingSeverity::Ruined,
        criticality: Some(Criticality::A),
        cause: String::new(),
        reading: String::new(),
        note: String::new(),
    }));
    let view = view(&bench, TorqueUnit::NewtonMetre);
    let told = |position: u16| {
        let rows = &view.joints[0].rows;
        let row = rows.iter().find(|row| row.position == position);
        row.expect("a row").torque.to_string()
    };
    assert_eq!(told(2), "STOP: seized");
    assert!(
        told(1).starts_with("STOP: spindle is ruined"),
        "{}",
        told(1)
    );
}

#[test]
fn a_stopped_position_says_stop_and_carries_no_torque_at_all() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(Removed {
        outcome: Outcome::Seized,
        ..sound(1)
    });
    bench.take_out(sound(2));
    let view = view(&bench, TorqueUnit::NewtonMetre);
    let row = |number| {
        let rows = &view.joints[0].rows;
        rows.iter()
            .find(|row| row.position == number)
            .expect("the row")
    };
    assert_eq!(row(1).torque.to_string(), "STOP: seized");
    assert_eq!(row(1).torque.nm(), None);
    assert!(row(2).torque.nm().is_some());
    assert_eq!(view.stops.len(), 1);
}

#[test]
fn a_joint_that_is_stopped_throughout_shows_no_number_anywhere() {
    let mut bench = Bench::with(|joint| {
        joint.criticality = Criticality::A;
        joint.computed_torque_approver.clear();
    });
    bench.take_out(sound(1));
    let view = view(&bench, TorqueUnit::NewtonMetre);
    let joint = &view.joints[0];
    assert!(
        joint
            .rows
            .iter()
            .all(|row| row.torque.is_stopped() && row.torque.nm().is_none())
    );
    assert!(joint.passes.is_empty());
    let text = format!("{:?} {:?}", joint.rows, joint.cautions);
    assert!(!text.contains("N·m") && !text.contains("kN"), "{text}");
}

#[test]
fn a_refused_purpose_says_why_and_what_instead() {
    let mut bench = Bench::with(|joint| {
        joint.purpose = "wheel-bearing".into();
        joint.target = None;
    });
    bench.take_out(Removed {
        grade: String::new(),
        ..sound(1)
    });
    let view = view(&bench, TorqueUnit::NewtonMetre);
    let row = &view.joints[0].rows[0];
    assert!(
        row.torque.to_string().starts_with("NO COMPUTED TORQUE: "),
        "{}",
        row.torque
    );
    assert!(
        row.torque.to_string().contains("end play"),
        "{}",
        row.torque
    );
    assert_eq!(row.torque.nm(), None);
}

#[test]
fn the_long_bolt_is_marked_at_its_hole() {
    let mut bench = stripped(Criticality::B);
    bench.refit(back(3, Tightness::Snug));
    bench.take_out(Removed {
        length: Some(LengthSeen::Measured(inches(1.75))),
        ..sound(3)
    });
    let view = view(&bench, TorqueUnit::NewtonMetre);
    let odd: Vec<(u16, Option<Compared>)> = view.joints[0]
        .rows
        .iter()
        .filter(|row| row.odd.is_some())
        .map(|row| (row.position, row.odd))
        .collect();
    assert_eq!(odd, [(3, Some(Compared::Longer))]);
}

#[test]
fn a_large_torque_is_brought_up_in_two_passes_and_a_small_one_in_one() {
    // US Army TM 5-3805-248-23-1: over 30 lbf·ft at 70 % and then in full.
    let view_large = view(&stripped(Criticality::B), TorqueUnit::NewtonMetre);
    let passes = &view_large.joints[0].passes;
    assert_eq!(passes.len(), 2);
    let first = passes[0].to_string();
    assert!(first.contains("47.1 N·m"), "{first}");
    // 7/16-20 grade 5 oiled: 67.3 N·m, 0.7 of it is 47.1.
    let nm = passes
        .iter()
        .map(|pass| pass.goal.nm().expect("a torque").round());
    assert_eq!(nm.collect::<Vec<_>>(), [47.0, 67.0]);
    let mut small = Bench::with(|joint| {
        if let Some(target) = &mut joint.target {
            target.thread = "1/4-20 UNC".into();
        }
    });
    small.take_out(sound(1));
    assert_eq!(
        view(&small, TorqueUnit::NewtonMetre).joints[0].passes.len(),
        1
    );
}

#[test]
fn nothing_taken_apart_makes_an_empty_sheet() {
    let bench = Bench::new(Criticality::B);
    assert!(view(&bench, TorqueUnit::NewtonMetre).joints.is_empty());
}
