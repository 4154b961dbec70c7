//! The list of parts to order: what asks for them, in which words, how many, and what has come.

use crate::bench::{Bench, back, decision, inches, joint_id, new_bolt, sound};
use clampbook_book::command::Command;
use clampbook_book::fact::{
    Assembled, AssemblyAdded, Decided, Fact, FastenerDetail, FastenerSpec, LengthSeen, PartArrived,
    PartFound, PartSeen, PartWanted, Refitted, Removed, SaidLength,
};
use clampbook_book::ids::AssemblyId;
use clampbook_book::orders::{self, By, Line, designation};
use clampbook_book::refusal::Refusal;
use clampbook_book::sheet::{Head, Scope, sheet};
use clampbook_book::words::{
    Criticality, DecisionKind, FindingKind, FindingSeverity, HoldReason, Outcome, Severity,
    SmallPart, SmallPartCondition, Tightness, TorqueUnit,
};

use Criticality::{A, B, C};
use DecisionKind::{Hold, Replace, Reuse};
use Severity::Caution;

const RULE: &str = "part-not-arrived";
pub(crate) const BOLT: &str = "7/16-20 UNF x 1-1/4 in, SAE J429 5";

pub(crate) fn hub() -> AssemblyId {
    AssemblyId::new("hub").expect("a slug")
}

pub(crate) fn gasket() -> PartWanted {
    PartWanted {
        assembly: hub(),
        joint: Some(joint_id()),
        what: "Gasket, cover".into(),
        quantity: 1,
        why: "torn".into(),
        part_number: "K 112".into(),
        note: String::new(),
    }
}

pub(crate) fn arrived(what: &str, quantity: u16) -> PartArrived {
    PartArrived {
        assembly: hub(),
        what: what.into(),
        quantity,
        reference: "delivery note 44".into(),
        note: String::new(),
    }
}

pub(crate) fn want(bench: &mut Bench, wanted: PartWanted) -> u32 {
    bench.say(Command::LogPartWanted(wanted));
    bench.job.last
}

pub(crate) fn arrive(bench: &mut Bench, what: &str, quantity: u16) -> u32 {
    bench.say(Command::LogPartArrival(arrived(what, quantity)));
    bench.job.last
}

pub(crate) fn list(bench: &Bench) -> Vec<Line> {
    orders::list(&bench.job, None, &bench.context())
}

/// What, how many, how many of them are there.
pub(crate) fn told(bench: &Bench) -> Vec<(String, u32, u32)> {
    let lines = list(bench).into_iter();
    lines.map(|l| (l.what, l.wanted, l.arrived)).collect()
}

pub(crate) fn flagged(bench: &Bench) -> Vec<(Severity, u16)> {
    clampbook_book::rules::flags(&bench.job, &bench.context())
        .into_iter()
        .filter(|flag| flag.rule == RULE)
        .map(|flag| (flag.severity, flag.position))
        .collect()
}

pub(crate) fn replaced(class: Criticality, positions: &[u16]) -> Bench {
    let mut bench = Bench::new(class);
    for &position in positions {
        bench.take_out(sound(position));
        bench.decide(decision(position, Replace));
    }
    bench
}

// The list.

#[test]
fn fasteners_of_one_kind_are_one_line_however_they_were_spelled() {
    let mut bench = replaced(B, &[1, 2]);
    bench.take_out(sound(3));
    bench.decide(Decided {
        replacement: Some(FastenerSpec {
            thread: "7/16 - 20".into(),
            length: SaidLength {
                said: "31.75 mm".into(),
                mm: 31.75,
            },
            grade: "grade 5".into(),
            detail: None,
        }),
        ..decision(3, Replace)
    });
    assert_eq!(told(&bench), [(BOLT.into(), 3, 0)]);
    let lines = list(&bench);
    let places: Vec<u16> = lines[0].demands.iter().map(|d| d.position).collect();
    assert_eq!(places, [1, 2, 3]);
    assert!(lines[0].demands.iter().all(|d| d.by == By::Decision));
}

#[test]
fn what_came_is_given_to_those_that_asked_first() {
    let mut bench = replaced(B, &[3, 1, 2]);
    arrive(&mut bench, BOLT, 2);
    assert_eq!(told(&bench), [(BOLT.into(), 3, 2)]);
    assert_eq!(list(&bench)[0].waiting(), 1);
    assert_eq!(flagged(&bench), [(Caution, 2)]);
    // The bolt of the last one is in its hole all the same: it came, and one that was counted is left for the others.
    bench.refit(Refitted {
        new_part: Some(new_bolt()),
        ..back(2, Tightness::Final)
    });
    assert_eq!(told(&bench), [(BOLT.into(), 3, 2)]);
    assert_eq!(flagged(&bench), [(Caution, 1)]);
}

