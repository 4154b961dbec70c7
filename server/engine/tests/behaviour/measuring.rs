//! Where measuring a thread draws its lines: limits, errors, wear, gauges, reckoned by hand.

use clampbook_engine::{
    Catalogue,
    identify::{Identified, Measured, MeasuredAsk, Misfit, Verdict},
    strength::limits::{Fit, external_limits, internal_limits},
};
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

/// Without wear, and with as little error as can be.
fn exact(diameter_mm: f64, pitch_mm: Option<f64>) -> MeasuredAsk {
    MeasuredAsk {
        diameter_mm,
        diameter_error_mm: Some(0.001),
        wear_mm: Some(0.0),
        pitch_mm,
        ..MeasuredAsk::default()
    }
}

fn identify(ask: &MeasuredAsk) -> Identified<'static> {
    CATALOGUE.identify_thread(&Measured::new(ask).unwrap())
}

/// How a thread stands; `None` where it is not even told.
fn stands(name: &str, ask: &MeasuredAsk) -> Option<(Verdict, bool, Vec<Misfit>)> {
    let found = identify(ask).candidates;
    let found = found.into_iter().find(|c| c.thread.to_string() == name)?;
    Some((found.verdict, found.only_if_worn, found.misfits))
}

fn fits(name: &str, ask: &MeasuredAsk) -> bool {
    stands(name, ask).is_some_and(|(verdict, ..)| verdict == Verdict::Fits)
}

/// ISO 965-1: an M10 6g is 9.732 to 9.968 mm outside, its nut 8.376 to 8.676 inside.
#[test]
fn a_caliper_error_widens_the_limits() {
    let screw = |diameter, error| {
        let ask = MeasuredAsk {
            diameter_error_mm: Some(error),
            ..exact(diameter, Some(1.5))
        };
        fits("M10x1.5", &ask)
    };
    assert!(!screw(9.725, 0.001) && screw(9.725, 0.01));
    assert!(!screw(9.975, 0.001) && screw(9.975, 0.01));
    let bore = |diameter, error| {
        let ask = MeasuredAsk {
            internal: true,
            diameter_error_mm: Some(error),
            ..exact(diameter, Some(1.5))
        };
        fits("M10x1.5", &ask)
    };
    assert!(!bore(8.370, 0.001) && bore(8.370, 0.01));
    assert!(!bore(8.682, 0.001) && bore(8.682, 0.01));
}

/// A size that its error takes exactly to a limit agrees with it, and is not yet worn.
#[test]
fn a_limit_itself_agrees() {
    let thread = CATALOGUE.thread("M10").unwrap();
    let screw = external_limits(thread, Fit::Medium).unwrap().major;
    let bore = internal_limits(thread, Fit::Medium).unwrap().minor;
    for (internal, limit, sign) in [
        (false, screw.minimum.get(), 1.0),
        (false, screw.most.get(), -1.0),
        (true, bore.minimum.get(), 1.0),
        (true, bore.most.get(), -1.0),
    ] {
        // An eighth can be added and taken off without rounding.
        let diameter = limit - sign * 0.125;
        assert_eq!(diameter + sign * 0.125, limit);
        let ask = MeasuredAsk {
            internal,
            diameter_error_mm: Some(0.125),
            ..exact(diameter, Some(1.5))
        };
        let expected = Some((Verdict::Fits, false, vec![]));
        assert_eq!(stands("M10x1.5", &ask), expected, "{limit}");
        let worn = MeasuredAsk {
            wear_mm: Some(0.5),
            ..ask
        };
        assert_eq!(stands("M10x1.5", &worn), expected, "{limit}");
    }
}

