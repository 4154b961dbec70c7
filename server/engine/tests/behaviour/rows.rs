//! What a row of the tables says is told as it says it: one known row of each kind.

use clampbook_engine::{
    Ask, Catalogue, Purpose, hex::AcrossFlats, metal::Metal, published_rows::published_torques,
};

/// ISO 898-1:2013: class 8.8 changes over 16 mm.
#[test]
fn a_grade() {
    let catalogue = Catalogue::built_in();
    let grade = catalogue.grade("8.8").unwrap();
    assert_eq!(grade.material(), "steel, quenched and tempered");
    let strengths: Vec<_> = grade.strengths().collect();
    let [to_16, over_16] = &strengths[..] else {
        panic!("{strengths:?}");
    };
    assert_eq!(
        (to_16.sizes_mm(), over_16.sizes_mm()),
        ((1.6, 16.0), (16.0, 39.0))
    );
    assert!(!to_16.smallest_is_outside() && over_16.smallest_is_outside());
    assert_eq!(
        (to_16.hardness(), over_16.hardness()),
        ("HRC 22-32", "HRC 23-34")
    );
    assert_eq!(to_16.origin().note, "");
    let low_carbon = catalogue.grade("5.2").unwrap().strengths().next().unwrap();
    assert_eq!(low_carbon.origin().note, "Marking and hardness from memory");
}

/// SAE J429 8 has proof and yield, 5.1 no yield, ASTM F593 no proof; the British letter A has neither.
#[test]
fn a_grade_is_proven_by_proof_or_yield() {
    let catalogue = Catalogue::built_in();
    let proven = |grade: &str| {
        let mut strengths = catalogue.grade(grade).unwrap().strengths();
        strengths.next().unwrap().is_proven()
    };
    assert!(proven("J429 8") && proven("5.1") && proven("F593 CW1"));
    for grade in catalogue.grades() {
        for strength in grade.strengths() {
            let published = strength.proof().is_some() || strength.yield_stress().is_some();
            assert_eq!(strength.is_proven(), published, "{grade}");
        }
    }
    let unproven = |strength: &clampbook_engine::grade::Strength| !strength.is_proven();
    assert!(
        catalogue
            .grades()
            .iter()
            .any(|g| g.strengths().any(|s| unproven(&s)))
    );
}

/// BS 1768: British letter grades were used for Unified threads too, and no other standard crosses over.
#[test]
fn a_grade_covers_its_own_threads() {
    use clampbook_engine::thread::System::{British, Inch, Metric};
    let catalogue = Catalogue::built_in();
    let covers = |grade: &str| {
        let grade = catalogue.grade_by_id(grade).unwrap();
        [Inch, Metric, British].map(|system| grade.covers(system))
    };
    assert_eq!(covers("j429-5"), [true, false, false]);
    assert_eq!(covers("iso898-8-8"), [false, true, false]);
    assert_eq!(covers("bs-s"), [true, false, true]);
}

/// ISO 898-2, class 5 over 4 to 7 mm, and ISO 4035's thin nuts, which only lock.
#[test]
fn a_nut() {
    let catalogue = Catalogue::built_in();
    let nut = |id: &str| catalogue.nuts().iter().find(|n| n.id() == id).unwrap();
    let five = nut("iso898-2-5");
    assert_eq!(five.style(), "type 1 (ISO 4032)");
    assert_eq!(five.marking(), "\"5\" or clock-face bar and dot");
    assert!(!five.mates().is_empty());
    assert!(nut("iso898-2-04").mates().is_empty());
    let to_4 = five.proofs().next().unwrap();
    assert_eq!(
        (to_4.sizes_mm(), to_4.smallest_is_outside()),
        ((3.0, 4.0), false)
    );
    let to_7 = five.proofs().nth(1).unwrap();
    assert_eq!(
        (to_7.sizes_mm(), to_7.smallest_is_outside()),
        ((4.0, 7.0), true)
    );
    let note = "Proof stress of the 1992 text; agrees with its proof loads";
    assert_eq!(to_7.origin().note, note);
}

/// SAE J514 by an implement maker's table: 1/4 in tube.
#[test]
fn a_printed_torque() {
    let row = published_torques()
        .find(|row| row.id() == "flare-sae-4")
        .unwrap();
    assert_eq!(row.purpose(), Purpose::FlareFitting);
    assert_eq!((row.size(), row.thread()), ("1/4 in tube", "7/16-20"));
    assert_eq!(
        (row.seat(), row.material()),
        ("37 degree flare", "steel tube, steel fitting")
    );
    assert_eq!(row.lubrication(), "lubricated");
    let rule = "1 flat (1/6 turn) past finger tight, instead of the torque";
    assert_eq!(
        (row.rule(), row.origin().note),
        (rule, "Threads from memory of SAE J514")
    );
    assert_eq!(row.printed(), "9 lbf·ft");
    let range = published_torques()
        .find(|row| row.id() == "flare-nut-1_8-5_16")
        .unwrap();
    assert_eq!(range.printed(), "3 to 5 lbf·ft");
}

