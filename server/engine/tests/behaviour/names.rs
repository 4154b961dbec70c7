//! What people say for a grade, a nut or a lubrication.

use clampbook_engine::{Catalogue, FaultReason};

#[test]
fn every_usual_way_of_saying_finds_its_grade() {
    let catalogue = Catalogue::built_in();
    let known = [
        ("SAE J429 5", "SAE J429 5"),
        ("J429 grade 5", "SAE J429 5"),
        ("grade 5", "SAE J429 5"),
        ("Grade5", "SAE J429 5"),
        ("5", "SAE J429 5"),
        ("sae 5.2", "SAE J429 5.2"),
        ("8", "SAE J429 8"),
        ("8.8", "ISO 898-1 8.8"),
        ("ISO 898-1 8.8", "ISO 898-1 8.8"),
        ("class 10.9", "ISO 898-1 10.9"),
        ("property class 12.9", "ISO 898-1 12.9"),
        ("A2-70", "ISO 3506-1 A2-70"),
        ("a4 80", "ISO 3506-1 A4-80"),
        ("F593 CW1", "ASTM F593 CW1"),
        ("F593C", "ASTM F593 CW1"),
        ("group 2 CW2", "ASTM F593 CW2"),
        ("iso898-8.8", "ISO 898-1 8.8"),
    ];
    for (said, meant) in known {
        let found = catalogue.grade(said).map(ToString::to_string);
        assert_eq!(found.as_deref(), Ok(meant), "{said}");
    }
}

#[test]
fn a_grade_that_is_none_or_several_is_said_so() {
    let catalogue = Catalogue::built_in();
    for nonsense in [
        "9", "A5-70", "J429 8.8", "grade", "SAE J429", "banana", "ISO 5", "-5-",
    ] {
        let known = nonsense == "-5-";
        assert_eq!(catalogue.grade(nonsense).is_ok(), known, "{nonsense}");
    }
    let Err(FaultReason::AmbiguousGrade { choices, .. }) = catalogue.grade("F593 CW") else {
        panic!("CW is CW1 or CW2");
    };
    assert_eq!(choices, ["ASTM F593 CW1", "ASTM F593 CW2"]);
}

#[test]
fn every_name_leads_back_to_its_row() {
    let catalogue = Catalogue::built_in();
    for grade in catalogue.grades() {
        assert_eq!(catalogue.grade(&grade.to_string()), Ok(grade));
        assert_eq!(catalogue.grade(grade.id()), Ok(grade));
        assert_eq!(catalogue.grade_by_id(grade.id()), Some(grade));
    }
    for lubrication in catalogue.lubrications() {
        for name in [lubrication.id(), lubrication.name()]
            .iter()
            .chain(lubrication.aliases())
        {
            assert_eq!(catalogue.lubrication(name), Ok(lubrication), "{name}");
        }
        assert_eq!(
            catalogue.lubrication_by_id(lubrication.id()),
            Some(lubrication)
        );
    }
    for nut in catalogue.nuts() {
        let fitting = catalogue
            .threads()
            .iter()
            .find(|t| nut.proof_at(t).is_some())
            .unwrap();
        assert_eq!(catalogue.nut(&nut.to_string(), fitting), Ok(nut), "{nut}");
        assert_eq!(catalogue.nut_by_id(nut.id()), Some(nut));
    }
    assert!(catalogue.lubrications().len() >= 12);
}

#[test]
fn the_thread_tells_nuts_of_two_standards_apart() {
    let catalogue = Catalogue::built_in();
    let nut = |said: &str, thread: &str| {
        let thread = catalogue.thread(thread).unwrap();
        catalogue.nut(said, thread).map(ToString::to_string)
    };
    assert_eq!(nut("8", "1/2-13").as_deref(), Ok("SAE J995 8"));
    assert_eq!(nut("8", "M12").as_deref(), Ok("ISO 898-2 8"));
    assert_eq!(
        nut("A563 DH", "3/4-10").as_deref(),
        Ok("ASTM A563 DH heavy")
    );
    assert_eq!(nut("class 10 nut", "M12").as_deref(), Ok("ISO 898-2 10"));
    assert_eq!(nut("8", "M10x1.25").as_deref(), Ok("ISO 898-2 8"));
    assert!(matches!(
        nut("8", "M42"),
        Err(FaultReason::NutDoesNotFitSize { .. })
    ));
    assert!(matches!(
        nut("DH", "1/2-20"),
        Err(FaultReason::NutDoesNotFitSize { .. })
    ));
    assert!(matches!(
        nut("99", "M12"),
        Err(FaultReason::UnknownNutGrade { .. })
    ));
}

#[test]
fn a_rusty_or_dirty_thread_is_no_lubrication() {
    let catalogue = Catalogue::built_in();
    for said in ["rusty", "a bit dirty", "Rusty and oiled", "painted"] {
        let refused = catalogue.lubrication(said).unwrap_err();
        assert!(
            matches!(refused, FaultReason::LubricationRefused { .. }),
            "{said}"
        );
        assert!(
            refused.to_string().contains("clean and oil them first"),
            "{refused}"
        );
    }
    assert!(matches!(
        catalogue.lubrication("wet"),
        Err(FaultReason::UnknownLubrication { .. })
    ));
}
