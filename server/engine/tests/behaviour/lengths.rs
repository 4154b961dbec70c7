//! Odd lengths in a joint.

use clampbook_engine::length::{Lengths, Measured, odd_lengths, standard_length_tolerance};

fn lengths(mm: &[f64], pitch: f64) -> Lengths {
    let measured: Vec<Measured> = mm
        .iter()
        .zip(1..)
        .map(|(&length_mm, position)| Measured {
            position,
            length_mm,
            uncertainty_mm: 0.5,
        })
        .collect();
    odd_lengths(&measured, pitch)
}

fn odd(mm: &[f64], pitch: f64) -> Vec<u32> {
    match lengths(mm, pitch) {
        Lengths::Odd { odd, .. } => odd.into_iter().flat_map(|g| g.positions).collect(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn one_long_bolt_among_four_is_odd() {
    assert_eq!(odd(&[45.0, 45.2, 50.0, 44.9], 1.5), [3]);
    assert_eq!(odd(&[45.0, 40.0, 50.0, 45.0, 45.0], 1.5), [2, 3]);
}

#[test]
fn two_and_two_is_two_lengths_without_a_majority() {
    let Lengths::NoMajority(groups) = lengths(&[45.0, 50.0, 45.0, 50.0], 1.5) else {
        panic!("two and two");
    };
    let positions: Vec<_> = groups.iter().map(|g| g.positions.clone()).collect();
    assert_eq!(positions, [[1, 3], [2, 4]]);
    assert!((groups[1].mean_mm - 50.0).abs() < 1e-12);
}

#[test]
fn what_pitch_measuring_error_or_tolerance_explain_is_alike() {
    // 45 mm bolts may differ by 1.25 mm (js17), by a pitch, by both measuring errors.
    assert!(matches!(lengths(&[45.0, 46.2], 0.5), Lengths::Alike(_)));
    assert!(matches!(
        lengths(&[45.0, 46.3], 0.5),
        Lengths::NoMajority(_)
    ));
    assert!(matches!(lengths(&[45.0, 46.9], 2.0), Lengths::Alike(_)));
    let rough = |length_mm, position| Measured {
        position,
        length_mm,
        uncertainty_mm: 2.0,
    };
    assert!(matches!(
        odd_lengths(&[rough(45.0, 1), rough(49.0, 2)], 1.0),
        Lengths::Alike(_)
    ));
    assert!(matches!(
        odd_lengths(&[rough(45.0, 1), rough(49.1, 2)], 1.0),
        Lengths::NoMajority(_)
    ));
}

#[test]
fn exactly_at_a_limit_is_still_alike() {
    // 46.25 - 45 is the tolerance; 47 - 45 the pitch; 49 - 45 both measuring errors, 1.5 and 2.5.
    assert!(matches!(lengths(&[45.0, 46.25], 0.5), Lengths::Alike(_)));
    assert!(matches!(lengths(&[45.0, 47.0], 2.0), Lengths::Alike(_)));
    let measured = |long: f64| {
        let of = |position, length_mm, uncertainty_mm| Measured {
            position,
            length_mm,
            uncertainty_mm,
        };
        odd_lengths(&[of(1, 45.0, 1.5), of(2, long, 2.5)], 1.0)
    };
    assert!(matches!(measured(49.0), Lengths::Alike(_)));
    // 3.9 lies above 1.5 x 2.5 but within 1.5 + 2.5.
    assert!(matches!(measured(48.9), Lengths::Alike(_)));
    assert!(matches!(measured(49.1), Lengths::NoMajority(_)));
}

#[test]
fn small_steps_do_not_chain_short_to_long() {
    assert!(!matches!(
        lengths(&[45.0, 46.2, 47.4], 0.5),
        Lengths::Alike(_)
    ));
}

#[test]
fn one_measurement_or_nonsense_says_nothing() {
    assert_eq!(lengths(&[], 1.0), Lengths::NothingToCompare);
    assert_eq!(lengths(&[45.0], 1.0), Lengths::NothingToCompare);
    assert_eq!(lengths(&[45.0, 0.0], 1.0), Lengths::NothingToCompare);
    assert_eq!(
        lengths(&[45.0, f64::NAN, -3.0, f64::INFINITY], 1.0),
        Lengths::NothingToCompare
    );
}

#[test]
fn an_unknown_pitch_excuses_nothing() {
    for pitch in [f64::NAN, f64::INFINITY, -1.0] {
        assert_eq!(odd(&[45.0, 45.2, 50.0, 44.9], pitch), [3]);
    }
}

/// ISO 286-1 IT17, halved: 18 to 30 mm 2.1, 80 to 120 mm 3.5.
#[test]
fn tolerances_are_half_of_it17() {
    assert_eq!(standard_length_tolerance(30.0), 1.05);
    assert_eq!(standard_length_tolerance(30.1), 1.25);
    // ISO 286-1, IT17: 5.7 mm over 315 to 400, 6.3 mm over 400.
    assert_eq!(standard_length_tolerance(400.0), 2.85);
    assert_eq!(standard_length_tolerance(400.1), 3.15);
    assert_eq!(standard_length_tolerance(100.0), 1.75);
    assert_eq!(standard_length_tolerance(5000.0), 3.15);
}