#[test]
fn what_is_not_wanted_any_more_stays_on_the_list_as_come() {
    let mut bench = replaced(B, &[1]);
    arrive(&mut bench, BOLT, 1);
    bench.decide(decision(1, Reuse));
    assert_eq!(told(&bench), [(BOLT.into(), 0, 1)]);
    assert_eq!(list(&bench)[0].waiting(), 0);
}

/// ISO 8991 (designation of fasteners) and ASME B18.2.1: the order of form, thread, length, grade and finish, from memory.
#[test]
fn a_fastener_is_ordered_in_the_words_of_its_standard() {
    let part = |thread: &str, mm: f64, grade: &str, form: &str, finish: &str| FastenerSpec {
        thread: thread.into(),
        length: SaidLength {
            said: "as said".into(),
            mm,
        },
        grade: grade.into(),
        detail: Some(Box::new(FastenerDetail {
            form: form.into(),
            finish: finish.into(),
            ..FastenerDetail::default()
        })),
    };
    let bench = Bench::new(B);
    let said = |part| designation(&part, bench.shop.catalogue());
    assert_eq!(
        said(part("M10", 45.0, "8.8", "hexagon bolt", "zinc plated")),
        "hexagon bolt M10 x 45 mm, ISO 898-1 8.8, zinc plated"
    );
    assert_eq!(
        said(part("M12x1.25", 30.0, "10.9", "", "")),
        "M12x1.25 x 30 mm, ISO 898-1 10.9"
    );
    assert_eq!(
        said(part("1/2-13", 82.55, "SAE J429 8", "hex cap screw", "")),
        "1/2-13 UNC x 3-1/4 in hex cap screw, SAE J429 8"
    );
    assert_eq!(
        said(part("1/2-20-LH", 38.1, "SAE J429 5", "", "")),
        "1/2-20 UNF left hand x 1-1/2 in, SAE J429 5",
        "the hand is never lost"
    );
    assert_eq!(
        said(part("odd thread", 45.0, "soft", "", "black")),
        "odd thread x as said, soft, black"
    );
}

#[test]
fn small_parts_locks_and_sealing_washers_are_asked_for_by_what_came_out() {
    let seen = |part, found, said: &str| PartSeen {
        part,
        found,
        said: said.into(),
    };
    let mut bench = Bench::new(B);
    bench.take_out(Removed {
        assembled: Some(Box::new(Assembled {
            parts: vec![
                seen(SmallPart::Nut, SmallPartCondition::Unfit, ""),
                seen(SmallPart::Washer, SmallPartCondition::Missing, "7/16 plain"),
                seen(SmallPart::Washer, SmallPartCondition::Present, ""),
                seen(
                    SmallPart::Pin,
                    SmallPartCondition::Present,
                    "split pin 1/8 in",
                ),
            ],
            ..Assembled::default()
        })),
        ..sound(1)
    });
    assert_eq!(
        told(&bench),
        [
            ("nut 7/16-20 UNF".into(), 1, 0),
            ("washer: 7/16 plain".into(), 1, 0),
            ("pin: split pin 1/8 in".into(), 1, 0),
        ]
    );
    bench.decide(decision(1, Reuse));
    bench.refit(back(1, Tightness::Final));
    assert_eq!(
        told(&bench).iter().map(|l| l.2).sum::<u32>(),
        3,
        "all are in"
    );

    let mut banjo = Bench::with(|joint| {
        joint.purpose = "banjo-fitting".into();
        joint.target = None;
    });
    banjo.take_out(Removed {
        thread: "M10x1".into(),
        ..sound(1)
    });
    assert_eq!(told(&banjo), [("sealing washer for M10x1".into(), 2, 0)]);
}

#[test]
fn a_lock_used_once_is_wanted_for_each_hole_and_a_wire_for_the_joint() {
    for (lock, wanted) in [("Split pin 1/8 in", 3), ("lock wire 1 mm", 1)] {
        let mut bench = Bench::with(|joint| joint.lock = lock.into());
        for position in 1..=3 {
            bench.take_out(sound(position));
        }
        assert_eq!(told(&bench), [(lock.into(), wanted, 0)]);
    }
    let mut lasting = Bench::with(|joint| joint.lock = "spring washer".into());
    lasting.take_out(sound(1));
    assert_eq!(told(&lasting), []);
}

