//! British threads, old grades, overlap of look-alikes.

use super::{close, reckoned, rows, same};
use clampbook_engine::{Catalogue, identify::overlap_share, insert::insert_hole};

const TON_FORCE_PER_SQUARE_INCH: f64 = 15.444_256;

#[test]
pub(super) fn british_diameters_are_those_published() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("british_threads.csv"));
    assert!(published.len() >= 70, "{}", published.len());
    for row in &published {
        let name = row.text("thread");
        let thread = catalogue.thread(name).unwrap();
        let unit = if row.text("unit") == "in" { 25.4 } else { 1.0 };
        for (column, ours) in [
            ("pitch_diameter", thread.geometry().pitch_diameter),
            ("minor_diameter", thread.geometry().external_minor_diameter),
        ] {
            // The tables cut some halves off: half a digit and a hair.
            let tolerance = row.half_last_digit(column) * 1.001;
            close(ours.get() / unit, row.number(column), tolerance, name);
        }
    }
}

/// BS 93: pitch 0.9 to the power of the number, diameter 6 p to the power 1.2, each to two figures.
#[test]
pub(super) fn ba_sizes_follow_the_rule_of_their_standard() {
    let catalogue = Catalogue::built_in();
    for number in 0..=16_i32 {
        let thread = catalogue.thread(&format!("{number} BA")).unwrap();
        let pitch = 0.9_f64.powi(number);
        let diameter = 6.0 * pitch.powf(1.2);
        reckoned(thread.pitch().get(), pitch, 0.005_001, "pitch");
        reckoned(thread.diameter().get(), diameter, 0.051, "diameter");
    }
}

/// One table prints 1.625 in for the diameter of 1-3/8-24 cycle thread and 1.326 in for its core.
#[test]
pub(super) fn a_misprinted_cycle_thread_is_not_ours() {
    let catalogue = Catalogue::built_in();
    let thread = catalogue.thread("1-3/8-24 BSC").unwrap();
    assert!((thread.diameter().get() / 25.4 - 1.625).abs() > 0.2);
    assert!((thread.geometry().external_minor_diameter.get() / 25.4 - 1.326).abs() > 0.0005);
}

#[test]
pub(super) fn old_grades_are_those_published() {
    let catalogue = Catalogue::built_in();
    // ksi: ASTM rows of Shigley 9th ed. table 8-9 and the ASTM standards; tonf/in2: BS 1083, BS 1768.
    let ksi = 6.894_757;
    let strengths = [
        ("A307", "1/2-13", None, Some(36.0), 60.0),
        ("a449", "1-8", Some(85.0), Some(92.0), 120.0),
        ("a449", "1-1/4-7", Some(74.0), Some(81.0), 105.0),
        ("a449", "1-3/4-5", Some(55.0), Some(58.0), 90.0),
        ("ASTM A325 type 1", "1-8", Some(85.0), Some(92.0), 120.0),
        ("ASTM A325 type 1", "1-1/8-7", Some(74.0), Some(81.0), 105.0),
        ("f3125-a325", "1-1/8-7", Some(85.0), Some(92.0), 120.0),
        ("A490", "1-8", Some(120.0), Some(130.0), 150.0),
        ("A354 BC", "1-8", Some(105.0), Some(109.0), 125.0),
        ("A354 BD", "1-8", Some(120.0), Some(130.0), 150.0),
        ("a574", "1/4-20", Some(140.0), Some(153.0), 180.0),
        ("a574", "#4-40", Some(140.0), Some(153.0), 180.0),
        ("a574", "3/4-10", Some(135.0), Some(153.0), 170.0),
        ("silicon bronze", "1/2-13", None, Some(55.0), 75.0),
    ];
    for (grade, thread, proof, yields, tensile) in strengths {
        let thread = catalogue.thread(thread).unwrap();
        let found = catalogue.grade(grade).unwrap().strength_at(thread).unwrap();
        let in_ksi =
            |s: Option<clampbook_engine::units::Megapascals>| s.map(|s| (s.get() / ksi).round());
        let what = format!("{grade} {thread}");
        same(in_ksi(found.proof()), proof, &what);
        same(in_ksi(found.yield_stress()), yields, &what);
        same(in_ksi(Some(found.tensile())), Some(tensile), &what);
    }
    let letters = [
        ("bs-a", 28.0),
        ("bs-b", 28.0),
        ("bs-p", 35.0),
        ("bs-r", 45.0),
        ("bs-s", 50.0),
        ("bs-t", 55.0),
        ("bs-v", 65.0),
        ("bs-x", 75.0),
        ("bs-y", 80.0),
    ];
    for (grade, tons) in letters {
        let thread = catalogue.thread("1/2 BSF").unwrap();
        let found = catalogue.grade(grade).unwrap().strength_at(thread).unwrap();
        assert!(!found.is_proven(), "{grade}");
        close(
            found.tensile().get(),
            tons * TON_FORCE_PER_SQUARE_INCH,
            0.01,
            grade,
        );
    }
}

/// Reckoned by hand from basic sizes.
#[test]
pub(super) fn look_alikes_bear_on_a_share_of_their_depth() {
    let catalogue = Catalogue::built_in();
    let pairs = [
        ("M12x1.25", "1/2-20", 0.491),
        ("M8x1.25", "5/16-18", 1.041),
        ("5/16-18", "M8x1.25", 0.954),
        ("M14x1.5", "9/16-18", 0.812),
        ("3/8-24", "M10x1", 0.561),
        ("#10-32", "M5x0.8", 0.799),
        ("1/4-20", "1/4-20 BSW", 1.0),
    ];
    for (screw, nut, share) in pairs {
        let (screw, nut) = (
            catalogue.thread(screw).unwrap(),
            catalogue.thread(nut).unwrap(),
        );
        reckoned(
            overlap_share(screw, nut),
            share,
            0.0005,
            &format!("{screw} in {nut}"),
        );
    }
}

/// ASME B18.29.1, from memory: STI tapped holes, in.
#[test]
pub(super) fn insert_holes_are_those_published() {
    let catalogue = Catalogue::built_in();
    let hole = insert_hole(catalogue.thread("1/4-20").unwrap()).unwrap();
    close(hole.major.get() / 25.4, 0.3150, 0.000_06, "major");
    close(hole.pitch.get() / 25.4, 0.2825, 0.000_06, "pitch");
    close(hole.minor.get() / 25.4, 0.2608, 0.000_06, "minor");
    // The parent metal shears at 0.3150 in instead of 0.2500.
    reckoned(hole.shear_gain, 0.3150 / 0.2500, 0.0003, "gain");
    assert!(insert_hole(catalogue.thread("1/4 BSF").unwrap()).is_none());
}
