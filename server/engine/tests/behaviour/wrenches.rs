//! Settings and wrenches beyond what is printed: order of working, ranges, refusals.

use clampbook_engine::{
    Catalogue, Severity,
    lock_nut::{LockNutKind, UsedNut},
    units::{Millimetres, NEWTON_METRES_PER_POUND_FORCE_FOOT, NewtonMetres},
    wrench::{Adapter, Calibration, Wrench, WrenchFinding, choose, permissible_deviation, setting},
};
use proptest::prelude::*;

fn nm(value: f64) -> NewtonMetres {
    NewtonMetres::new(value).unwrap()
}

fn mm(value: f64) -> Millimetres {
    Millimetres::new(value).unwrap()
}

fn wrench() -> Wrench {
    Wrench {
        minimum: Some(nm(40.0)),
        maximum: nm(200.0),
        graduation: nm(1.0),
        stated_deviation: None,
        calibration: Calibration::InDate,
    }
}

#[test]
fn run_on_is_added_before_the_adapter() {
    let adapter = Adapter::new(mm(300.0), mm(100.0), 0.0).unwrap();
    let set = setting(nm(90.0), Some(nm(10.0)), Some(&adapter)).unwrap();
    // (90 + 10)·300/400, not 90·300/400 + 10.
    assert!((set.get() - 75.0).abs() < 1e-12);
}

#[test]
fn an_adapter_that_nobody_can_use_is_refused() {
    for angle in [f64::NAN, f64::INFINITY, -1.0, 180.1, 1e300] {
        let error = Adapter::new(mm(300.0), mm(50.0), angle).unwrap_err();
        assert_eq!(error.quantity, "angle of the adapter");
    }
    let longer = Adapter::new(mm(300.0), mm(301.0), 0.0).unwrap_err();
    assert_eq!(longer.quantity, "length of the adapter");
    let back = Adapter::new(mm(300.0), mm(200.0), 180.0).unwrap_err();
    assert_eq!(back.quantity, "lever left by the adapter");
    // Half of the lever is left, so the setting doubles.
    let half = Adapter::new(mm(300.0), mm(150.0), 180.0).unwrap();
    assert!((half.factor() - 2.0).abs() < 1e-12);
}

#[test]
fn the_deviation_splits_on_the_greatest_torque_of_the_tool() {
    assert_eq!(permissible_deviation(nm(10.0)), 0.06);
    assert_eq!(permissible_deviation(nm(10.01)), 0.04);
    let stated = Wrench {
        stated_deviation: Some(0.02),
        ..wrench()
    };
    assert_eq!(stated.deviation(), 0.02);
    let fit = stated.judge(nm(100.0));
    assert_eq!((fit.minimum.get(), fit.maximum.get()), (98.0, 102.0));
}

#[test]
fn what_is_out_of_range_is_stopped_and_not_clamped() {
    let found = |wrench: Wrench, setting| {
        let fit = wrench.judge(nm(setting));
        (
            fit.set.map(|s| s.get()),
            fit.findings.iter().collect::<Vec<_>>(),
        )
    };
    assert_eq!(found(wrench(), 100.4), (Some(100.0), vec![]));
    assert_eq!(
        found(wrench(), 200.0),
        (Some(200.0), vec![WrenchFinding::OutsideBestRange])
    );
    assert_eq!(
        found(wrench(), 200.1),
        (None, vec![WrenchFinding::AboveFullScale])
    );
    assert_eq!(
        found(wrench(), 39.0),
        (
            None,
            vec![WrenchFinding::BelowAFifth, WrenchFinding::BelowLowestMark]
        )
    );
    assert_eq!(
        found(wrench(), 40.0),
        (Some(40.0), vec![WrenchFinding::OutsideBestRange])
    );
    let coarse = Wrench {
        graduation: nm(12.0),
        ..wrench()
    };
    assert_eq!(
        found(coarse, 100.0),
        (Some(96.0), vec![WrenchFinding::CoarseGraduation])
    );
    assert_eq!(found(coarse, 120.0), (Some(120.0), vec![]));
    // The setting is inside, but the nearest mark is not.
    let odd = Wrench {
        graduation: nm(11.0),
        ..wrench()
    };
    assert_eq!(
        found(odd, 200.0),
        (Some(198.0), vec![WrenchFinding::OutsideBestRange])
    );
    let bad = Wrench {
        calibration: Calibration::KnownBad,
        ..wrench()
    };
    assert_eq!(found(bad, 100.0), (None, vec![WrenchFinding::KnownBad]));
    let overdue = Wrench {
        calibration: Calibration::Overdue,
        ..wrench()
    };
    assert_eq!(
        found(overdue, 100.0),
        (Some(100.0), vec![WrenchFinding::Overdue])
    );
}

