//! Which part of a joint gives way first: an M10 of class 8.8, reckoned by hand.
//!
//! ISO 965-1, M10 6g/6H at minimum material: major diameter 9.732, pitch diameters 8.862 and 9.206, minor
//! diameter 8.676 mm. FED-STD-H28/2B: 15.58 mm² of the bolt's thread and 21.48 mm² of the hole's shear per mm.
//! ISO 898-1: 58.0 mm², 580 MPa of proof and 800 MPa of tensile strength: 33.63 kN, 46.39 kN, and 25.23 kN at
//! three quarters of proof. Oiled, the maximum clamp load is 1.25 of that, 31.53 kN (NASA TM-106943).
//! Metals as VDI 2230, table A9, has them (from memory): 110 MPa of shear in cast aluminium, 650 in alloy steel.

use super::exactly;
use clampbook_engine::{
    Ask, Catalogue, Severity,
    joint::{GripLayer, GripStack, JointAsk, JointCheck, TappedHole, check_joint},
    strength::limits::Fit,
};
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

const BOLT_AREA: f64 = 15.58;
const HOLE_AREA: f64 = 21.48;
const AT_PROOF_SHARE: f64 = 25_225.0;
const GREATEST: f64 = 31_532.0;
const BREAKING: f64 = 46_392.0;

