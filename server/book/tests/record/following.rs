//! A joint names a published specification: which it may, which revision is kept, and what is kept with a tightening.

use crate::bench::{Bench, back, joint_id, read, sound};
use crate::shop::say;
use crate::specifications::{create, id, plate, revise, turned, with_torque, withdraw};
use clampbook_book::fact::{
    Fact, Followed, JointAdded, Removed, SpecificationStated, Tightened, WantedByMaker,
};
use clampbook_book::refusal::Refusal;
use clampbook_book::shop::Shop;
use clampbook_book::words::Severity::Stop;
use clampbook_book::words::{Criticality, Step, Tightness};

/// A shop that keeps the brake plate at 55 lbf·ft.
pub(crate) fn shop() -> Shop {
    let mut shop = Shop::new();
    say(&mut shop, create(plate()));
    shop
}

pub(crate) fn followed(revision: u32) -> Option<Followed> {
    Some(Followed {
        specification: id("brake-plate"),
        revision,
    })
}

/// A joint that names the brake plate.
pub(crate) fn bench(criticality: Criticality) -> Bench {
    Bench::in_shop(shop(), |joint| {
        joint.criticality = criticality;
        joint.specification = followed(0);
    })
}

/// The joint described anew.
pub(crate) fn anew(bench: &mut Bench, change: impl FnOnce(&mut JointAdded)) -> Result<(), Refusal> {
    let entry = bench.joint().entry;
    let mut joint = JointAdded::clone(&bench.joint().fact);
    change(&mut joint);
    bench.correct(entry, Some(Fact::JointAdded(joint)))
}

fn wrong(outcome: Result<(), Refusal>) -> (String, String) {
    match outcome {
        Err(Refusal::Invalid(wrong)) => {
            let [one] = wrong.try_into().expect("one violation");
            (one.field, one.wrong)
        }
        other => panic!("{other:?}"),
    }
}

/// What is wrong with naming it in place of what is named.
fn refused(mut bench: Bench, change: impl FnOnce(&mut JointAdded)) -> (String, String) {
    wrong(anew(&mut bench, change))
}

#[test]
fn a_joint_names_the_revision_in_force_and_a_newer_one_only_when_somebody_says_so() {
    let mut bench = bench(Criticality::B);
    assert_eq!(bench.joint().fact.specification, followed(1));
    say(&mut bench.shop, revise(with_torque("52 lbf·ft"), "\"1\""));
    // Something else of the joint is corrected; nobody says to have read the new revision.
    for revision in [0, 1] {
        anew(&mut bench, |joint| {
            joint.lock = "tab plate".into();
            joint.specification = followed(revision);
        })
        .expect("it is taken");
        assert_eq!(bench.joint().fact.specification, followed(1), "{revision}");
    }
    let (field, why) = wrong(anew(&mut bench, |joint| joint.specification = followed(3)));
    assert_eq!(field, "joint.specification_revision");
    assert!(why.contains("is 3; revision 2 is in force"), "{why}");
    anew(&mut bench, |joint| joint.specification = followed(2)).expect("it is taken");
    assert_eq!(bench.joint().fact.specification, followed(2));
    let (field, why) = wrong(anew(&mut bench, |joint| joint.specification = followed(1)));
    assert_eq!(field, "joint.specification_revision", "{why}");
    anew(&mut bench, |joint| joint.specification = None).expect("it is taken");
    assert_eq!(bench.joint().fact.specification, None);
}

#[test]
fn only_what_is_kept_in_use_and_for_this_joint_can_be_named() {
    let plain = || Bench::in_shop(shop(), |_| ());
    let name = |joint: &mut JointAdded| joint.specification = followed(0);
    let (field, why) = refused(Bench::new(Criticality::B), name);
    assert_eq!(field, "joint.specification");
    assert!(
        why.contains("specifications/brake-plate is not kept"),
        "{why}"
    );

    let mut gone = plain();
    say(&mut gone.shop, withdraw("\"1\""));
    let (field, why) = refused(gone, name);
    assert_eq!(field, "joint.specification");
    assert!(why.contains("was withdrawn: of another year"), "{why}");

    let (field, why) = refused(plain(), |joint| {
        name(joint);
        joint.target.as_mut().expect("a target").thread = "7/16-14".into();
    });
    assert_eq!(field, "joint.specification");
    assert!(
        why.contains("7/16-20 UNF, which is not the joint's thread"),
        "{why}"
    );

    let (field, why) = refused(plain(), |joint| {
        name(joint);
        joint.purpose = "flare-fitting".into();
        joint.target = None;
    });
    assert_eq!(field, "joint.specification");
    assert!(
        why.contains("clamping, which is not the joint's purpose"),
        "{why}"
    );
}

