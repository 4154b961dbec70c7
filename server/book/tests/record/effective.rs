//! Which value holds for a joint, and what a published torque does on the fasteners found.

use crate::bench::{Bench, sound};
use crate::following::{bench, followed};
use crate::shop::say;
use crate::specifications::{create, plate, revise, said, turned, with_torque, withdraw};
use clampbook_book::effective::{EffectiveJoint, OnFastener, Value};
use clampbook_book::fact::{JointAdded, Removed, SpecificationStated, SpecifiedStep};
use clampbook_book::shop::Shop;
use clampbook_book::value::{Effective, of};
use clampbook_book::words::Criticality::{A, B};
use clampbook_engine::{CheckId, Severity};

/// Newtons in a pound-force, by definition (0.45359237 kg, 9.80665 m/s²).
const NEWTONS_PER_POUND: f64 = 4.448_221_615;

/// Rounding of the example's torques, printed to a tenth of a pound-force foot.
const PRINTED: f64 = 0.05 / 19.9;

/// A published torque for 3/8-24, dry cadmium, as a published example prints it: 28.9 lbf·ft makes 5,788 lbf with K 0.160,
/// and with MoS2, K 0.110, 19.9 lbf·ft make the same (AN6 example).
fn an6() -> SpecificationStated {
    SpecificationStated {
        thread: "3/8-24 UNF".into(),
        grade: "SAE J429 8".into(),
        lubrication: "cadmium plated".into(),
        ..with_torque("28.9 lbf·ft")
    }
}

fn an6_bench(lubrication: &str) -> Bench {
    let mut shop = Shop::new();
    say(&mut shop, create(an6()));
    Bench::in_shop(shop, |joint| {
        joint.specification = followed(0);
        let target = joint.target.as_mut().expect("a target");
        target.thread = "3/8-24".into();
        target.lubrication = lubrication.into();
    })
}

fn in_shop_with(stated: SpecificationStated, change: impl FnOnce(&mut JointAdded)) -> Bench {
    let mut shop = Shop::new();
    say(&mut shop, create(stated));
    Bench::in_shop(shop, |joint| {
        joint.specification = followed(0);
        change(joint);
    })
}

fn value(bench: &Bench) -> Effective<'_> {
    of(bench.joint(), &bench.context(), bench.unit())
}

#[track_caller]
fn near(got: f64, want: f64, share: f64) {
    assert!((got - want).abs() <= want * share, "{got}, wanted {want}");
}

fn load_lbf(on: &OnFastener<'_>) -> f64 {
    let answer = on.outcome.as_ref().expect("it can be reckoned");
    answer.clamp_load.get() / NEWTONS_PER_POUND
}

fn share_of_proof(on: &OnFastener<'_>) -> f64 {
    let answer = on.outcome.as_ref().expect("it can be reckoned");
    answer.clamp_load.get() / answer.working_load.get()
}

fn against_proof(on: &OnFastener<'_>) -> Option<Severity> {
    let answer = on.outcome.as_ref().expect("it can be reckoned");
    let mut findings = answer.findings.iter();
    findings
        .find(|finding| finding.id == CheckId::NominalAgainstProof)
        .map(|finding| finding.severity)
}

#[test]
fn the_published_value_wins_over_the_computed_one() {
    let named = bench(B);
    let effective = value(&named);
    let Value::Published(stated) = effective.value else {
        panic!("{:?}", effective.value);
    };
    let torque = stated.final_torque().expect("a torque");
    assert_eq!(torque.said, "55 lbf·ft");
    assert_eq!(effective.reason(), "");
    assert_eq!(effective.lubrication, "oiled");
    let kept = effective.kept.expect("it is kept");
    assert_eq!(kept.newest.fact.revision, 1);

    let unnamed = Bench::new(B);
    let effective = value(&unnamed);
    assert!(matches!(effective.value, Value::Computed(_)));
    assert!(effective.fasteners.is_empty() && effective.kept.is_none());

    let nothing = Bench::with(|joint| {
        joint.target = None;
        joint.purpose = "flare-fitting".into();
    });
    let effective = value(&nothing);
    assert!(matches!(effective.value, Value::Nothing(_)));
    let reason = effective.reason();
    assert!(reason.contains("NO COMPUTED TORQUE"), "{reason}");
}

#[test]
fn the_newest_revision_holds_and_a_withdrawn_one_does_not() {
    let mut bench = bench(B);
    say(&mut bench.shop, revise(with_torque("52 lbf·ft"), "\"1\""));
    let Value::Published(stated) = value(&bench).value else {
        panic!("it is published");
    };
    assert_eq!(stated.revision, 2);
    assert_eq!(stated.steps, [SpecifiedStep::Torque(said("52 lbf·ft"))]);

    say(&mut bench.shop, withdraw("\"2\""));
    let effective = value(&bench);
    assert!(matches!(effective.value, Value::Computed(_)));
    let reason = effective.reason();
    assert!(
        reason.contains("specifications/brake-plate was withdrawn: of another year"),
        "{reason}"
    );
}

#[test]
fn a_revision_for_another_thread_is_not_for_this_joint() {
    let mut bench = bench(B);
    let coarse = SpecificationStated {
        thread: "7/16-14 UNC".into(),
        ..with_torque("50 lbf·ft")
    };
    say(&mut bench.shop, revise(coarse, "\"1\""));
    let effective = value(&bench);
    assert!(matches!(effective.value, Value::Computed(_)));
    let reason = effective.reason();
    assert!(reason.contains("7/16-14 UNC"), "{reason}");
}

