//! Castellated nuts: a 1/2-20 of SAE J429 grade 5, dry, reckoned by hand.
//!
//! 150 mm of cast aluminium (70 GPa) under a bolt of 175 mm with 31.75 mm of thread: bolt 151.2, layers 538.3, together
//! 118.07 kN/mm (Shigley, 9th ed., equations 8-17 and 8-20). A turn of 1.27 mm and K D = 2.54 mm make that 1.0580 N·m a
//! degree, a slot of 60° 63.48 N·m or 24.99 kN. Yield: 92 ksi on 0.1599 in², 65.4 kN, reached at 166 N·m.

use super::exactly;
use clampbook_engine::{
    Ask, Catalogue, Severity,
    joint::{
        CastleAnswer, CastleAsk, GripLayer, GripStack, StretchAsk, Verdict, align,
        castle::CastleFaults, stretch,
    },
    stretch::castle::slot_step,
};
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fn stack(metal: &str, thickness_mm: f64, bolt_length_mm: f64) -> GripStack {
    GripStack {
        layers: vec![GripLayer {
            metal: metal.into(),
            thickness_mm,
            outer_diameter_mm: None,
        }],
        bolt_length_mm: Some(bolt_length_mm),
        thread_length_mm: Some(31.75),
        ..GripStack::default()
    }
}

static SOFT: LazyLock<GripStack> = LazyLock::new(|| stack("cast aluminium", 150.0, 175.0));

fn soft<'a>(minimum_torque_nm: f64, maximum_torque_nm: f64) -> CastleAsk<'a> {
    CastleAsk {
        stretch: StretchAsk {
            torque: Ask {
                thread: "1/2-20",
                grade: "SAE J429 5",
                lubrication: "dry",
                ..Ask::default()
            },
            stack: &SOFT,
            ..StretchAsk::default()
        },
        minimum_torque_nm,
        maximum_torque_nm: Some(maximum_torque_nm),
        ..CastleAsk::default()
    }
}

fn answer(ask: &CastleAsk<'_>) -> CastleAnswer<'static> {
    align(&CATALOGUE.resolve_castle(ask).unwrap())
}

fn measured(minimum: f64, most: f64, degrees: f64) -> CastleAnswer<'static> {
    answer(&CastleAsk {
        to_slot_degrees: Some(degrees),
        prevailing_torque_nm: Some(5.0),
        ..soft(minimum, most)
    })
}

#[track_caller]
fn close(ours: f64, expected: f64) {
    assert!(
        (ours / expected - 1.0).abs() < 0.000_5,
        "{ours} is not {expected}"
    );
}

#[test]
fn a_slot_costs_torque_and_clamp_load() {
    let ours = answer(&soft(80.0, 110.0));
    assert_eq!(ours.step.get(), 60.0);
    close(ours.step_mm, 1.27 / 6.0);
    close(ours.window.unwrap().get(), 30.0 / 1.0580);
    close(ours.load_per_step.unwrap().get(), 24_990.0);
    let Verdict::Advance { torque_nm } = measured(80.0, 110.0, 20.0).verdict else {
        panic!("not advanced");
    };
    close(torque_nm.unwrap(), 80.0 + 20.0 * 1.0580 + 5.0);
}

/// In 40 mm of steel a slot adds 74.4 kN, which is beyond yield: no such load is told.
#[test]
fn a_stiff_joint_yields_before_the_next_slot() {
    let mut ask = soft(80.0, 110.0);
    let stiff = stack("mild steel", 40.0, 65.0);
    ask.stretch.stack = &stiff;
    let ours = answer(&ask);
    assert_eq!(ours.load_per_step, None);
    // 3.1512 N·m a degree.
    close(ours.window.unwrap().get(), 30.0 / 3.1512);
    assert_eq!(ours.verdict, Verdict::Measure);
}

