//! Spanners: which threads they are for, and how they sit.

use clampbook_engine::{
    Catalogue,
    identify::{SpannerFit, SpannerMatch},
    units::Millimetres,
};

#[test]
fn a_spanner_leads_to_its_threads_and_back() {
    let catalogue = Catalogue::built_in();
    let of = |inches: f64| catalogue.identify_spanner(Millimetres::new(inches * 25.4).unwrap());
    let sizes = of(0.525);
    let right: Vec<&str> = sizes
        .iter()
        .filter(|m| m.fit == SpannerFit::Right)
        .map(|m| m.thread_size.as_str())
        .collect();
    assert_eq!(right, ["1/4 BSW", "5/16 BSW", "5/16 BSF"]);
    assert_eq!(of(9.0 / 16.0)[0].thread_size, "3/8 UNC, UNF");
    let loose = of(13.5 / 25.4);
    let m8 = loose.iter().find(|m| m.thread_size == "M8").unwrap();
    assert_eq!(m8.fit, SpannerFit::Loose);
    let back = catalogue.spanners_for(catalogue.thread("5/16 BSF").unwrap());
    assert!((back[0].across_flats_mm / 25.4 - 0.525).abs() < 1e-9);
    assert!(
        catalogue
            .spanners_for(catalogue.thread("#10-32").unwrap())
            .is_empty()
    );
}

/// Flats 13 mm: a 13.15 spanner is right, one of 13.16 to 13.6 turns and rounds, others are none for it.
#[test]
fn spanners_are_right_or_loose_or_none() {
    let catalogue = Catalogue::built_in();
    let at = |width| {
        let found = catalogue.identify_spanner(Millimetres::new(width).unwrap());
        let m8 = found.iter().find(|m| m.thread_size == "M8");
        m8.map(|m| m.fit)
    };
    assert_eq!(at(13.0), Some(SpannerFit::Right));
    assert_eq!(at(12.86), Some(SpannerFit::Right));
    assert_eq!(at(13.16), Some(SpannerFit::Loose));
    assert_eq!(at(13.59), Some(SpannerFit::Loose));
    assert_eq!(at(12.84), None);
    assert_eq!(at(13.61), None);
    // The nearest comes first among those that fit alike.
    for width in [13.0, 14.2, 16.3, 19.2, 24.0] {
        let found = catalogue.identify_spanner(Millimetres::new(width).unwrap());
        let off = |m: &SpannerMatch| width - m.across_flats_mm;
        assert!(found.is_sorted_by(|a, b| (a.fit, off(a).abs()) <= (b.fit, off(b).abs())));
    }
}
