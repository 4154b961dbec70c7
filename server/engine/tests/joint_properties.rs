//! What physics demands of every joint, not only of the examples.

#![allow(clippy::unwrap_used)] // a test may panic

use clampbook_engine::{
    Ask, Catalogue, CheckId, Purpose, Severity, compute,
    identify::{Measured, MeasuredAsk, Verdict},
    joint::{
        CastleAsk, GripLayer, GripStack, JointAsk, StretchAsk, TappedHole, Verdict as SlotVerdict,
        align, check_joint, stretch,
    },
    long_form::{LongAsk, compute_long_form},
    metal::Metal,
    strength::limits::{Fit, external_limits, internal_limits},
};
use proptest::prelude::*;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);
static METALS: LazyLock<Vec<String>> =
    LazyLock::new(|| Metal::all().map(|m| m.to_string()).collect());

const THREADS: [(&str, &str); 6] = [
    ("M8", "8.8"),
    ("M12x1.25", "10.9"),
    ("M20", "5.6"),
    ("3/8-16", "J429 5"),
    ("7/16-20", "J429 8"),
    ("3/4-10", "J429 2"),
];

fn torque(index: usize) -> Ask<'static> {
    let (thread, grade) = THREADS[index];
    Ask {
        thread,
        grade,
        lubrication: "oiled",
        ..Ask::default()
    }
}

fn diameter(index: usize) -> f64 {
    let thread = CATALOGUE.thread(THREADS[index].0).unwrap();
    thread.diameter().get()
}

