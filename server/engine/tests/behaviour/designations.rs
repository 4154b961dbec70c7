//! What people write for a thread, and which thread it is.

use clampbook_engine::{Catalogue, Designation, FaultReason};

#[test]
fn every_usual_way_of_writing_finds_its_thread() {
    let catalogue = Catalogue::built_in();
    let known = [
        ("7/16-20", "7/16-20 UNF"),
        ("7/16-20 UNF-2A", "7/16-20 UNF"),
        ("7/16-20UNF", "7/16-20 UNF"),
        ("7/16 - 20", "7/16-20 UNF"),
        (".4375-20", "7/16-20 UNF"),
        ("0.4375 UNF", "7/16-20 UNF"),
        ("7/16 in-20", "7/16-20 UNF"),
        ("7/16\"-20", "7/16-20 UNF"),
        ("7/16 inch fine", "7/16-20 UNF"),
        ("7/16 NF", "7/16-20 UNF"),
        ("#10-32", "#10-32 UNF"),
        ("10-32", "#10-32 UNF"),
        ("No. 10-32", "#10-32 UNF"),
        ("no 10 fine", "#10-32 UNF"),
        ("10 coarse", "#10-24 UNC"),
        ("#1-72", "#1-72 UNF"),
        ("1-72", "#1-72 UNF"),
        ("1-8", "1-8 UNC"),
        ("1 in-8", "1-8 UNC"),
        ("1 in coarse", "1-8 UNC"),
        ("1-20", "1-20 UNEF"),
        ("1-14", "1-14 UNS"),
        ("1/4-28 UNF-2B-LH", "1/4-28 UNF"),
        ("5/16 UNC", "5/16-18 UNC"),
        ("1/2 fine", "1/2-20 UNF"),
        ("1/2 coarse", "1/2-13 UNC"),
        ("1/2 extra fine", "1/2-28 UNEF"),
        ("1-1/4-7", "1-1/4-7 UNC"),
        ("1 1/4 UNC", "1-1/4-7 UNC"),
        ("1-1/8 8UN", "1-1/8-8 UN"),
        ("1-1/8 8-UN", "1-1/8-8 UN"),
        ("2-4 1/2", "2-4.5 UNC"),
        ("2-4.5", "2-4.5 UNC"),
        ("M10", "M10x1.5"),
        ("m10", "M10x1.5"),
        ("M10x1.25", "M10x1.25"),
        ("M10 x 1.5 - 6g", "M10x1.5"),
        ("M10X1,25", "M10x1.25"),
        ("M10×1.25-6H", "M10x1.25"),
        ("M10-1.25", "M10x1.25"),
        ("M10-6g", "M10x1.5"),
        ("M10 coarse", "M10x1.5"),
        ("M24x1.5-LH", "M24x1.5"),
        ("M9", "M9x1"),
        ("M6", "M6x1"),
    ];
    for (said, meant) in known {
        let found = catalogue.thread(said).map(ToString::to_string);
        assert_eq!(found.as_deref(), Ok(meant), "{said}");
    }
}

#[test]
fn class_and_hand_are_kept() {
    let catalogue = Catalogue::built_in();
    let (_, full) = catalogue.designate("1/4-28-2B-LH").unwrap();
    assert_eq!(full.to_string(), "1/4-28 UNF-2B-LH");
    assert_eq!(full.tolerance_class(), Some("2B"));
    assert!(full.is_left_hand());
    let (_, full) = catalogue.designate("M10-6g").unwrap();
    assert_eq!(full.to_string(), "M10x1.5-6g");
    let (_, full) = catalogue.designate("10 fine RH").unwrap();
    assert_eq!(full.to_string(), "#10-32 UNF");
    assert!(!full.is_left_hand());
}

#[test]
fn what_may_be_several_threads_is_asked_back() {
    let catalogue = Catalogue::built_in();
    let choices = |said: &str| match catalogue.thread(said) {
        Err(FaultReason::AmbiguousThread { choices, .. }) => choices,
        other => panic!("{said}: {other:?}"),
    };
    assert_eq!(choices("M12 fine"), ["M12x1.5", "M12x1.25", "M12x1"]);
    assert_eq!(choices("1/2"), ["1/2-13 UNC", "1/2-20 UNF", "1/2-28 UNEF"]);
    assert_eq!(choices("#8"), ["#8-32 UNC", "#8-36 UNF"]);
    assert_eq!(choices("1 fine"), ["#1-72 UNF", "1-12 UNF"]);
}