#[test]
fn a_rounding_that_leaves_the_scale_is_a_stop() {
    let odd = Wrench {
        graduation: nm(15.0),
        maximum: nm(200.0),
        ..wrench()
    };
    let fit = odd.judge(nm(199.0));
    assert_eq!(fit.set.map(|s| s.get()), Some(195.0));
    let beyond = Wrench {
        graduation: nm(70.0),
        ..wrench()
    };
    let fit = beyond.judge(nm(180.0));
    assert_eq!(fit.set, None);
    assert!(fit.findings.contains(&WrenchFinding::AboveFullScale));
}

#[test]
fn a_wrench_that_contradicts_itself_is_refused() {
    let field = |w: Wrench| w.checked().unwrap_err().0;
    let minimum = Wrench {
        minimum: Some(nm(201.0)),
        ..wrench()
    };
    assert_eq!(field(minimum), "minimum_torque");
    let graduation = Wrench {
        graduation: nm(201.0),
        ..wrench()
    };
    assert_eq!(field(graduation), "graduation");
    for stated in [0.0, -0.04, 0.11, f64::NAN, f64::INFINITY] {
        let wrench = Wrench {
            stated_deviation: Some(stated),
            ..wrench()
        };
        assert_eq!(field(wrench), "stated_deviation_share");
    }
}

#[test]
fn the_wrench_with_the_fewest_objections_is_chosen() {
    let of = |maximum, calibration| Wrench {
        minimum: None,
        maximum: nm(maximum),
        graduation: nm(1.0),
        stated_deviation: None,
        calibration,
    };
    let bad = of(180.0, Calibration::KnownBad);
    let overdue = of(180.0, Calibration::Overdue);
    let large = of(320.0, Calibration::InDate);
    assert_eq!(choose(&[bad, overdue, large], nm(100.0)), Some(2));
    assert_eq!(choose(&[bad, overdue], nm(100.0)), Some(1));
    assert_eq!(choose(&[bad], nm(100.0)), None);
    assert_eq!(choose(&[], nm(100.0)), None);
    let fine = Wrench {
        graduation: nm(0.5),
        ..large
    };
    assert_eq!(choose(&[large, fine], nm(100.0)), Some(1));
}

#[test]
fn tables_that_disagree_on_a_lock_nut_make_a_caution() {
    let catalogue = Catalogue::built_in();
    let lbf_in = |v: f64| nm(v * 0.112_984_829);
    let judged = |thread, kind, v| {
        let thread = catalogue.thread(thread).unwrap();
        UsedNut::judge(thread, kind, lbf_in(v)).severity()
    };
    // 1/2 in: 10 by AC 43.13-1B, 20 for all-metal by the Army, 15 with insert.
    assert_eq!(judged("1/2-20", LockNutKind::AllMetal, 20.1), None);
    assert_eq!(judged("1/2-20", LockNutKind::Insert, 15.1), None);
    assert_eq!(
        judged("1/2-20", LockNutKind::AllMetal, 15.1),
        Some(Severity::Caution)
    );
    assert_eq!(
        judged("1/2-20", LockNutKind::AllMetal, 9.9),
        Some(Severity::Stop)
    );
    assert_eq!(
        judged("M12x1.25", LockNutKind::Insert, 30.0),
        Some(Severity::Note)
    );
    for v in [9.9, 15.1] {
        let thread = catalogue.thread("1/2-20").unwrap();
        let used = UsedNut::judge(thread, LockNutKind::AllMetal, lbf_in(v));
        assert!(used.text().is_some_and(|t| t.contains("new one")));
    }
}