fn layer(metal: usize, thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: METALS[metal].clone(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn more_engagement_never_bears_less(
        bolt in 0..THREADS.len(), metal in 0..METALS.len(), grip in 3.0..40.0_f64,
        engaged in 0.1..3.0_f64, more in 0.01..1.0_f64, depth in 0.5..4.0_f64,
    ) {
        let d = diameter(bolt);
        let layers = [layer(0, grip)];
        let bears = |reach: f64| {
            let ask = JointAsk {
                torque: torque(bolt),
                stack: &GripStack {
                    layers: layers.to_vec(),
                    tapped: Some(TappedHole { metal: METALS[metal].clone(), full_thread_mm: depth * d, ..TappedHole::default() }),
                    bolt_length_mm: Some(grip + reach * d),
                    thread_length_mm: Some(grip + reach * d),
                    ..GripStack::default()
                },
                ..JointAsk::default()
            };
            let checked = check_joint(&CATALOGUE.resolve_joint(&ask).unwrap());
            let thread = checked.partners.iter().find(|p| p.id == "tapped-thread").unwrap();
            thread.capacity
        };
        prop_assert!(bears(engaged) <= bears(engaged + more));
        if engaged + more <= depth {
            prop_assert!(bears(engaged) < bears(engaged + more));
        }
    }

    #[test]
    fn more_friction_takes_more_torque_and_a_steeper_cone_more_still(
        bolt in 0..THREADS.len(), mu in 0.03..0.4_f64, more in 0.001..0.1_f64, cone in 15.0..80.0_f64, steeper in 0.1..4.0_f64,
    ) {
        let (thread, grade) = THREADS[bolt];
        let at = |thread_friction, bearing_friction, cone_half_angle_degrees| {
            let ask = LongAsk {
                thread, grade, thread_friction, bearing_friction, cone_half_angle_degrees,
                clamp_load_n: Some(5000.0), ..LongAsk::default()
            };
            compute_long_form(&CATALOGUE.resolve_long_form(&ask).unwrap()).torque
        };
        prop_assert!(at(mu, mu, None) < at(mu + more, mu, None));
        prop_assert!(at(mu, mu, None) < at(mu, mu + more, None));
        prop_assert!(at(mu, mu, Some(cone)) < at(mu, mu, Some(cone - steeper)));
        prop_assert!(at(mu, mu, None) < at(mu, mu, Some(cone)));
    }

    #[test]
    fn a_longer_grip_of_one_metal_is_softer_and_the_bolt_takes_no_more_than_all(
        bolt in 0..THREADS.len(), metal in 0..METALS.len(), grip in 5.0..80.0_f64, more in 1.0..40.0_f64,
    ) {
        let at = |grip: f64| {
            let layers = [layer(metal, grip)];
            let ask = StretchAsk {
                torque: torque(bolt),
                stack: &GripStack {
                    layers: layers.to_vec(),
                    bolt_length_mm: Some(grip + 2.0 * diameter(bolt)),
                    thread_length_mm: Some(2.0 * diameter(bolt)),
                    ..GripStack::default()
                },
                ..StretchAsk::default()
            };
            let s = stretch(&CATALOGUE.resolve_stretch(&ask).unwrap());
            (s.bolt, s.members, s.load_share, s.angle)
        };
        let (short, long) = (at(grip), at(grip + more));
        prop_assert!(long.0 < short.0 && long.1 < short.1, "{:?} {:?}", short, long);
        prop_assert!(long.3 > short.3, "a softer joint turns further");
        for share in [short.2, long.2] {
            prop_assert!((0.0..1.0).contains(&share));
        }
    }

    #[test]
    fn a_slot_is_never_reached_beyond_the_published_greatest(
        bolt in 0..THREADS.len(), grip in 10.0..80.0_f64, share in 0.2..0.9_f64, window in 1.01..1.6_f64, to_slot in 0.0..60.0_f64,
    ) {
        let layers = [layer(0, grip)];
        let torque = torque(bolt);
        let full = compute(&CATALOGUE.resolve(&torque).unwrap()).torque.get();
        let (minimum, most) = (share * full, share * window * full);
        let ask = CastleAsk {
            stretch: StretchAsk {
                torque,
                stack: &GripStack {
                    layers: layers.to_vec(),
                    bolt_length_mm: Some(grip + 2.0 * diameter(bolt)),
                    ..GripStack::default()
                },
                ..StretchAsk::default()
            },
            minimum_torque_nm: minimum,
            maximum_torque_nm: Some(most),
            to_slot_degrees: Some(to_slot),
            ..CastleAsk::default()
        };
        let question = CATALOGUE.resolve_castle(&ask);
        if let Ok(question) = question
            && let SlotVerdict::Advance { torque_nm: Some(torque) } = align(&question).verdict
        {
            prop_assert!((minimum..=most * (1.0 + 1e-9)).contains(&torque), "{minimum} {torque} {most}");
        }
    }

    #[test]
    fn the_greatest_clamp_load_above_proof_is_never_without_a_caution_in_a_joint(
        bolt in 0..THREADS.len(), share in 0.05..=1.0_f64, grip in 5.0..60.0_f64,
    ) {
        let layers = [layer(0, grip)];
        let ask = JointAsk {
            torque: Ask { proof_share: Some(share), ..torque(bolt) },
            stack: &GripStack { layers: layers.to_vec(), ..GripStack::default() },
            ..JointAsk::default()
        };
        let checked = check_joint(&CATALOGUE.resolve_joint(&ask).unwrap());
        let warned = checked.remarks.findings.iter().any(|f| {
            f.id == CheckId::MaximumAgainstProof.id() && f.severity >= Severity::Caution
        });
        prop_assert_eq!(checked.answer.scatter.maximum > checked.answer.working_load, warned);
    }

    #[test]
    fn no_number_comes_of_a_refused_purpose(bolt in 0..THREADS.len(), purpose in 1..Purpose::ALL.len(), mu in 0.05..0.3_f64) {
        let purpose = Purpose::ALL[purpose];
        let torque = Ask { purpose, ..torque(bolt) };
        let layers = [layer(0, 10.0)];
        let stack = GripStack { layers: layers.to_vec(), bolt_length_mm: Some(40.0), ..GripStack::default() };
        prop_assert!(CATALOGUE.resolve(&torque).is_err());
        let joint = JointAsk { torque, stack: &stack, ..JointAsk::default() };
        prop_assert!(CATALOGUE.resolve_joint(&joint).is_err());
        let stretched = StretchAsk { torque, stack: &stack, ..StretchAsk::default() };
        prop_assert!(CATALOGUE.resolve_stretch(&stretched).is_err());
        let long = LongAsk {
            thread: torque.thread, grade: torque.grade, thread_friction: mu, bearing_friction: mu, purpose,
            ..LongAsk::default()
        };
        prop_assert!(CATALOGUE.resolve_long_form(&long).is_err());
    }

    /// A part inside its limits of size, measured without error, is never told that it does not fit.
    #[test]
    fn a_part_inside_its_limits_fits(thread in 0..CATALOGUE.threads().len(), part in 0.0..=1.0_f64, internal in any::<bool>()) {
        let thread = &CATALOGUE.threads()[thread];
        let limits = if internal {
            internal_limits(thread, Fit::Medium).map(|l| l.minor)
        } else {
            external_limits(thread, Fit::Medium).map(|l| l.major)
        };
        let Some(limits) = limits else { return Ok(()) };
        let (minimum, most) = (limits.minimum.get(), limits.most.get());
        let ask = MeasuredAsk {
            internal,
            diameter_mm: minimum + part * (most - minimum),
            pitch_mm: Some(thread.pitch().get()),
            flank_angle_deg: Some(60.0),
            ..MeasuredAsk::default()
        };
        let Ok(measured) = Measured::new(&ask) else { return Ok(()) };
        let found = CATALOGUE.identify_thread(&measured);
        let own = found.candidates.iter().find(|c| c.thread.id() == thread.id());
        prop_assert_eq!(own.map(|c| c.verdict), Some(Verdict::Fits), "{}", thread);
    }

    #[test]
    fn no_words_break_naming(text in "\\PC{0,70}", number in any::<f64>(), other in any::<f64>()) {
        if let Ok(found) = CATALOGUE.identify_head(&text) {
            prop_assert!(found.is_sorted_by_key(|m| m.weakest_tensile_mpa));
        }
        let ask = MeasuredAsk { diameter_mm: number, pitch_mm: Some(other), ..MeasuredAsk::default() };
        if let Ok(measured) = Measured::new(&ask) {
            prop_assert!(!CATALOGUE.identify_thread(&measured).candidates.is_empty());
        }
        let _ = Metal::called(&text);
    }
}