#[test]
fn what_broke_is_wanted_as_specified_until_somebody_decides() {
    let mut bench = Bench::new(B);
    let broke = |position, length| Removed {
        outcome: Outcome::BrokeNow,
        length,
        ..sound(position)
    };
    bench.take_out(broke(1, None));
    bench.take_out(broke(2, Some(LengthSeen::Measured(inches(1.25)))));
    assert_eq!(
        told(&bench),
        [
            ("7/16-20 UNF, SAE J429 5, length to be decided".into(), 1, 0),
            (BOLT.into(), 1, 0),
        ]
    );
    bench.decide(Decided {
        hold_reason: Some(HoldReason::Part),
        ..decision(1, Hold)
    });
    assert_eq!(told(&bench).len(), 2, "to wait for it does not bring it");
    bench.decide(decision(1, Replace));
    assert_eq!(told(&bench), [(BOLT.into(), 2, 0)]);
}

pub(crate) fn ruined(part: &str, class: Criticality) -> PartFound {
    PartFound {
        assembly: hub(),
        joint: None,
        part: part.into(),
        kind: FindingKind::Bent,
        severity: FindingSeverity::Ruined,
        criticality: Some(class),
        cause: String::new(),
        reading: String::new(),
        note: String::new(),
    }
}

// What is refused, and corrections.

#[test]
fn only_what_is_on_the_list_of_its_assembly_arrives() {
    let mut bench = replaced(B, &[1]);
    let nothing = bench.try_say(&Command::LogPartArrival(arrived("M10 x 45 mm, 8.8", 1)));
    let Err(Refusal::Invalid(wrong)) = nothing else {
        panic!("{nothing:?}");
    };
    assert_eq!(wrong[0].field, "arrival.what");
    assert!(wrong[0].wrong.contains(BOLT), "{wrong:?}");
    let mut elsewhere = arrived(BOLT, 1);
    elsewhere.assembly = AssemblyId::new("cellar").expect("a slug");
    let refused = bench.try_say(&Command::LogPartArrival(elsewhere));
    assert!(matches!(refused, Err(Refusal::NotFound { .. })));
    for wrong in [
        PartWanted {
            assembly: AssemblyId::new("cellar").expect("a slug"),
            joint: None,
            ..gasket()
        },
        PartWanted {
            joint: Some(clampbook_book::ids::JointId::new("other").expect("a slug")),
            ..gasket()
        },
    ] {
        let refused = bench.try_say(&Command::LogPartWanted(wrong));
        assert!(
            matches!(refused, Err(Refusal::NotFound { .. })),
            "{refused:?}"
        );
    }
}

#[test]
fn a_refusal_names_at_most_ten_of_a_long_list() {
    let mut bench = Bench::new(C);
    for i in 0..40 {
        want(
            &mut bench,
            PartWanted {
                what: format!("seal {i}"),
                ..gasket()
            },
        );
    }
    let refused = bench.try_say(&Command::LogPartArrival(arrived("ring", 1)));
    let Err(Refusal::Invalid(wrong)) = refused else {
        panic!("{refused:?}");
    };
    assert!(
        wrong[0].wrong.ends_with("\"seal 9\" and 30 more"),
        "{wrong:?}"
    );
}

#[test]
fn both_facts_are_corrected_in_their_place_by_their_own_kind() {
    let mut bench = Bench::new(A);
    let wanted = want(&mut bench, gasket());
    let came = arrive(&mut bench, "Gasket, cover", 1);
    let more = PartWanted {
        quantity: 3,
        ..gasket()
    };
    bench
        .correct(wanted, Some(Fact::PartWanted(more.clone())))
        .expect("corrected");
    assert_eq!(told(&bench), [("Gasket, cover".into(), 3, 1)]);
    let all = Fact::PartArrived(arrived("Gasket, cover", 3));
    bench.correct(came, Some(all.clone())).expect("corrected");
    assert_eq!(told(&bench), [("Gasket, cover".into(), 3, 3)]);
    for (entry, with) in [
        (wanted, all),
        (came, Fact::PartWanted(more)),
        (1, Fact::PartArrived(arrived("Gasket, cover", 1))),
    ] {
        let refused = bench.correct(entry, Some(with));
        assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
    }
    let strange = Fact::PartArrived(arrived("ring", 1));
    let refused = bench.correct(came, Some(strange));
    assert!(matches!(refused, Err(Refusal::Invalid(_))), "{refused:?}");
}