#[test]
fn findings_have_ids_of_their_own() {
    let ids: std::collections::BTreeSet<_> = WrenchFinding::ALL.iter().map(|f| f.id()).collect();
    assert_eq!(ids.len(), WrenchFinding::ALL.len());
    for finding in WrenchFinding::ALL {
        assert!(finding.text().len() > 20);
    }
}

proptest! {
    /// Lengthening the lever lowers the setting, at a right angle nothing changes, more torque needs more setting.
    #[test]
    fn settings_follow_the_lever(l in 100.0..1000.0_f64, part in 0.01..0.5_f64, angle in 0.0..180.0_f64, t in 1.0..900.0_f64) {
        let adapter = Adapter::new(mm(l), mm(l * part), angle).unwrap();
        let set = setting(nm(t), None, Some(&adapter)).unwrap().get();
        prop_assert_eq!(angle < 90.0, set < t);
        prop_assert!(setting(nm(t * 1.01), None, Some(&adapter)).unwrap().get() > set);
        prop_assert!(setting(nm(t), Some(nm(1.0)), Some(&adapter)).unwrap().get() > set);
    }

    /// Nothing is set outside the scale, and rounding never moves by more than half a step.
    #[test]
    fn what_is_set_lies_on_the_scale(top in 5.0..1000.0_f64, step in 0.001..0.3_f64, share in 0.0001..3.0_f64) {
        let wrench = Wrench { minimum: None, maximum: nm(top), graduation: nm(top * step), stated_deviation: None, calibration: Calibration::InDate };
        let fit = wrench.judge(nm(top * share));
        match fit.set {
            Some(set) => {
                prop_assert!((0.2..=1.0).contains(&share));
                prop_assert!(set.get() <= top);
                prop_assert!((set.get() - top * share).abs() <= top * step * 0.500_001);
            }
            None => prop_assert!(!(0.2..=1.0).contains(&share) || fit.findings.contains(&WrenchFinding::AboveFullScale)),
        }
    }
}

/// 100.4 N·m on a scale of 200 in steps of 1: 100 is set, 0.4 % less, at half of full scale.
#[test]
fn rounding_and_place_on_the_scale_are_told() {
    let fit = wrench().judge(nm(100.4));
    assert!((fit.rounding - (100.0 / 100.4 - 1.0)).abs() < 1e-12);
    assert!((fit.rounding + 0.003_984).abs() < 5e-7);
    assert!((fit.share_of_scale - 0.502).abs() < 1e-12);
    // Where the best range ends is still inside it.
    assert!(wrench().judge(nm(160.0)).findings.iter().next().is_none());
    let above = wrench().judge(nm(160.4));
    assert!(above.findings.contains(&WrenchFinding::OutsideBestRange));
}

/// Neither the setting nor the mark it is rounded to may lie below the lowest mark.
#[test]
fn the_lowest_mark_holds_for_setting_and_mark() {
    let below = |graduation, setting| {
        let marked = Wrench {
            minimum: Some(nm(100.0)),
            graduation: nm(graduation),
            ..wrench()
        };
        let fit = marked.judge(nm(setting));
        fit.findings.contains(&WrenchFinding::BelowLowestMark)
    };
    assert!(below(1.0, 99.8));
    assert!(below(30.0, 101.0));
    assert!(!below(1.0, 100.0) && !below(30.0, 110.0));
}

/// Six marks of 2.5 lbf·ft are 15 lbf·ft, though not to the last binary digit in N·m.
#[test]
fn a_setting_on_the_first_or_last_mark_is_on_the_scale() {
    let lbf_ft = |value: f64| nm(value * NEWTON_METRES_PER_POUND_FORCE_FOOT);
    for (minimum, maximum, setting) in [
        (15.0, 75.0, 15.0),
        (15.0, 75.0, 15.3),
        (10.0, 60.0, 60.0),
        (10.0, 120.0, 119.5),
    ] {
        let wrench = Wrench {
            minimum: Some(lbf_ft(minimum)),
            maximum: lbf_ft(maximum),
            graduation: lbf_ft(2.5),
            ..wrench()
        };
        let fit = wrench.judge(lbf_ft(setting));
        assert!(fit.set.is_some(), "{setting}: {:?}", fit.findings);
    }
}