pub(super) fn layer(metal: &str, thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: metal.into(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

pub(super) fn into(metal: &str, full_thread_mm: f64) -> Option<TappedHole> {
    Some(TappedHole {
        metal: metal.into(),
        full_thread_mm,
        blind: false,
        shear_mpa: None,
        insert: false,
    })
}

pub(super) fn m10<'a>() -> Ask<'a> {
    Ask {
        thread: "M10",
        grade: "8.8",
        lubrication: "oiled",
        ..Ask::default()
    }
}

pub(super) fn check(torque: Ask<'_>, stack: GripStack) -> JointCheck<'static> {
    let ask = JointAsk {
        torque,
        stack: &stack,
        ..JointAsk::default()
    };
    check_joint(&CATALOGUE.resolve_joint(&ask).unwrap())
}

/// Ten millimetres of mild steel, bolted into a hole that is engaged as deep as its full thread.
fn engaged(metal: &str, depth: f64, clamp_load_n: Option<f64>) -> JointCheck<'static> {
    let torque = Ask {
        clamp_load_n,
        ..m10()
    };
    let stack = GripStack {
        layers: vec![layer("mild steel", 10.0)],
        tapped: into(metal, depth),
        bolt_length_mm: Some(60.0),
        thread_length_mm: Some(60.0),
        ..GripStack::default()
    };
    check(torque, stack)
}

fn nut_of(height: f64, clamp_load_n: Option<f64>) -> JointCheck<'static> {
    let torque = Ask {
        clamp_load_n,
        ..m10()
    };
    let stack = GripStack {
        layers: vec![layer("alloy steel", 10.0)],
        nut_height_mm: Some(height),
        ..GripStack::default()
    };
    check(torque, stack)
}

fn capacity(check: &JointCheck<'_>, id: &str) -> f64 {
    let partner = check.partners.iter().find(|p| p.id == id);
    partner.unwrap().capacity.get()
}

/// What was found about threads and engagement.
fn threads(check: &JointCheck<'_>) -> Vec<(&'static str, Severity, f64)> {
    (check.remarks.findings.iter())
        .filter(|f| f.id.contains("thread") || f.id.contains("engagement"))
        .map(|f| (f.id, f.severity, f.share))
        .collect()
}

#[track_caller]
pub(super) fn close(ours: f64, expected: f64) {
    assert!(
        (ours / expected - 1.0).abs() < 0.000_5,
        "{ours} is not {expected}"
    );
}

#[test]
fn what_each_part_bears() {
    let plain = nut_of(8.4, None);
    close(plain.engagement.external_area_per_mm, BOLT_AREA);
    close(plain.engagement.internal_area_per_mm, HOLE_AREA);
    let ids: Vec<_> = plain.partners.iter().map(|p| p.id).collect();
    assert_eq!(ids, ["bolt-proof", "bolt-thread"]);
    close(capacity(&plain, "bolt-proof"), 33_634.0);
    close(capacity(&plain, "bolt-thread"), 400.0 * BOLT_AREA * 8.4);
    let soft = engaged("cast aluminium", 10.0, None);
    let ids: Vec<_> = soft.partners.iter().map(|p| p.id).collect();
    assert_eq!(ids, ["tapped-thread", "bolt-proof", "bolt-thread"]);
    close(capacity(&soft, "tapped-thread"), 110.0 * HOLE_AREA * 10.0);
    close(capacity(&soft, "bolt-thread"), 400.0 * BOLT_AREA * 10.0);
}

/// The weaker of both threads decides; cast iron needs 1.25 d by rule of thumb, a nut no rule.
#[test]
fn how_much_engagement_is_wanted() {
    let by_bolt = BREAKING / (400.0 * BOLT_AREA);
    let nut = nut_of(8.4, None).engagement;
    close(nut.by_strength_mm, by_bolt);
    assert_eq!(nut.by_trade_mm, None);
    assert_eq!(nut.available_mm, Some(8.4));
    close(nut.equal_strength_mm, 8.18);
    let hard = engaged("alloy steel", 10.0, None).engagement;
    close(hard.by_strength_mm, by_bolt);
    assert_eq!(hard.by_trade_mm, Some(10.0));
    let soft = engaged("cast aluminium", 10.0, None).engagement;
    close(soft.by_strength_mm, BREAKING / (110.0 * HOLE_AREA));
    assert_eq!(soft.by_trade_mm, Some(20.0));
    assert_eq!(soft.available_mm, Some(10.0));
    let iron = engaged("grey cast iron", 10.0, None).engagement;
    assert_eq!(iron.by_trade_mm, Some(12.5));
}

#[test]
fn a_tapped_thread_strips_or_may_strip() {
    let tapped = |depth| {
        let check = engaged("cast aluminium", depth, None);
        let found = threads(&check).first().copied();
        found.filter(|f| f.0.starts_with("tapped"))
    };
    let (id, severity, share) = tapped(10.0).unwrap();
    assert_eq!((id, severity), ("tapped-thread-strips", Severity::Stop));
    close(share, AT_PROOF_SHARE / (110.0 * HOLE_AREA * 10.0));
    let (id, severity, share) = tapped(11.0).unwrap();
    let may = ("tapped-thread-may-strip", Severity::Caution);
    assert_eq!((id, severity), may);
    close(share, GREATEST / (110.0 * HOLE_AREA * 11.0));
    assert_eq!(tapped(14.0), None);
}

#[test]
fn a_bolts_own_thread_strips_or_may_strip() {
    let check = nut_of(4.0, None);
    let [(id, severity, share)] = threads(&check)[..] else {
        panic!("{:?}", check.remarks.findings);
    };
    assert_eq!((id, severity), ("bolt-thread-strips", Severity::Stop));
    close(share, AT_PROOF_SHARE / (400.0 * BOLT_AREA * 4.0));
    let check = nut_of(5.0, None);
    let [(id, severity, share)] = threads(&check)[..] else {
        panic!("{:?}", check.remarks.findings);
    };
    assert_eq!((id, severity), ("bolt-thread-may-strip", Severity::Caution));
    close(share, GREATEST / (400.0 * BOLT_AREA * 5.0));
    assert_eq!(threads(&nut_of(5.2, None)), []);
}

/// A load exactly at what a thread bears does not strip it.
#[test]
fn threads_bear_their_capacity() {
    let bears = capacity(&nut_of(5.5, None), "bolt-thread");
    let ids: Vec<_> = threads(&nut_of(5.5, Some(bears)))
        .iter()
        .map(|f| f.0)
        .collect();
    assert_eq!(ids, ["bolt-thread-may-strip"]);
    let load = exactly(bears / 1.25, bears, |load| {
        nut_of(5.5, Some(load)).answer.scatter.maximum.get()
    });
    assert_eq!(threads(&nut_of(5.5, Some(load))), []);
}

/// Where nothing is engaged any load is too much; that is told once for each thread, as twice too much.
#[test]
fn a_bolt_that_does_not_reach_the_thread_strips_it() {
    let stack = GripStack {
        layers: vec![layer("mild steel", 10.0)],
        tapped: into("cast aluminium", 20.0),
        bolt_length_mm: Some(10.0),
        ..GripStack::default()
    };
    let check = check(m10(), stack);
    assert_eq!(check.engagement.available_mm, Some(0.0));
    let stop = |id| (id, Severity::Stop, 2.0);
    assert_eq!(
        threads(&check),
        [stop("bolt-thread-strips"), stop("tapped-thread-strips")]
    );
}

#[test]
fn short_engagement_is_told_by_strength_and_by_trade() {
    let of = |metal, depth| {
        let check = engaged(metal, depth, Some(1000.0));
        threads(&check)
            .iter()
            .map(|f| (f.0, f.2))
            .collect::<Vec<_>>()
    };
    let short = of("cast aluminium", 10.0);
    let ids: Vec<_> = short.iter().map(|f| f.0).collect();
    assert_eq!(ids, ["engagement-by-strength", "engagement-by-trade"]);
    close(short[0].1, BREAKING / (110.0 * HOLE_AREA) / 10.0);
    close(short[1].1, 20.0 / 10.0);
    // 19.64 mm by strength, 20 by the trade.
    let between = of("cast aluminium", 19.8);
    assert_eq!(between, [("engagement-by-trade", 20.0 / 19.8)]);
    // Exactly what is wanted is enough.
    assert_eq!(of("cast aluminium", 20.0), []);
    let by_strength = |metal, depth| engaged(metal, depth, None).engagement.by_strength_mm;
    let wanted = by_strength("cast aluminium", 10.0);
    assert_eq!(of("cast aluminium", wanted).len(), 1);
    // A nut is filled or not; its engagement is never short.
    assert_eq!(threads(&nut_of(3.0, Some(1000.0))), []);
}

/// What the torque takes for granted holds for the joint too; only a nut can go unnamed.
#[test]
fn a_joint_carries_what_its_torque_says() {
    let unnamed = "No nut was named: nut or tapped hole must carry the clamp load too.";
    let nut = nut_of(8.4, None);
    let hole = engaged("cast aluminium", 10.0, None);
    for check in [&nut, &hole] {
        let remarks = &check.remarks;
        for assumption in check.answer.assumptions.iter() {
            assert!(remarks.assumptions.contains(&assumption.text()));
        }
        for caution in check.answer.cautions.iter() {
            let expected = caution.text() != unnamed || std::ptr::eq(check, &raw const nut);
            assert_eq!(remarks.cautions.contains(&caution.text()), expected);
        }
        for cited in check.answer.sources.iter() {
            assert!(remarks.sources.contains(&cited));
        }
        let cited = |id| remarks.sources.iter().any(|c| c.source.id == id);
        assert!(cited("fed-std-h28-2") && cited("iso-965-1"), "{remarks:?}");
    }
    assert!(nut.remarks.cautions.contains(&unnamed));
}

/// A joint is refused for what is wrong outside of torque and stack too.
#[test]
fn a_plane_or_a_fit_that_cannot_be_is_refused() {
    let layers = [layer("mild steel", 10.0)];
    let good = JointAsk {
        torque: m10(),
        stack: &GripStack {
            layers: layers.to_vec(),
            ..GripStack::default()
        },
        ..JointAsk::default()
    };
    assert!(CATALOGUE.resolve_joint(&good).is_ok());
    let close_fit = JointAsk {
        fit: Fit::Close,
        ..good
    };
    let plane = JointAsk {
        shear_plane_mm: Some(f64::NAN),
        ..good
    };
    for (ask, field) in [(close_fit, "fit"), (plane, "shear_plane_mm")] {
        let faults = CATALOGUE.resolve_joint(&ask).unwrap_err();
        let named: Vec<_> = faults.stack.iter().map(|f| f.field).collect();
        assert_eq!(named, [field]);
        assert_eq!(faults.torque, []);
    }
}