/// DIN 935 and ISO 4014, from memory; ASME B18.2.1 has no castellated nut of M3.
#[test]
fn a_hexagon_part() {
    let catalogue = Catalogue::built_in();
    let part = |thread: &str| AcrossFlats::of(catalogue.thread(thread).unwrap()).unwrap();
    assert_eq!(part("M10").across_flats().get(), 16.0);
    assert_eq!(part("M10").castle_slots(), Some(6));
    assert_eq!(part("M42").castle_slots(), Some(8));
    assert_eq!(part("M10").cross_hole().unwrap().get(), 2.5);
    assert_eq!(part("M3").cross_hole(), None);
    assert_eq!(
        (part("M10").id(), part("1/2-13").id()),
        ("hex-m10", "hex-1_2")
    );
    assert_eq!(
        part("M10").origin().note,
        "17 mm across flats by the older DIN 931"
    );
    assert_eq!(
        (part("M10").to_string(), part("1/2-13").to_string()),
        ("M10".into(), "1/2 in".into())
    );
}

#[test]
fn a_metal() {
    let iron = Metal::called(" Cast Iron ").unwrap();
    assert_eq!(
        (iron.id(), iron.to_string().as_str()),
        ("grey-cast-iron", "grey cast iron")
    );
    // Engagement of 1.25 d, common practice.
    assert_eq!(iron.trade_engagement(), 1.25);
    let brass = Metal::called("brass").unwrap();
    assert_eq!(
        brass.origin().note,
        "Handbook rule 1.5 d; strength is a low estimate"
    );
    assert!(brass.aliases().contains(&"bronze"));
    assert!(Metal::called("cheese").is_err() && Metal::called(" ").is_err());
    let reason = |said: &str| Metal::called(said).unwrap_err();
    let too_long = clampbook_engine::FaultReason::TooLong { most: 64 };
    assert_ne!(reason(&"x".repeat(64)), too_long);
    assert_eq!(reason(&"x".repeat(65)), too_long);
    assert_eq!(reason(&"x".repeat(66)), too_long);
}

#[test]
fn a_lubrication_and_a_purpose() {
    let catalogue = Catalogue::built_in();
    let lubrication = catalogue.lubrication("moly").unwrap();
    assert_eq!(lubrication.to_string(), "MoS2 paste");
    let flake = catalogue.lubrication("zinc flake").unwrap();
    assert_eq!(flake.note(), "Band found, typical value from memory");
    for purpose in Purpose::ALL {
        assert_eq!(purpose.to_string(), purpose.id());
    }
    let ask = Ask {
        thread: "M10",
        grade: "8.8",
        lubrication: "moly",
        nut_grade: Some("8"),
        ..Ask::default()
    };
    let question = catalogue.resolve(&ask).unwrap();
    assert_eq!(question.lubrication(), Some(lubrication));
    assert_eq!(question.nut().map(|nut| nut.id()), Some("iso898-2-8"));
    let silent = Ask {
        lubrication: "",
        nut_factor: Some(0.2),
        nut_grade: None,
        ..ask
    };
    let question = catalogue.resolve(&silent).unwrap();
    assert_eq!((question.lubrication(), question.nut()), (None, None));
}

#[test]
fn a_thread() {
    let catalogue = Catalogue::built_in();
    let obsolete = catalogue.thread("1-14").unwrap();
    let note = "Obsolete NF series, common on older machines; today 1-12 is UNF";
    assert_eq!(obsolete.origin().note, note);
    assert_eq!(catalogue.thread("3/4-10").unwrap().origin().note, "");
}

/// Uses, bases and units are told in words.
#[test]
fn what_belongs_to_a_value() {
    use clampbook_engine::{
        quantity::LengthUnit,
        source::{Basis, UsedFor, basis_text},
    };
    assert_eq!(basis_text(Basis::Memory), "from memory");
    assert_eq!(UsedFor::Thread.text(), "thread");
    assert_eq!(LengthUnit::Inch.symbol(), "in");
}

#[test]
fn a_look_alike_and_a_misfit() {
    use clampbook_engine::identify::Misfit;
    let catalogue = Catalogue::built_in();
    let pair = catalogue
        .look_alikes()
        .find(|pair| pair.id() == "5_16-18-in-m8")
        .unwrap();
    let happens = "A 5/16-18 screw jams in an M8 nut after a turn or two.";
    assert_eq!(pair.what_happens(), happens);
    assert_eq!(pair.how_to_tell(), "Stop at the first resistance.");
    assert!(!pair.is_cruel());
    assert_eq!(Misfit::Pitch.text(), "Its pitch is different.");
}

/// RCSC: an A325 bolt of 1-1/8 in is pretensioned to 56 kip, 249.1 kN; NASA TM-106943 (1995): 146, 204 and 256 lbf in a
/// #2-56.
#[test]
fn a_printed_target() {
    use clampbook_engine::published_targets::{Target, published_targets};
    let find = |id: &str| published_targets().find(|row| row.id() == id).unwrap();
    let row = find("pretension-a325-1-1_8");
    assert_eq!(
        (row.size(), row.thread(), row.grade()),
        ("1-1/8", "1-1/8-7", "ASTM A325")
    );
    assert_eq!(row.lubrication(), "pretensioned or slip-critical");
    assert_eq!(row.origin().note, "Older edition, 105 ksi over 1 in");
    let Target::ClampLoad {
        minimum,
        nominal: None,
        maximum: None,
    } = row.target()
    else {
        panic!("{:?}", row.target());
    };
    assert!((minimum.get() - 249_100.0).abs() < 50.0);
    let Target::ClampLoad {
        minimum,
        nominal,
        maximum,
    } = find("a286-n2-56").target()
    else {
        panic!("no clamp load");
    };
    for (ours, newtons) in [
        (minimum, 649.4),
        (nominal.unwrap(), 907.4),
        (maximum.unwrap(), 1138.7),
    ] {
        assert!((ours.get() - newtons).abs() < 0.1, "{ours:?}");
    }
}
