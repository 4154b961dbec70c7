//! Lubrications of the shop's own, beside the published ones.

use clampbook_engine::{
    Ask, Catalogue, Caution, FaultReason, OwnLubrication, OwnLubricationAsk, WithdrawnLubrication,
    compute,
    source::{Basis, UsedFor},
};
use std::sync::Arc;

const CITATION: &str = "own tests of 2026-03-02 by Ada: 12 bolts, K 0.13 to 0.17";

fn paste() -> OwnLubricationAsk<'static> {
    OwnLubricationAsk {
        id: "bench-paste",
        name: "bench paste",
        nut_factor: 0.15,
        low_nut_factor: 0.13,
        high_nut_factor: 0.17,
        lubricated: true,
        citation: CITATION,
        note: "",
    }
}

fn ask(lubrication: &str) -> Ask<'_> {
    Ask {
        thread: "7/16-20",
        grade: "SAE J429 5",
        lubrication,
        ..Ask::default()
    }
}

fn with_paste() -> Catalogue {
    let own = Arc::new(OwnLubrication::new(&paste()).unwrap());
    Catalogue::built_in().with_own_lubrications([own])
}

fn faulty(ask: OwnLubricationAsk<'_>) -> Vec<String> {
    let faults = OwnLubrication::new(&ask).unwrap_err();
    faults.iter().map(ToString::to_string).collect()
}

#[test]
fn an_own_lubrication_computes_and_says_whose_it_is() {
    let catalogue = with_paste();
    for said in ["bench paste", "Bench-Paste", "bench-paste"] {
        let answer = compute(&catalogue.resolve(&ask(said)).unwrap());
        // 74.8 N·m with the K 0.20 of dry threads, as the first page of the engine has it.
        assert!((answer.torque.get() - 74.8 * 0.15 / 0.2).abs() < 0.05);
        assert_eq!(answer.nut_factor.get(), 0.15);
        assert_eq!(
            (
                answer.literature.low_nut_factor.get(),
                answer.literature.high_nut_factor.get()
            ),
            (0.13, 0.17)
        );
        assert!(answer.cautions.contains(&Caution::ShopsOwn));
        let cited: Vec<_> = answer
            .sources
            .iter()
            .filter(|cited| cited.used_for == UsedFor::NutFactor)
            .map(|cited| (cited.source.citation.as_ref(), cited.basis))
            .collect();
        assert_eq!(cited, [(CITATION, Basis::Shop)]);
    }
    let published = compute(&catalogue.resolve(&ask("dry")).unwrap());
    assert!(!published.cautions.contains(&Caution::ShopsOwn));
    assert!(
        published
            .sources
            .iter()
            .all(|cited| cited.basis != Basis::Shop)
    );
}

#[test]
fn making_the_catalogue_anew_replaces_the_shops_rows_and_keeps_the_published() {
    let built_in = Catalogue::built_in();
    let once = with_paste();
    assert_eq!(once.lubrications().len(), built_in.lubrications().len() + 1);
    assert!(once.lubrications().last().is_some_and(|c| c.is_own()));
    assert_eq!(once.with_own_lubrications([]), built_in);
}

/// Who asks for a lubrication that was withdrawn is told so, by name or id, until another one has its name.
#[test]
fn a_withdrawn_row_is_told_and_its_name_is_free() {
    let paste_is_gone = WithdrawnLubrication {
        id: "bench-paste-2".into(),
        name: "bench paste".into(),
        how: "by Ada on 2026-03-02: the tin is empty".into(),
    };
    let catalogue = Catalogue::built_in().with_withdrawn_lubrications([paste_is_gone]);
    for said in ["bench paste", "Bench-Paste", "bench-paste-2"] {
        let faults = catalogue.resolve(&ask(said)).unwrap_err();
        assert_eq!(
            (faults[0].field, faults[0].reason.id()),
            ("lubrication", "withdrawn-lubrication")
        );
        assert_eq!(
            faults[0].reason.to_string(),
            format!(
                "\"{said}\" was withdrawn by Ada on 2026-03-02: the tin is empty; choose another one, or give a nut factor"
            )
        );
        let how = "by Ada on 2026-03-02: the tin is empty".to_owned();
        assert!(faults[0].metadata().contains(&("how", how)));
    }
    let other = catalogue.resolve(&ask("bench butter")).unwrap_err();
    assert_eq!(other[0].reason.id(), "unknown-lubrication");
    assert!(catalogue.is_free_for_lubrication("bench paste").is_ok());
    let again = OwnLubrication::new(&paste()).unwrap();
    let catalogue = catalogue.with_own_lubrications([Arc::new(again)]);
    assert!(catalogue.lubrication("bench paste").unwrap().is_own());
}

#[test]
fn the_shops_own_row_keeps_its_meaning_when_a_published_one_has_its_name() {
    let own = OwnLubrication::new(&OwnLubricationAsk {
        id: "oiled",
        name: "oiled",
        ..paste()
    });
    let catalogue = Catalogue::built_in().with_own_lubrications([Arc::new(own.unwrap())]);
    assert!(catalogue.lubrication("oiled").unwrap().is_own());
    assert!(catalogue.lubrication_by_id("oiled").unwrap().is_own());
}

#[test]
fn numbers_nobody_can_have_measured_are_refused_all_at_once() {
    for wrong in [0.049, 0.601, 0.0, -0.15, f64::NAN, f64::INFINITY, 1e300] {
        let all = faulty(OwnLubricationAsk {
            nut_factor: wrong,
            low_nut_factor: wrong,
            high_nut_factor: wrong,
            ..paste()
        });
        assert_eq!(all.len(), 3, "{all:?}");
        for (fault, field) in all
            .iter()
            .zip(["nut_factor", "low_nut_factor", "high_nut_factor"])
        {
            assert!(fault.starts_with(field), "{fault}");
        }
    }
    let crossed = faulty(OwnLubricationAsk {
        low_nut_factor: 0.16,
        high_nut_factor: 0.14,
        ..paste()
    });
    assert_eq!(
        crossed,
        [
            "low_nut_factor: is above the nut factor to compute with; it must not be higher",
            "high_nut_factor: is below the nut factor to compute with; it must not be lower",
        ]
    );
    let alike = OwnLubricationAsk {
        low_nut_factor: 0.15,
        high_nut_factor: 0.15,
        ..paste()
    };
    assert!(
        OwnLubrication::new(&alike).is_ok(),
        "the ends belong to the range"
    );
}

#[test]
fn a_name_must_be_free_and_must_name_something() {
    let catalogue = with_paste();
    let reason = |name: &str| catalogue.is_free_for_lubrication(name).map_err(|r| r.id());
    assert_eq!(reason("moly grease of the bench"), Ok(()));
    for taken in [
        "dry",
        "DRY",
        "bench paste",
        "bench-paste",
        "zinc-plated",
        "zinc plated",
    ] {
        assert_eq!(reason(taken), Err("name-taken"), "{taken}");
    }
    assert_eq!(reason(""), Err("missing"));
    assert_eq!(reason("rusty paste"), Err("lubrication-refused"));
    assert_eq!(reason(&"x".repeat(65)), Err("too-long"));
    for telling_nothing in ["---", "lubrication", "grade / class"] {
        assert_eq!(
            reason(telling_nothing),
            Err("contradicts"),
            "{telling_nothing}"
        );
    }
    let taken = catalogue.is_free_for_lubrication("Dry").unwrap_err();
    assert!(matches!(taken, FaultReason::NameTaken { .. }));
    assert_eq!(
        taken.to_string(),
        "\"Dry\" is taken: it already means dry; choose another name"
    );
}
