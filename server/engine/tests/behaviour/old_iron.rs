//! British designations, grades nobody computes a torque with, printed torques.

use clampbook_engine::{
    Ask, Catalogue, FaultReason, Purpose,
    published_rows::published_torques,
    published_targets::{Target, published_targets},
};

#[test]
fn british_threads_are_meant_only_where_their_family_is_said() {
    let catalogue = Catalogue::built_in();
    let said = [
        ("1/4 BSF", "1/4-26 BSF"),
        ("1/4-26 bsf", "1/4-26 BSF"),
        ("1/2-12 BSW", "1/2-12 BSW"),
        ("1/2 BSW", "1/2-12 BSW"),
        ("2 BA", "2 BA"),
        ("2BA", "2 BA"),
        ("No. 2 BA", "2 BA"),
        ("16 BA", "16 BA"),
        ("5/16-26 CEI", "5/16-26 BSC"),
        ("1-26 BSC", "1-26 BSC"),
        ("1-26", "#1-26"),
        ("1/4-20", "1/4-20 UNC"),
        ("1/4-20 BSW", "1/4-20 BSW"),
        ("1 NF-14", "1-14 UNS"),
        ("1/4 BSF-LH", "1/4-26 BSF"),
    ];
    for (text, thread) in said {
        match catalogue.thread(text) {
            Ok(found) => assert_eq!(found.to_string(), thread, "{text}"),
            Err(reason) => assert!(["1-26", "1 NF-14"].contains(&text), "{text}: {reason}"),
        }
    }
    for wrong in [
        "17 BA",
        "BA",
        "2 BA 0.81",
        "7/16-18",
        "1/4-26",
        "M6 BSF",
        "#4 BSF",
        "2 BA BSF",
    ] {
        assert!(catalogue.thread(wrong).is_err(), "{wrong}");
    }
    let (_, left) = catalogue.designate("1/4 BSF-LH").unwrap();
    assert!(left.is_left_hand());
    assert_eq!(left.to_string(), "1/4-26 BSF-LH");
    assert_eq!(catalogue.designate("2ba").unwrap().1.to_string(), "2 BA");
}

#[test]
fn grades_without_a_proof_and_structural_ones_get_no_torque() {
    let catalogue = Catalogue::built_in();
    for (thread, grade, why) in [
        ("1/2 BSF", "bs-s", "only its tensile strength"),
        ("1/2-20", "BS 1768 S", "only its tensile strength"),
        ("1/2-13", "A490", "structural"),
        ("1-8", "f3125-a325", "structural"),
    ] {
        let ask = Ask {
            thread,
            grade,
            lubrication: "dry",
            ..Ask::default()
        };
        let faults = catalogue.resolve(&ask).unwrap_err();
        let [fault] = &faults[..] else {
            panic!("{faults:?}")
        };
        assert!(matches!(fault.reason, FaultReason::GradeRefused { .. }));
        assert_eq!((fault.field, fault.reason.id()), ("grade", "grade-refused"));
        assert!(fault.to_string().contains(why), "{fault}");
    }
    let editions = catalogue.grade("A325");
    assert!(
        matches!(editions, Err(FaultReason::AmbiguousGrade { .. })),
        "{editions:?}"
    );
}

#[test]
fn a_unified_grade_is_none_for_a_whitworth_thread() {
    let catalogue = Catalogue::built_in();
    let thread = catalogue.thread("1/2 BSW").unwrap();
    assert!(
        catalogue
            .grade("SAE J429 5")
            .unwrap()
            .strength_at(thread)
            .is_none()
    );
}

#[test]
fn every_printed_torque_has_its_rule_and_its_lubrications() {
    let all: Vec<_> = published_torques().collect();
    assert_eq!(all.len(), clampbook_data::PUBLISHED_TORQUES.len());
    for row in &all {
        let (low, high) = row.range();
        assert!(0.0 < low.get() && low.get() <= high.get(), "{}", row.id());
        assert!(!row.rule().is_empty() && !row.lubrication().is_empty());
    }
    let of = |purpose| all.iter().filter(|r| r.purpose() == purpose).count();
    assert_eq!(of(Purpose::FlareFitting), 44);
    assert_eq!(of(Purpose::SparkPlug), 27);
    assert_eq!(of(Purpose::WheelNut), 10);
    assert_eq!(of(Purpose::Clamping), 158);
    let flare = all.iter().find(|r| r.id() == "flare-sae-4").unwrap();
    assert_eq!(flare.printed(), "9 lbf·ft");
    assert!((flare.range().0.get() - 12.2).abs() < 0.05);
    let metric = all.iter().find(|r| r.id() == "parent-m10-steel").unwrap();
    assert_eq!(metric.printed(), "20 to 29 N·m");
    assert_eq!(metric.range().1.get(), 29.0);
}

/// FAA AC 43.13-1B table 7-1: recommended values end where the maximum allowed begin, a shear nut bears less than a tension nut.
#[test]
fn a_printed_torque_never_exceeds_the_greatest_of_its_own_table() {
    let find = |id: &str| published_torques().find(|r| r.id() == id);
    let mut pairs = 0;
    for most in published_torques().filter(|r| r.id().ends_with("-most")) {
        let usual = find(most.id().trim_end_matches("-most")).unwrap();
        assert!(usual.range().1 <= most.range().0, "{}", most.id());
        let tension = find(&most.id().replace("shear", "tension")).unwrap();
        assert!(most.range().0 <= tension.range().0, "{}", most.id());
        pairs += 1;
    }
    assert_eq!(pairs, 50);
}

#[test]
fn printed_targets_are_clamp_loads_or_turns_in_their_own_units() {
    let find = |id: &str| published_targets().find(|t| t.id() == id).unwrap();
    let screw = find("a286-3_8-24");
    assert_eq!(screw.printed(), "3465 to 6064 lbf");
    let Target::ClampLoad {
        minimum,
        nominal,
        maximum,
    } = screw.target()
    else {
        panic!("{screw:?}")
    };
    let lbf = |n: f64| n / 4.448_221_615_260_5;
    assert!((lbf(minimum.get()) - 3465.0).abs() < 1e-6);
    assert!((lbf(nominal.unwrap().get()) - 4851.0).abs() < 1e-6);
    assert!((lbf(maximum.unwrap().get()) - 6064.0).abs() < 1e-6);
    let structural = find("pretension-a490-1");
    assert_eq!(structural.printed(), "64 kip");
    assert!(
        structural
            .rule()
            .contains("never a target for a machine joint")
    );
    let turn = find("turn-8d-one-sloped");
    assert_eq!(turn.printed(), "240 degrees");
    assert!(matches!(turn.target(), Target::Turn(angle) if angle.get() == 240.0));
}
