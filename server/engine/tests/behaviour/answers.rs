//! What an answer carries besides its numbers.

use clampbook_engine::{
    Answer, Ask, Assumption, Catalogue, Caution, CheckId, GovernedBy, Severity, compute,
    source::{Basis, UsedFor},
};

fn ask() -> Ask<'static> {
    Ask {
        thread: "1/2-13",
        grade: "5",
        lubrication: "dry",
        ..Ask::default()
    }
}

fn answer<'c>(catalogue: &'c Catalogue, ask: &Ask<'_>) -> Answer<'c> {
    compute(&catalogue.resolve(ask).unwrap())
}

fn severity(answer: &Answer<'_>, id: CheckId) -> Option<Severity> {
    answer
        .findings
        .iter()
        .find(|f| f.id == id)
        .map(|f| f.severity)
}

#[test]
fn what_decided_is_named() {
    let catalogue = Catalogue::built_in();
    let governed = |ask: &Ask<'_>| answer(&catalogue, ask).governed_by;
    assert_eq!(governed(&ask()), GovernedBy::ProofOfBolt);
    assert_eq!(
        governed(&Ask {
            grade: "F593 CW1",
            ..ask()
        }),
        GovernedBy::YieldOfBolt
    );
    let wanted = Ask {
        clamp_load_n: Some(20_000.0),
        ..ask()
    };
    assert_eq!(governed(&wanted), GovernedBy::WantedClampLoad);
    assert_eq!(answer(&catalogue, &wanted).clamp_load.get(), 20_000.0);
}

#[test]
fn nothing_said_means_three_quarters_of_proof() {
    let catalogue = Catalogue::built_in();
    let silent = answer(&catalogue, &ask());
    let said = answer(
        &catalogue,
        &Ask {
            proof_share: Some(0.75),
            ..ask()
        },
    );
    assert_eq!(silent.torque, said.torque);
    assert!(silent.assumptions.contains(&Assumption::DefaultProofShare));
    assert!(!said.assumptions.contains(&Assumption::DefaultProofShare));
}

#[test]
fn the_clamp_load_aimed_at_is_held_against_proof() {
    let catalogue = Catalogue::built_in();
    let at = |share| {
        let answer = answer(
            &catalogue,
            &Ask {
                proof_share: Some(share),
                ..ask()
            },
        );
        severity(&answer, CheckId::NominalAgainstProof)
    };
    assert_eq!(at(0.75), None);
    assert_eq!(at(0.899_999), None);
    assert_eq!(at(0.90), Some(Severity::Caution));
    assert_eq!(at(1.0), Some(Severity::Caution));
    let proof = answer(&catalogue, &ask()).proof_load.unwrap().get();
    let wanted = |load| {
        answer(
            &catalogue,
            &Ask {
                clamp_load_n: Some(load),
                ..ask()
            },
        )
    };
    let above = wanted(proof * 1.001);
    assert_eq!(
        severity(&above, CheckId::NominalAgainstProof),
        Some(Severity::Stop)
    );
    assert_eq!(above.worst(), Some(Severity::Stop));
    assert_eq!(wanted(proof * 0.5).worst(), None);
}

/// Dry, 1.35 of 0.75 of proof is 1.0125 of proof; oiled, 1.25 of 0.75 is 0.9375.
#[test]
fn the_greatest_clamp_load_decides_checks() {
    let catalogue = Catalogue::built_in();
    let dry = answer(&catalogue, &ask());
    let oiled = answer(
        &catalogue,
        &Ask {
            lubrication: "oiled",
            ..ask()
        },
    );
    assert_eq!(
        severity(&dry, CheckId::MaximumAgainstProof),
        Some(Severity::Caution)
    );
    assert_eq!(severity(&oiled, CheckId::MaximumAgainstProof), None);
    // 1.35 of proof is 114.75 ksi of 120; 0.96 of proof more would break it.
    let full = answer(
        &catalogue,
        &Ask {
            proof_share: Some(1.0),
            ..ask()
        },
    );
    assert_eq!(severity(&full, CheckId::MaximumAgainstTensile), None);
    let tensile = full.tensile_load.get();
    let near = answer(
        &catalogue,
        &Ask {
            clamp_load_n: Some(tensile * 0.8),
            ..ask()
        },
    );
    assert_eq!(
        severity(&near, CheckId::MaximumAgainstTensile),
        Some(Severity::Stop)
    );
}