/// The stored form of both kinds, which never changes.
#[test]
fn both_facts_are_stored_as_they_were_from_the_first() {
    let short = PartWanted {
        joint: None,
        part_number: String::new(),
        ..gasket()
    };
    let note = "one corner bent".to_owned();
    for (fact, stored) in [
        (
            Fact::PartWanted(gasket()),
            r#"{"kind":"part-wanted","assembly":"hub","joint":"plate","what":"Gasket, cover","quantity":1,"why":"torn","part_number":"K 112"}"#,
        ),
        (
            Fact::PartWanted(short),
            r#"{"kind":"part-wanted","assembly":"hub","what":"Gasket, cover","quantity":1,"why":"torn"}"#,
        ),
        (
            Fact::PartArrived(PartArrived {
                note,
                ..arrived(BOLT, 4)
            }),
            r#"{"kind":"part-arrived","assembly":"hub","what":"7/16-20 UNF x 1-1/4 in, SAE J429 5","quantity":4,"reference":"delivery note 44","note":"one corner bent"}"#,
        ),
    ] {
        assert_eq!(serde_json::to_string(&fact).expect("it is stored"), stored);
        let read: Fact = serde_json::from_str(stored).expect("it reads");
        assert_eq!(read, fact);
    }
}

// What waits, and the sheet.

#[test]
fn what_waits_is_told_with_its_place_and_why() {
    let mut bench = replaced(B, &[1]);
    bench.take_out(sound(2));
    bench.decide(Decided {
        hold_reason: Some(HoldReason::Hardness),
        reason: "no marking".into(),
        ..decision(2, Hold)
    });
    want(&mut bench, gasket());
    let waits: Vec<(u16, String, bool)> = orders::waits(&bench.job, None, &bench.context())
        .into_iter()
        .map(|wait| (wait.position, wait.hold_reason, wait.on_hold))
        .collect();
    assert_eq!(
        waits,
        [
            (2, "hardness readings".into(), true),
            (1, format!("1 x {BOLT}"), false),
            (0, "1 x Gasket, cover".into(), false),
        ]
    );
    arrive(&mut bench, BOLT, 1);
    assert_eq!(orders::waits(&bench.job, None, &bench.context()).len(), 2);
    let elsewhere = AssemblyId::new("cellar").expect("a slug");
    assert_eq!(
        orders::waits(&bench.job, Some(&elsewhere), &bench.context()),
        []
    );
}

#[test]
fn the_sheet_says_at_its_top_what_is_waited_for_and_stops_the_joint() {
    let mut bench = replaced(B, &[1, 3]);
    let scope = Scope {
        assembly: None,
        unit: Some(TorqueUnit::NewtonMetre),
    };
    let head = Head {
        entry: 0,
        hash: [0; 32],
        made: crate::bench::NOW,
    };
    let made = |bench: &Bench| sheet(&bench.job, &scope, &bench.context(), &head);
    let before = made(&bench);
    assert_eq!(
        before.waits,
        [format!(
            "Hub: 2 of 2 x {BOLT}, for Plate to knuckle hole 1, 3"
        )]
    );
    let cautions = &before.joints[0].cautions;
    let told = |hole: &str| {
        cautions
            .iter()
            .any(|c| c.starts_with(hole) && c.contains(RULE))
    };
    assert!(told("Hole 1: waits for 1 x") && told("Hole 3: waits for 1 x"));
    assert_eq!(before.stops.len(), 0);

    want(&mut bench, gasket());
    let stopped = made(&bench);
    assert_eq!(
        stopped.waits[1],
        "Hub: 1 of 1 x Gasket, cover, no. K 112, for Plate to knuckle"
    );
    let rows = &stopped.joints[0].rows;
    assert!(
        rows.iter()
            .all(|row| row.torque.is_stopped() && row.torque.nm().is_none())
    );
    assert!(stopped.stops.iter().any(|(flag, _)| flag.rule == RULE));

    arrive(&mut bench, BOLT, 2);
    arrive(&mut bench, "gasket cover", 1);
    let after = made(&bench);
    assert_eq!(after.waits, [""; 0]);
    assert_eq!(after.stops.len(), 0);
    assert!(!after.joints[0].cautions.iter().any(|c| c.contains(RULE)));
}

#[test]
fn the_other_assembly_has_a_list_of_its_own() {
    let mut bench = replaced(B, &[1]);
    bench.say(Command::AddAssembly(AssemblyAdded {
        assembly: AssemblyId::new("arm").expect("a slug"),
        display_name: "Arm".into(),
        counterpart: None,
    }));
    let arm = AssemblyId::new("arm").expect("a slug");
    bench.say(Command::LogPartWanted(PartWanted {
        assembly: arm.clone(),
        joint: None,
        what: BOLT.into(),
        ..gasket()
    }));
    arrive(&mut bench, BOLT, 1);
    let of = |assembly: AssemblyId| orders::list(&bench.job, Some(&assembly), &bench.context());
    assert_eq!(of(hub())[0].waiting(), 0);
    assert_eq!(of(arm)[0].waiting(), 1);
    assert_eq!(list(&bench).len(), 2);
}