#[test]
fn the_clamp_load_is_that_of_the_published_example() {
    let bench = an6_bench("cadmium plated");
    let effective = value(&bench);
    assert_eq!(effective.fasteners.len(), 1);
    let specified = &effective.fasteners[0];
    assert_eq!(specified.grade, "SAE J429 8", "the published one");
    near(load_lbf(specified), 5788.0, PRINTED);
    // Grade 8: proof 120 ksi (SAE J429); 3/8-24: 0.0878 in² (ASME B1.1); 10,536 lbf.
    near(share_of_proof(specified), 5788.0 / 10_536.0, 2.0 * PRINTED);
    assert_eq!(effective.restated, None, "it is the lubrication stated");
}

#[test]
fn a_weaker_fastener_really_found_is_told_with_its_numbers() {
    let mut bench = an6_bench("cadmium plated");
    for (position, grade) in [(2, "SAE J429 2"), (3, "")] {
        bench.take_out(Removed {
            grade: grade.into(),
            ..sound(position)
        });
    }
    let effective = value(&bench);
    let [specified, weak, unknown] = &effective.fasteners[..] else {
        panic!("{:?}", effective.fasteners);
    };
    assert_eq!((weak.position, unknown.position), (2, 3));
    assert_eq!(against_proof(specified), None);
    // Grade 2: proof 55 ksi (SAE J429), on 0.0878 in² 4,829 lbf.
    near(share_of_proof(weak), 5788.0 / 4_829.0, 2.0 * PRINTED);
    assert_eq!(against_proof(weak), Some(Severity::Stop));
    let why = unknown
        .outcome
        .as_ref()
        .expect_err("nobody knows the grade");
    assert!(why.iter().any(|fault| fault.field == "grade"), "{why:?}");
}

#[test]
fn another_lubrication_changes_the_load_and_the_torque_that_would_make_the_one_meant() {
    let mut bench = an6_bench("moly paste");
    let effective = value(&bench);
    near(
        load_lbf(&effective.fasteners[0]),
        5788.0 * 0.160 / 0.110,
        PRINTED,
    );
    let restated = effective.restated.expect("another lubrication");
    near(restated.torque.get(), 19.9 * 1.355_817_948, PRINTED);
    let Value::Published(stated) = &effective.value else {
        panic!("it is published");
    };
    let torque = stated.final_torque().expect("a torque");
    assert_eq!(torque.said, "28.9 lbf·ft", "as it is printed");

    // Grade 2 breaks at 74 ksi (SAE J429) on 0.0878 in²: 6,497 lbf, and the published torque makes 8,419.
    bench.take_out(Removed {
        grade: "SAE J429 2".into(),
        ..sound(1)
    });
    let effective = value(&bench);
    let outcome = &effective.fasteners[1].outcome;
    let why = outcome.as_ref().expect_err("it breaks");
    assert!(why[0].to_string().contains("tensile load"), "{why:?}");
}

#[test]
fn a_procedure_that_ends_in_an_angle_makes_no_load_that_is_reckoned() {
    let bench = in_shop_with(turned(), |_| ());
    let effective = value(&bench);
    assert!(matches!(effective.value, Value::Published(_)));
    assert!(effective.fasteners.is_empty());
    assert_eq!(effective.restated, None);
    let cautions = effective.cautions();
    assert!(cautions[0].contains("end in an angle"), "{cautions:?}");
}

#[test]
fn a_publication_without_lubrication_says_so() {
    let silent = SpecificationStated {
        lubrication: String::new(),
        ..plate()
    };
    let bench = in_shop_with(silent, |_| ());
    let effective = value(&bench);
    let cautions = effective.cautions();
    assert!(
        cautions[0].contains("states no lubrication"),
        "{cautions:?}"
    );
    assert_eq!(effective.restated, None);
    // K 0.18 lightly oiled (Shigley, table 8-15): F = T / (K D) = 660 lbf·in / (0.18 · 0.4375 in) = 8,381 lbf.
    near(load_lbf(&effective.fasteners[0]), 8_381.0, 0.001);
}

#[test]
fn everything_is_reckoned_of_the_published_grade_and_torque() {
    let strong = SpecificationStated {
        grade: "SAE J429 8".into(),
        ..plate()
    };
    let bench = in_shop_with(strong, |_| ());
    let joint = EffectiveJoint::new(bench.joint(), &bench.shop);
    let target = joint.target().expect("a target");
    assert_eq!(target.grade, "SAE J429 8");
    assert_eq!(target.lubrication, "oiled", "as it is really done");
    // As above: 8,381 lbf.
    let load = target.clamp_load_n.expect("a load") / NEWTONS_PER_POUND;
    near(load, 8_381.0, 0.001);
    let unnamed = Bench::new(A);
    let same = EffectiveJoint::new(unnamed.joint(), &unnamed.shop);
    assert_eq!(**same.fact(), *unnamed.joint().fact);
}

#[test]
fn what_stops_the_joint_is_told_beside_its_value() {
    let mut bench = bench(A);
    assert_eq!(value(&bench).stops, []);
    bench.take_out(Removed {
        grade: "SAE J429 2".into(),
        ..sound(1)
    });
    let stops = value(&bench).stops;
    let weaker = |stop: &clampbook_book::rules::Flag| stop.rule == "weaker-than-specified";
    assert!(stops.iter().any(weaker), "{stops:?}");
}