/// A load exactly at its limit does not exceed it.
#[test]
fn exactly_at_a_limit_is_not_above_it() {
    let catalogue = Catalogue::built_in();
    let oiled = Ask {
        lubrication: "oiled",
        ..ask()
    };
    let at = |load| {
        let clamp_load_n = Some(load);
        answer(
            &catalogue,
            &Ask {
                clamp_load_n,
                ..oiled
            },
        )
    };
    let limits = answer(&catalogue, &oiled);
    let (proof, tensile) = (limits.proof_load.unwrap(), limits.tensile_load);
    let just_proof = at(proof.get() / 1.25);
    assert_eq!(just_proof.scatter.maximum, proof);
    assert_eq!(severity(&just_proof, CheckId::MaximumAgainstProof), None);
    let just_tensile = at(tensile.get() / 1.25);
    assert_eq!(just_tensile.scatter.maximum, tensile);
    assert_eq!(
        severity(&just_tensile, CheckId::MaximumAgainstTensile),
        None
    );

    // Grade 7 proves at 105 ksi, and so does a grade 5 nut over 1 in.
    let alike = Ask {
        thread: "1-1/4-7",
        grade: "7",
        nut_grade: Some("J995 5"),
        ..oiled
    };
    let nut = answer(&catalogue, &alike).nut_proof_load.unwrap();
    assert_eq!(
        severity(&answer(&catalogue, &alike), CheckId::NutWeakerThanBolt),
        None
    );
    let on_nut = |load| {
        let clamp_load_n = Some(load);
        answer(
            &catalogue,
            &Ask {
                clamp_load_n,
                ..alike
            },
        )
    };
    let full = on_nut(nut.get());
    assert_eq!(severity(&full, CheckId::NutAgainstTarget), None);
    assert_eq!(
        severity(&full, CheckId::NutAgainstMaximum),
        Some(Severity::Caution)
    );
    let within = on_nut(nut.get() / 1.25);
    assert_eq!(within.scatter.maximum, nut);
    assert_eq!(severity(&within, CheckId::NutAgainstMaximum), None);
}

#[test]
fn a_weak_nut_is_a_finding_and_never_a_smaller_number() {
    let catalogue = Catalogue::built_in();
    let bare = answer(
        &catalogue,
        &Ask {
            grade: "8",
            ..ask()
        },
    );
    let with = |nut| {
        answer(
            &catalogue,
            &Ask {
                grade: "8",
                nut_grade: Some(nut),
                ..ask()
            },
        )
    };
    let weak = with("2");
    assert_eq!(weak.torque, bare.torque);
    // 0.75 x 120 ksi is exactly the 90 ksi that prove the nut; the scatter goes over.
    assert_eq!(severity(&weak, CheckId::NutAgainstTarget), None);
    assert_eq!(
        severity(&weak, CheckId::NutAgainstMaximum),
        Some(Severity::Caution)
    );
    assert_eq!(
        severity(&weak, CheckId::NutWeakerThanBolt),
        Some(Severity::Caution)
    );
    assert_eq!(
        severity(&weak, CheckId::NutNotMadeForBolt),
        Some(Severity::Caution)
    );
    let jam = with("5 jam");
    assert_eq!(
        severity(&jam, CheckId::NutAgainstTarget),
        Some(Severity::Stop)
    );
    let right = with("8");
    assert_eq!(
        right
            .findings
            .iter()
            .filter(|f| f.id.id().starts_with("nut"))
            .count(),
        0
    );
    assert!(bare.cautions.contains(&Caution::NutNotChecked));
    assert!(!right.cautions.contains(&Caution::NutNotChecked));
}

#[test]
fn the_literature_is_torque_at_either_end_of_k() {
    let catalogue = Catalogue::built_in();
    let zinc = answer(
        &catalogue,
        &Ask {
            lubrication: "zinc plated",
            ..ask()
        },
    );
    let literature = zinc.literature;
    assert_eq!(literature.low_nut_factor.get(), 0.17);
    assert_eq!(literature.high_nut_factor.get(), 0.35);
    let ratio = literature.high_torque.get() / zinc.torque.get();
    assert!((ratio - 0.35 / 0.20).abs() < 1e-12, "{ratio}");
    let given = answer(
        &catalogue,
        &Ask {
            lubrication: "zinc",
            nut_factor: Some(0.25),
            ..ask()
        },
    );
    assert_eq!(given.nut_factor.get(), 0.25);
    assert_eq!(given.literature, literature);
    let alone = answer(
        &catalogue,
        &Ask {
            lubrication: "",
            nut_factor: Some(0.25),
            ..ask()
        },
    );
    assert_eq!(alone.literature.low_torque, alone.torque);
    assert_eq!(alone.literature.source, None);
    assert_eq!(alone.scatter.relative_scatter, 0.35);
    assert!(alone.assumptions.contains(&Assumption::DryScatterAssumed));
}