#[test]
fn a_joint_that_names_a_withdrawn_one_can_still_be_corrected() {
    let mut bench = bench(Criticality::B);
    say(&mut bench.shop, withdraw("\"1\""));
    anew(&mut bench, |joint| joint.lock = "tab plate".into()).expect("it is taken");
    assert_eq!(bench.joint().fact.specification, followed(1));
}

/// What a tightening was asked for: by the maker, and computed.
fn asked(bench: &Bench) -> (Option<WantedByMaker>, bool) {
    let position = bench.joint().position(1).expect("a position");
    let torque = position.tight().expect("it is in").torque;
    (torque.published.clone(), torque.wanted.is_some())
}

#[test]
fn a_tightening_keeps_what_was_published_then() {
    let mut bench = bench(Criticality::B);
    bench.take_out(sound(1)).refit(back(1, Tightness::Final));
    let (published, computed) = asked(&bench);
    let published = published.expect("it was published");
    assert_eq!(Some(published.followed.clone()), followed(1));
    // 1 lbf·ft = 1.3558179 N·m (0.45359237 kg, 9.80665 m/s², 0.3048 m, exact by definition).
    let nm = [
        published.minimum_nm,
        published.torque_nm,
        published.maximum_nm,
    ];
    for (nm, lbf_ft) in nm.into_iter().zip([50.0, 55.0, 60.0]) {
        assert!((nm.expect("a torque") - lbf_ft * 1.355_817_948).abs() < 1e-6);
    }
    assert!(!computed, "nothing is computed beside it");

    say(&mut bench.shop, revise(with_torque("52 lbf·ft"), "\"1\""));
    assert_eq!(asked(&bench).0, Some(published.clone()), "history stands");
    // Who corrects the reading does not change what was asked for.
    let entry = bench.job.last;
    let read = Tightened {
        joint: joint_id(),
        position: 1,
        step: Step::Final,
        note: String::new(),
        torque: read(74.0),
    };
    bench
        .correct(entry, Some(Fact::Tightened(read)))
        .expect("it is taken");
    assert_eq!(asked(&bench).0, Some(published));

    bench.refit(back(1, Tightness::Final));
    let (published, _) = asked(&bench);
    assert_eq!(published.map(|p| p.followed), followed(2));
}

#[test]
fn an_angle_at_the_end_leaves_no_torque_to_ask_for() {
    let mut shop = Shop::new();
    say(&mut shop, create(turned()));
    let mut bench = Bench::in_shop(shop, |joint| joint.specification = followed(0));
    bench.take_out(sound(1)).refit(back(1, Tightness::Final));
    let (published, computed) = asked(&bench);
    assert_eq!(published.map(|p| p.torque_nm), Some(None));
    assert!(!computed);
}

#[test]
fn a_joint_without_one_is_stored_as_it_always_was() {
    let bench = Bench::new(Criticality::B);
    let stored = serde_json::to_string(&*bench.joint().fact).expect("it can be stored");
    assert!(!stored.contains("specification"), "{stored}");
    let mut following = self::bench(Criticality::B);
    let fact = following.joint().fact.clone();
    let stored = serde_json::to_string(&*fact).expect("it can be stored");
    assert!(
        stored.contains(r#""specification":{"specification":"brake-plate","revision":1}"#),
        "{stored}"
    );
    following
        .take_out(sound(1))
        .refit(back(1, Tightness::Final));
    let fact = &following.entries.last().expect("an entry").fact;
    let stored = serde_json::to_string(fact).expect("it can be stored");
    let read: Fact = serde_json::from_str(&stored).expect("it can be read");
    assert_eq!(read, *fact);
    assert!(stored.contains(r#""published":{"specification":"brake-plate","revision":1"#));
}

#[test]
fn a_joint_without_a_target_takes_all_from_a_publication_that_says_all() {
    let untargeted = |stated: SpecificationStated| {
        let mut shop = Shop::new();
        say(&mut shop, create(stated));
        let mut bench = Bench::in_shop(shop, |_| ());
        let outcome = anew(&mut bench, |joint| {
            joint.specification = followed(0);
            joint.target = None;
        });
        (bench, outcome)
    };
    let (mut bench, outcome) = untargeted(plate());
    outcome.expect("grade and lubrication are stated");
    // Proof 55 ksi against 85 ksi (SAE J429): what came out is held against what is published.
    bench.take_out(Removed {
        grade: "SAE J429 2".into(),
        ..sound(1)
    });
    assert_eq!(bench.flag("weaker-than-specified", 1), Some(Stop));
    assert_eq!(bench.flag("other-lubrication", 0), None);
    for stated in [
        SpecificationStated {
            grade: String::new(),
            ..plate()
        },
        SpecificationStated {
            lubrication: String::new(),
            ..plate()
        },
    ] {
        let (field, why) = wrong(untargeted(stated).1);
        assert_eq!(field, "joint.target");
        assert!(why.contains("grade and lubrication"), "{why}");
    }
}
