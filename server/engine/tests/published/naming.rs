//! Threads named from published limits of size, grades from published head marks.

use super::{rows, same};
use clampbook_engine::{
    Catalogue,
    identify::{Measured, MeasuredAsk, Verdict},
};

/// ASME B1.1-2003 table 2: a screw of either limit of major diameter 2A, and a nut of either limit of minor diameter 2B, is
/// named as its thread; half a millimetre outside of them it is not.
#[test]
pub(super) fn parts_at_the_limits_of_their_class_are_named() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("asme_b1_1_limits.csv"));
    for row in &published {
        let thread = catalogue.thread(row.text("thread")).unwrap();
        let verdict = |internal, inches: f64, off_mm: f64| {
            let ask = MeasuredAsk {
                internal,
                diameter_mm: inches * 25.4 + off_mm,
                pitch_mm: Some(thread.pitch().get()),
                flank_angle_deg: Some(60.0),
                ..MeasuredAsk::default()
            };
            let found = catalogue.identify_thread(&Measured::new(&ask).unwrap());
            let own = found.candidates.into_iter().find(|c| c.thread == thread);
            own.map_or(Verdict::DoesNotFit, |c| c.verdict)
        };
        for (column, internal, outwards) in [
            ("major_min_2a", false, -0.5),
            ("major_max_2a", false, 0.5),
            ("minor_min_2b", true, -0.5),
            ("minor_max_2b", true, 0.5),
        ] {
            let inches = row.number(column);
            let what = format!("{thread} {column}");
            same(verdict(internal, inches, 0.0), Verdict::Fits, &what);
            assert_eq!(
                verdict(internal, inches, outwards),
                Verdict::DoesNotFit,
                "{what}"
            );
        }
    }
}

/// Marks as Shigley (9th ed., tables 8-9 to 8-11) draws them and the ASTM and ISO standards print them.
#[test]
pub(super) fn published_head_marks_lead_to_their_grades() {
    let catalogue = Catalogue::built_in();
    for (mark, grade) in [
        ("three radial lines", "j429-5"),
        ("three radial lines", "a449"),
        ("five radial lines", "j429-7"),
        ("six radial lines", "j429-8"),
        ("six radial lines", "a354-bd"),
        ("no mark", "j429-1"),
        ("no mark", "j429-2"),
        ("A325", "a325"),
        ("A490", "a490"),
        ("4.6", "iso898-4.6"),
        ("4.8", "iso898-4.8"),
        ("5.6", "iso898-5.6"),
        ("5.8", "iso898-5.8"),
        ("6.8", "iso898-6.8"),
        ("8.8", "iso898-8.8"),
        ("9.8", "iso898-9.8"),
        ("10.9", "iso898-10.9"),
        ("12.9", "iso898-12.9"),
        ("A2-50", "iso3506-a2-50"),
        ("A2-70", "iso3506-a2-70"),
        ("A2-80", "iso3506-a2-80"),
        ("A4-70", "iso3506-a4-70"),
        ("A4-80", "iso3506-a4-80"),
        ("F593C", "f593-cw1"),
        ("F593D", "f593-cw2"),
        ("307A", "a307-a"),
    ] {
        let found = catalogue.identify_head(mark).unwrap();
        let ids: Vec<_> = found.iter().map(|m| m.grade.id()).collect();
        let is_there = ids
            .iter()
            .any(|id| id.replace('.', "-") == grade.replace('.', "-"));
        same(is_there, true, &format!("{mark}: {ids:?} without {grade}"));
    }
}