/// Wear makes screws thinner and bores wider, and never the other way.
#[test]
fn wear_goes_one_way() {
    let worn = |internal, diameter_mm| {
        let ask = MeasuredAsk {
            internal,
            wear_mm: Some(0.2),
            ..exact(diameter_mm, Some(1.5))
        };
        stands("M10x1.5", &ask).map(|(verdict, only_if_worn, _)| (verdict, only_if_worn))
    };
    let may = Some((Verdict::MayFit, true));
    assert_eq!(worn(false, 9.6), may);
    assert_eq!(worn(true, 8.8), may);
    let is_not =
        |found: Option<(Verdict, bool)>| found.is_none_or(|f| f == (Verdict::DoesNotFit, false));
    assert!(is_not(worn(false, 10.1)) && is_not(worn(true, 8.2)));
}

/// British threads have no limits in the tables: outside 0.12 P below basic, inside 0.2 P + 0.1 mm above. A 1/2 BSW has
/// 12.7 mm and a pitch of 2.1167, so 12.446; its core of 9.989 mm may be 10.513. A 1/4 BSF of pitch 0.9769 has 6.2328,
/// 5.099 and 5.394.
#[test]
fn british_threads_have_limits_of_practice() {
    for (name, pitch, outside, inside) in [
        ("1/2-12 BSW", 2.1167, (12.446, 12.7), (9.989, 10.513)),
        ("1/4-26 BSF", 0.9769, (6.2328, 6.35), (5.099, 5.394)),
    ] {
        let at = |internal, diameter| {
            let ask = MeasuredAsk {
                internal,
                ..exact(diameter, Some(pitch))
            };
            fits(name, &ask)
        };
        for (internal, (minimum, most)) in [(false, outside), (true, inside)] {
            assert!(at(internal, minimum + 0.003) && at(internal, most - 0.003));
            assert!(!at(internal, minimum - 0.003) && !at(internal, most + 0.003));
        }
    }
}

/// An error of 0.05 mm as decimals have it reaches from 1.50 to 1.55.
#[test]
fn a_pitch_may_be_off_by_all_of_its_error() {
    let at = |pitch| {
        let ask = MeasuredAsk {
            pitch_error_mm: Some(0.05),
            ..exact(9.9, Some(pitch))
        };
        fits("M10x1.5", &ask)
    };
    assert!(at(1.45) && at(1.55));
    assert!(!at(1.449) && !at(1.551));
}

/// Who is told although it does not fit: the partner, in a known pair, of one that does or may. And pairs are told where
/// one of the likeliest belongs to them.
#[test]
fn look_alikes_are_told_beside_what_agrees() {
    for (internal, diameter, pitch) in [
        (false, 9.9, Some(1.5)),
        (false, 11.9, Some(1.25)),
        (false, 12.38, Some(1.27)),
        (false, 7.9, None),
        (true, 6.8, Some(1.25)),
    ] {
        let found = identify(&MeasuredAsk {
            internal,
            diameter_mm: diameter,
            pitch_mm: pitch,
            ..MeasuredAsk::default()
        });
        let agree = |verdict: fn(Verdict) -> bool| {
            let agreeing = found.candidates.iter().filter(move |c| verdict(c.verdict));
            agreeing.map(|c| c.thread.id()).collect::<Vec<_>>()
        };
        let agreeing = agree(|v| v != Verdict::DoesNotFit);
        let partners: Vec<_> = CATALOGUE
            .look_alikes()
            .map(|pair| [pair.external().id(), pair.internal().id()])
            .filter(|pair| pair.iter().any(|id| agreeing.contains(id)))
            .flatten()
            .collect();
        for other in agree(|v| v == Verdict::DoesNotFit) {
            assert!(partners.contains(&other), "{other} at {diameter}");
        }
        let likeliest = match agree(|v| v == Verdict::Fits) {
            none if none.is_empty() => agreeing,
            fitting => fitting,
        };
        let told: Vec<_> = found.look_alikes.iter().map(|pair| pair.id()).collect();
        let expected: Vec<_> = CATALOGUE
            .look_alikes()
            .filter(|pair| {
                likeliest.contains(&pair.external().id())
                    || likeliest.contains(&pair.internal().id())
            })
            .map(|pair| pair.id())
            .collect();
        assert_eq!(told, expected, "{diameter}");
        assert!(!found.candidates.is_empty());
    }
}