#[test]
fn a_value_from_memory_says_so() {
    let catalogue = Catalogue::built_in();
    let found = answer(&catalogue, &ask());
    assert!(!found.cautions.contains(&Caution::FromMemory));
    let memory = |ask: &Ask<'_>| {
        answer(&catalogue, ask)
            .cautions
            .contains(&Caution::FromMemory)
    };
    assert!(memory(&Ask {
        lubrication: "wax",
        ..ask()
    }));
    assert!(memory(&Ask {
        grade: "8.1",
        ..ask()
    }));
    assert!(memory(&Ask {
        thread: "1/2-20",
        nut_grade: Some("5"),
        ..ask()
    }));
    assert!(!memory(&Ask {
        thread: "1/2-13",
        nut_grade: Some("5"),
        ..ask()
    }));
}

#[test]
fn every_value_used_is_cited() {
    let catalogue = Catalogue::built_in();
    let answer = answer(
        &catalogue,
        &Ask {
            nut_grade: Some("5"),
            ..ask()
        },
    );
    for used in [
        UsedFor::Method,
        UsedFor::Thread,
        UsedFor::Strength,
        UsedFor::NutFactor,
        UsedFor::Nut,
        UsedFor::Scatter,
        UsedFor::CombinedStress,
    ] {
        assert!(
            answer.sources.iter().any(|c| c.used_for == used),
            "{used:?}"
        );
    }
    let strength = answer
        .sources
        .iter()
        .find(|c| c.used_for == UsedFor::Strength)
        .unwrap();
    assert_eq!(
        (strength.source.id.as_ref(), strength.basis),
        ("shigley-8-9", Basis::Found)
    );
    assert!(
        answer
            .sources
            .iter()
            .all(|c| !c.source.citation.contains("http"))
    );
}

#[test]
fn a_joint_without_yield_is_not_checked_against_it_and_says_so() {
    let catalogue = Catalogue::built_in();
    let answer = answer(
        &catalogue,
        &Ask {
            grade: "5.1",
            proof_share: Some(1.0),
            ..ask()
        },
    );
    assert_eq!(answer.yield_load, None);
    assert!(answer.assumptions.contains(&Assumption::NoYieldInStandard));
    assert_eq!(severity(&answer, CheckId::CombinedAgainstYield), None);
}

#[test]
fn cautions_belong_to_what_is_asked() {
    let catalogue = Catalogue::built_in();
    let has = |ask: &Ask<'_>, caution| answer(&catalogue, ask).cautions.contains(&caution);
    assert!(has(
        &Ask {
            thread: "1/2-13-LH",
            ..ask()
        },
        Caution::LeftHand
    ));
    assert!(!has(&ask(), Caution::LeftHand));
    assert!(has(
        &Ask {
            grade: "F593 CW1",
            ..ask()
        },
        Caution::Galling
    ));
    assert!(!has(&ask(), Caution::Galling));
    assert!(has(
        &Ask {
            thread: "1-14",
            ..ask()
        },
        Caution::ObsoleteThread
    ));
    assert!(has(&ask(), Caution::NotMakers));
}

/// Whatever is asked, an answer has room for all it says.
#[test]
fn every_kind_of_combination_has_its_answer() {
    let catalogue = Catalogue::built_in();
    let mut answers = 0_u32;
    for thread in catalogue.threads().iter().step_by(7) {
        for grade in catalogue
            .grades()
            .iter()
            .filter(|g| g.restriction().is_none() && g.strength_at(thread).is_some())
        {
            for lubrication in catalogue.lubrications().iter().step_by(3) {
                let nuts = catalogue
                    .nuts()
                    .iter()
                    .filter(|n| n.proof_at(thread).is_some());
                for nut in std::iter::once(None).chain(nuts.map(|n| Some(n.id()))) {
                    let ask = Ask {
                        thread: &format!("{thread}-LH"),
                        grade: grade.id(),
                        lubrication: lubrication.id(),
                        nut_grade: nut,
                        proof_share: Some(1.0),
                        ..Ask::default()
                    };
                    let answer = answer(&catalogue, &ask);
                    assert!(answer.torque.get() > 0.0 && answer.torque.get().is_finite());
                    answers += 1;
                }
            }
        }
    }
    assert!(answers > 4_000, "{answers}");
}

#[test]
fn ids_and_sentences_are_distinct() {
    let ids: Vec<&str> = CheckId::ALL
        .iter()
        .map(|i| i.id())
        .chain(Assumption::ALL.iter().map(|i| i.id()))
        .chain(Caution::ALL.iter().map(|i| i.id()))
        .chain(GovernedBy::ALL.iter().map(|i| i.id()))
        .collect();
    let mut once = ids.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), ids.len());
    let sentences = CheckId::ALL
        .iter()
        .map(|i| i.text())
        .chain(Assumption::ALL.iter().map(|i| i.text()))
        .chain(Caution::ALL.iter().map(|i| i.text()))
        .chain(GovernedBy::ALL.iter().map(|i| i.text()));
    for sentence in sentences {
        assert!(sentence.ends_with('.') && sentence.len() > 20, "{sentence}");
    }
}