/// A whole slot fits into the range (60° or more), or the angle has to be measured first.
#[test]
fn an_unmeasured_slot_is_advanced_to_only_where_one_must_come() {
    let unmeasured = |minimum, most| answer(&soft(minimum, most)).verdict;
    assert_eq!(unmeasured(80.0, 110.0), Verdict::Measure);
    let advance = Verdict::Advance { torque_nm: None };
    assert_eq!(unmeasured(80.0, 150.0), advance);
    // 110 and a slot of 63.5 N·m are beyond yield.
    assert_eq!(unmeasured(110.0, 180.0), Verdict::Measure);
}

#[test]
fn a_slot_beyond_the_range_changes_the_washer() {
    let ours = measured(80.0, 110.0, 40.0);
    assert_eq!(ours.verdict.id(), "change-washer");
    let [found] = &ours.remarks.findings[..] else {
        panic!("{:?}", ours.remarks.findings);
    };
    assert_eq!(found.severity, Severity::Stop);
    close(found.share, 40.0 * 1.0580 / 30.0);
}

/// The range was published for another lubrication where it leads beyond yield.
#[test]
fn a_slot_inside_the_range_but_beyond_yield_is_refused() {
    let why = |ours: CastleAnswer<'_>| match ours.verdict {
        Verdict::Refuse { why, .. } => why,
        _ => "",
    };
    // 100 + 63.48 N·m hold, 110 + 63.48 do not.
    assert_eq!(why(measured(100.0, 300.0, 60.0)), "");
    let inside = "The next slot is inside the published range";
    assert!(why(measured(110.0, 300.0, 60.0)).starts_with(inside));
    let minimum = "In this lubrication the published minimum torque";
    assert!(why(measured(170.0, 300.0, 60.0)).starts_with(minimum));
}

#[test]
fn a_torque_exactly_at_yield_is_not_beyond_it() {
    let ask = soft(80.0, 300.0).stretch;
    let joint = stretch(&CATALOGUE.resolve_stretch(&ask).unwrap()).answer;
    let per_newton = joint.torque.get() / joint.clamp_load.get();
    let yields = joint.yield_load.unwrap().get();
    let minimum = exactly(yields * per_newton, yields, |nm| nm / per_newton);
    assert_eq!(measured(minimum, 300.0, 0.0).verdict.id(), "advance");
    let above = minimum * (1.0 + 1e-9);
    assert_eq!(measured(above, 300.0, 0.0).verdict.id(), "refuse");
}

#[test]
fn slots_holes_and_a_range_that_cannot_be_are_refused() {
    let named = |ask: &CastleAsk<'_>| match CATALOGUE.resolve_castle(ask) {
        Ok(_) => vec![],
        Err(CastleFaults { joint, nut }) => {
            assert_eq!((joint.torque, joint.stack), (vec![], vec![]));
            nut.iter().map(|f| f.field).collect()
        }
    };
    let good = soft(80.0, 110.0);
    for slots in [4, 6, 8, 10, 12] {
        let slots = Some(slots);
        assert_eq!(named(&CastleAsk { slots, ..good }), [""; 0]);
    }
    for slots in [0, 5, 7, 14] {
        let slots = Some(slots);
        assert_eq!(named(&CastleAsk { slots, ..good }), ["slots"]);
    }
    for (holes, faults) in [(1, &[][..]), (2, &[]), (0, &["holes"]), (3, &["holes"])] {
        let holes = Some(holes);
        assert_eq!(named(&CastleAsk { holes, ..good }), faults);
    }
    assert_eq!(named(&soft(80.0, 79.9)), ["maximum_torque_nm"]);
    assert_eq!(named(&soft(80.0, 80.0)), [""; 0]);
}

/// Counted out on the circle: the second hole, a quarter turn away, may meet a slot sooner.
#[test]
fn two_holes_halve_the_step_of_some_nuts() {
    for (slots, one, two) in [
        (4, 90.0, 90.0),
        (6, 60.0, 30.0),
        (8, 45.0, 45.0),
        (10, 36.0, 18.0),
        (12, 30.0, 30.0),
        // No such nut; its slots come up after 54° and 18° in turn.
        (5, 72.0, 54.0),
        (3, 120.0, 90.0),
    ] {
        assert_eq!(slot_step(slots, 1).get(), one, "{slots}");
        assert_eq!(slot_step(slots, 2).get(), two, "{slots}");
    }
}