/// M12x1.25 in a 1/2-20 nut: (12 - 11.325)/(12.7 - 11.325); 1/4-20 UNC in Whitworth: core of 1/4 BSW 6.35 - 2 x 0.640327 x
/// 1.27 = 4.724 mm, so both are as deep.
#[test]
fn how_much_of_a_look_alike_bears() {
    let share = |id: &str| {
        let mut pairs = CATALOGUE.look_alikes();
        pairs.find(|pair| pair.id() == id).unwrap().overlap_share()
    };
    assert!((share("m12-fine-in-1_2-20") - 0.491).abs() < 0.0005);
    assert!((share("1_4-20-unc-in-bsw") - 1.0).abs() < 1e-9);
}

/// What was given is reckoned with; else a caliper's error of 0.05, a gauge's of 0.03 and wear of 0.10 mm (common practice).
#[test]
fn errors_and_wear_that_were_reckoned_with_are_told() {
    let told = |ask: &MeasuredAsk| {
        let measured = Measured::new(ask).unwrap();
        let errors = (measured.diameter_error_mm(), measured.pitch_error_mm());
        (errors, measured.wear_mm())
    };
    let usual = MeasuredAsk {
        diameter_mm: 9.9,
        pitch_mm: Some(1.5),
        ..MeasuredAsk::default()
    };
    assert_eq!(told(&usual), ((0.05, 0.03), 0.10));
    let own = MeasuredAsk {
        diameter_error_mm: Some(0.02),
        pitch_error_mm: Some(0.01),
        wear_mm: Some(0.3),
        ..usual
    };
    assert_eq!(told(&own), ((0.02, 0.01), 0.3));
}

#[test]
fn only_standards_that_decided_are_cited() {
    use clampbook_engine::thread::System;
    for (diameter, pitch, systems) in [
        (23.9, 3.0, &[System::Metric][..]),
        (25.3, 1.814, &[System::Inch]),
        (6.3, 1.27, &[System::Inch, System::British]),
    ] {
        let found = identify(&exact(diameter, Some(pitch)));
        let cited = |id| found.sources.iter().any(|c| c.source.id == id);
        for (system, id) in [
            (System::Inch, "asme-b1.1"),
            (System::Metric, "iso-965-1"),
            (System::British, "bs-84"),
        ] {
            let told = found.candidates.iter().any(|c| c.thread.system() == system);
            assert_eq!(cited(id), told, "{id} at {diameter}");
            assert!(told || !systems.contains(&system), "{id} at {diameter}");
        }
        assert!(cited("gauge-practice"));
    }
    let metric = identify(&exact(23.9, Some(3.0)));
    assert_eq!(metric.sources.len(), 2);
}

/// 24 threads per inch are 1.0583 mm: ten of them are 0.583 mm longer than ten of 1 mm, nine only 0.525, and half a
/// thread is 0.529.
#[test]
fn gauges_are_named_that_tell_threads_apart() {
    let ask = MeasuredAsk {
        diameter_mm: 7.88,
        diameter_error_mm: Some(0.06),
        pitch_mm: Some(1.03),
        pitch_error_mm: Some(0.04),
        ..MeasuredAsk::default()
    };
    assert_eq!(
        identify(&ask).try_next,
        [
            "Pitch gauges 1 mm and 24 threads per inch: over 10 threads they are half a thread apart."
        ]
    );
    // One gauge is named once, however many threads have its pitch.
    let unmeasured = identify(&MeasuredAsk {
        diameter_mm: 6.30,
        ..MeasuredAsk::default()
    });
    let [gauges, ..] = &unmeasured.try_next[..] else {
        panic!("{unmeasured:?}");
    };
    assert!(
        unmeasured
            .candidates
            .iter()
            .filter(|c| c.thread.pitch().get() == 1.27)
            .count()
            > 1
    );
    let twenty: Vec<_> = gauges.matches(" 20 threads per inch").collect();
    assert_eq!(twenty.len(), 1, "{gauges}");
}