#[test]
fn what_is_no_thread_is_refused_with_what_would_be_one() {
    let catalogue = Catalogue::built_in();
    let known = |said: &str| match catalogue.thread(said) {
        Err(FaultReason::UnknownThread { known, .. }) => known,
        other => panic!("{said}: {other:?}"),
    };
    let sizes = [
        "7/16-14 UNC",
        "7/16-20 UNF",
        "7/16-28 UNEF",
        "7/16-14 BSW",
        "7/16-18 BSF",
        "7/16-26 BSC",
        "7/16-20 BSC",
    ];
    assert_eq!(known("7/16-24"), sizes);
    assert_eq!(known("7/16-20 UNC"), sizes);
    assert_eq!(
        known("M10x1.4"),
        ["M10x1.5", "M10x1.25", "M10x1", "M10x0.75"]
    );
    for nonsense in [
        "banana",
        "M",
        "Mx1",
        "x",
        "-",
        "/",
        "7/0-20",
        "7/16-",
        "M0x1",
        "M-10",
        "#",
        "#99-32",
        "1e9",
        "NaN",
        "M1e3",
        "7/16-20 UNF UNC",
        "7/16-20-2A-3A",
        "M10x1.25 UNF",
        "½-20",
        "10/12-3",
        "M10x0",
        "1/3-20",
        "999999999999-20",
        "1/4-28 BSF",
        "7/16-20 LH LH",
    ] {
        assert!(
            matches!(
                catalogue.thread(nonsense),
                Err(FaultReason::UnknownThread { .. }) | Err(FaultReason::AmbiguousThread { .. })
            ),
            "{nonsense}"
        );
    }
    assert!(matches!(catalogue.thread(" "), Err(FaultReason::Missing)));
    assert!(matches!(
        catalogue.thread(&"1".repeat(65)),
        Err(FaultReason::TooLong { most: 64 })
    ));
}

#[test]
fn whatever_the_catalogue_prints_it_reads() {
    let catalogue = Catalogue::built_in();
    for thread in catalogue.threads() {
        let printed = thread.to_string();
        assert_eq!(catalogue.thread(&printed), Ok(thread), "{printed}");
        let (_, full) = catalogue.designate(&printed).unwrap();
        assert_eq!(full.to_string(), printed);
        assert_eq!(Designation::parse(&printed), Ok(full), "{printed}");
        assert_eq!(catalogue.thread_by_id(thread.id()), Some(thread));
    }
}

#[test]
fn fractions_and_decimals_are_sixty_fourths_up_to_twelve_inches() {
    for inches in [
        "1/64", "63/64", "7/16", "12-1/2", "1.25", ".5", "0.015625", "12",
    ] {
        assert!(Designation::parse(inches).is_ok(), "{inches}");
    }
    for nonsense in [
        "0/4", "4/4", "5/4", "1/3", "3/96", "1/128", "13-1/2", "1-0/2", "1-4/4", "1-1/3",
        "1-1/128", ".3", "1.3", "12.5", "13", "M0", "M1000", "M.5",
    ] {
        assert!(Designation::parse(nonsense).is_err(), "{nonsense}");
    }
    assert!(Designation::parse("M999").is_ok());
    let catalogue = Catalogue::built_in();
    for (said, meant) in [
        ("1.25-7", "1-1/4-7 UNC"),
        ("1 extra fine", "1-20 UNEF"),
        ("No10-32", "#10-32 UNF"),
        ("1/2-2A fine", "1/2-20 UNF"),
        ("M10x1.5", "M10x1.5"),
        ("M12 coarse", "M12x1.75"),
    ] {
        let (thread, full) = catalogue.designate(said).unwrap();
        assert_eq!(thread.to_string(), meant, "{said}");
        assert_eq!(catalogue.thread(&full.to_string()), Ok(thread), "{said}");
    }
}

/// A #5 measures 0.125 in; it is not a 1/8 all the same.
#[test]
fn a_number_size_is_no_fraction() {
    let catalogue = Catalogue::built_in();
    assert_eq!(catalogue.thread("#5-44").unwrap().to_string(), "#5-44 UNF");
    let Err(FaultReason::UnknownThread { known, .. }) = catalogue.thread("1/8-44") else {
        panic!("1/8-44 is none");
    };
    assert!(known.iter().all(|k| !k.starts_with('#')), "{known:?}");
    let known = |said: &str| match catalogue.thread(said) {
        Err(FaultReason::UnknownThread { known, .. }) => known,
        other => panic!("{said}: {other:?}"),
    };
    assert!(known("#5-99").iter().all(|k| k.starts_with("#5-")));
    // 0 BA measures 6.0 mm, and is no M6.
    assert!(known("M6x9").iter().all(|k| k.starts_with("M6x")));
}

#[test]
fn what_cannot_be_read_is_told_how_to_write_it() {
    let error = Designation::parse("banana").unwrap_err().to_string();
    assert!(error.contains("write it like 7/16-20"), "{error}");
}

#[test]
fn texts_may_be_as_long_as_allowed() {
    let catalogue = Catalogue::built_in();
    let padded = |length: usize| format!("{:<length$}", "M10");
    assert!(catalogue.thread(&padded(64)).is_ok());
    let too_long = Err(FaultReason::TooLong { most: 64 });
    assert_eq!(catalogue.thread(&padded(65)), too_long);
    assert_eq!(catalogue.thread(&padded(66)), too_long);
}
