//! What holds for every joint, not only for the examples.

#![allow(clippy::unwrap_used)] // a test may panic

use clampbook_engine::{Answer, Ask, Catalogue, CheckId, Designation, Purpose, Severity, compute};
use proptest::prelude::*;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

/// A thread, a grade it exists in, and a lubrication.
fn joints() -> impl Strategy<Value = (String, String, &'static str)> {
    let threads = 0..CATALOGUE.threads().len();
    let grades = 0..CATALOGUE.grades().len();
    let lubrications = 0..CATALOGUE.lubrications().len();
    (threads, grades, lubrications).prop_filter_map("no grade at this size", |(t, g, c)| {
        let (thread, grade) = (&CATALOGUE.threads()[t], &CATALOGUE.grades()[g]);
        if grade.restriction().is_some() {
            return None;
        }
        grade.strength_at(thread)?;
        Some((
            thread.to_string(),
            grade.to_string(),
            CATALOGUE.lubrications()[c].name(),
        ))
    })
}

fn answer(ask: &Ask<'_>) -> Answer<'static> {
    compute(&CATALOGUE.resolve(ask).unwrap())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn more_clamp_load_takes_more_torque((thread, grade, lubrication) in joints(), low in 0.05..0.9_f64, more in 0.001..0.1_f64) {
        let at = |share| answer(&Ask { thread: &thread, grade: &grade, lubrication, proof_share: Some(share), ..Ask::default() });
        let (less, more) = (at(low), at(low + more));
        prop_assert!(less.torque < more.torque);
        prop_assert!(less.scatter.maximum < more.scatter.maximum);
    }

    #[test]
    fn the_bands_enclose_the_answer((thread, grade, lubrication) in joints(), share in 0.05..=1.0_f64) {
        let a = answer(&Ask { thread: &thread, grade: &grade, lubrication, proof_share: Some(share), ..Ask::default() });
        prop_assert!(a.scatter.minimum < a.clamp_load && a.clamp_load < a.scatter.maximum);
        prop_assert!(a.literature.low_torque <= a.torque && a.torque <= a.literature.high_torque);
    }

    #[test]
    fn a_clamp_load_that_may_exceed_proof_is_never_passed_over((thread, grade, lubrication) in joints(), share in 0.05..=1.0_f64) {
        let a = answer(&Ask { thread: &thread, grade: &grade, lubrication, proof_share: Some(share), ..Ask::default() });
        if let Some(proof) = a.proof_load {
            let warned = a.findings.iter().any(|f| f.id == CheckId::MaximumAgainstProof && f.severity >= Severity::Caution);
            prop_assert_eq!(a.scatter.maximum > proof, warned);
        }
        for finding in a.findings.iter() {
            prop_assert!(finding.share.is_finite() && finding.share >= 0.9);
        }
    }

    #[test]
    fn a_wanted_clamp_load_is_the_answer_s((thread, grade, lubrication) in joints(), share in 0.05..=1.0_f64) {
        let by_share = answer(&Ask { thread: &thread, grade: &grade, lubrication, proof_share: Some(share), ..Ask::default() });
        let wanted = Some(by_share.clamp_load.get());
        let by_load = answer(&Ask { thread: &thread, grade: &grade, lubrication, clamp_load_n: wanted, ..Ask::default() });
        prop_assert_eq!(by_share.torque, by_load.torque);
        prop_assert_eq!(by_share.scatter, by_load.scatter);
    }

    #[test]
    fn numbers_outside_never_get_an_answer((thread, grade, lubrication) in joints(), wrong in any::<f64>()) {
        let ask = Ask { thread: &thread, grade: &grade, lubrication, ..Ask::default() };
        let share = CATALOGUE.resolve(&Ask { proof_share: Some(wrong), ..ask });
        prop_assert_eq!(share.is_ok(), (0.05..=1.0).contains(&wrong));
        let k = CATALOGUE.resolve(&Ask { nut_factor: Some(wrong), ..ask });
        prop_assert_eq!(k.is_ok(), (0.05..=0.6).contains(&wrong));
        let tensile = answer(&ask).tensile_load.get();
        let load = CATALOGUE.resolve(&Ask { clamp_load_n: Some(wrong), ..ask });
        prop_assert_eq!(load.is_ok(), (1e-3..=tensile).contains(&wrong));
    }

    #[test]
    fn a_refused_purpose_gets_no_number((thread, grade, lubrication) in joints(), purpose in 1..Purpose::ALL.len()) {
        let purpose = Purpose::ALL[purpose];
        let ask = Ask { thread: &thread, grade: &grade, lubrication, purpose, ..Ask::default() };
        prop_assert!(CATALOGUE.resolve(&ask).is_err());
    }

    #[test]
    fn a_designation_printed_is_read_again(text in "(M|#|)(1|2|10|12|36)(/16|-1/4| in|\"|)(x1.25|-20|-8|-32| 77| 4 1/2|)( UNC| UNF| fine| extra fine| coarse|)(-2A|-6g|)(-LH|)") {
        if let Ok(designation) = Designation::parse(&text) {
            let printed = designation.to_string();
            prop_assert_eq!(Designation::parse(&printed), Ok(designation), "{} -> {}", text, printed);
        }
    }

    #[test]
    fn no_text_breaks_the_reading(text in "\\PC{0,80}") {
        let _ = Designation::parse(&text);
        let _ = CATALOGUE.thread(&text);
        let _ = CATALOGUE.grade(&text);
        let _ = CATALOGUE.lubrication(&text);
        let _ = CATALOGUE.nut(&text, &CATALOGUE.threads()[10]);
        let _ = clampbook_engine::quantity::Length::parse(&text);
        let _ = clampbook_engine::quantity::Torque::parse(&text);
    }

    #[test]
    fn nearly_right_designations_do_not_break_the_reading(text in "[M#mxX×0-9/. ,\"LHUNCF2ABgH-]{0,30}") {
        if let Ok(designation) = Designation::parse(&text) {
            prop_assert_eq!(Designation::parse(&designation.to_string()), Ok(designation));
        }
    }
}

/// SAE J429: proof of grade 2 drops over 3/4 in, so a bigger bolt takes less torque.
#[test]
fn torque_does_not_always_grow_with_size() {
    let torque = |thread| {
        let ask = Ask {
            thread,
            grade: "J429 2",
            lubrication: "dry",
            ..Ask::default()
        };
        answer(&ask).torque
    };
    assert!(torque("7/8-9") < torque("3/4-10"));
    assert!(torque("3/4-10") > torque("5/8-11"));
}
