//! Bolts as the standards have them: thread, body, lengths in stock.

use clampbook_engine::{
    joint::reach::{body_and_grip, next_standard_length, standard_thread_length},
    thread::System,
    units::Millimetres,
};

fn mm(value: f64) -> Millimetres {
    Millimetres::new(value).unwrap()
}

/// ISO 888:2012: b = 2 d + 6 up to 125 mm, + 12 up to 200, + 25 above; never longer than the bolt.
#[test]
fn longer_bolts_have_longer_threads() {
    for (length, thread) in [
        (20.0, 20.0),
        (125.0, 26.0),
        (130.0, 32.0),
        (200.0, 32.0),
        (220.0, 45.0),
    ] {
        let ours = standard_thread_length(System::Metric, mm(10.0), mm(length));
        assert_eq!(ours.get(), thread, "{length}");
    }
    assert_eq!(body_and_grip(mm(30.0), mm(26.0), mm(1.5)), (0.0, 4.0));
}

/// Inch lengths in stock: eighths to 1 in, quarters to 6 in, halves to 20 in (common practice).
#[test]
fn the_next_length_in_stock() {
    for (needed, stocked) in [
        (0.1, Some(0.25)),
        (0.26, Some(0.375)),
        (0.9, Some(1.0)),
        (1.0, Some(1.0)),
        (1.05, Some(1.25)),
        (1.3, Some(1.5)),
        (5.9, Some(6.0)),
        (6.05, Some(6.5)),
        (19.6, Some(20.0)),
        (20.0, Some(20.0)),
        (20.01, None),
    ] {
        let ours = next_standard_length(System::Inch, needed * 25.4);
        assert_eq!(ours, stocked.map(|inches: f64| inches * 25.4), "{needed}");
        assert_eq!(next_standard_length(System::British, needed * 25.4), ours);
    }
    // A sum of decimals that lies a hair above the length it means.
    assert_eq!(
        next_standard_length(System::Inch, 31.75 + 1e-10),
        Some(31.75)
    );
    assert_eq!(
        next_standard_length(System::Metric, 34.7 + 29.6 + 0.7),
        Some(65.0)
    );
    for (needed, stocked) in [
        (1.0, Some(2.0)),
        (16.1, Some(20.0)),
        (65.0, Some(65.0)),
        (340.0, Some(340.0)),
        (340.1, None),
    ] {
        assert_eq!(next_standard_length(System::Metric, needed), stocked);
    }
}
