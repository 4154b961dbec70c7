//! Checks at their limits, and of hard plated steel.

use clampbook_engine::{Answer, Ask, Assumption, Catalogue, CheckId, Severity, compute};

fn answer<'c>(catalogue: &'c Catalogue, ask: &Ask<'_>) -> Answer<'c> {
    compute(&catalogue.resolve(ask).unwrap())
}

fn severity(answer: &Answer<'_>, id: CheckId) -> Option<Severity> {
    let found = answer.findings.iter().find(|f| f.id == id);
    found.map(|f| f.severity)
}

/// 0.75 of 120 ksi is 90 ksi: the nut just carries what is aimed at, whatever the last binary digit.
#[test]
fn a_nut_that_just_carries_the_target_is_no_stop() {
    let catalogue = Catalogue::built_in();
    let mut at_the_limit = 0;
    for thread in catalogue.threads().iter().map(ToString::to_string) {
        let ask = Ask {
            thread: &thread,
            grade: "J429 8.1",
            lubrication: "dry",
            nut_grade: Some("A563 A"),
            ..Ask::default()
        };
        let Ok(question) = catalogue.resolve(&ask) else {
            continue;
        };
        let answer = compute(&question);
        assert_eq!(
            severity(&answer, CheckId::NutAgainstTarget),
            None,
            "{thread}"
        );
        let maximum = severity(&answer, CheckId::NutAgainstMaximum);
        assert_eq!(maximum, Some(Severity::Caution), "{thread}");
        at_the_limit += 1;
    }
    assert!(at_the_limit >= 12, "{at_the_limit}");
    let more = Ask {
        thread: "1/2-13",
        grade: "J429 8.1",
        lubrication: "dry",
        nut_grade: Some("A563 A"),
        proof_share: Some(0.750_001),
        ..Ask::default()
    };
    let answer = answer(&catalogue, &more);
    assert_eq!(
        severity(&answer, CheckId::NutAgainstTarget),
        Some(Severity::Stop)
    );
}

#[test]
fn hard_plated_bolts_are_baked_or_stopped() {
    let catalogue = Catalogue::built_in();
    let plated = |grade, lubrication, baked| {
        let ask = Ask {
            thread: if grade == "a574" { "1/2-13" } else { "M10" },
            grade,
            lubrication,
            baked,
            ..Ask::default()
        };
        let answer = answer(&catalogue, &ask);
        let found = answer
            .findings
            .iter()
            .find(|f| f.id == CheckId::PlatedHardUnbaked);
        let cites = |id| answer.sources.iter().any(|cited| cited.source.id == id);
        assert_eq!(
            found.is_some() || baked,
            cites("plating-practice"),
            "{grade}"
        );
        assert_eq!(
            answer.assumptions.iter().any(|a| a == Assumption::Baked),
            baked
        );
        found.map(|f| (f.severity, f.share))
    };
    // ISO 898-1: class 12.9 is 39 to 44 HRC, 10.9 is 32 to 39; ASTM A574: 39 to 45 to 1/2 in.
    assert_eq!(
        plated("12.9", "zinc plated", false),
        Some((Severity::Stop, 1.0))
    );
    assert_eq!(
        plated("12.9", "cadmium plated", false),
        Some((Severity::Stop, 1.0))
    );
    assert_eq!(
        plated("a574", "zinc plated", false),
        Some((Severity::Stop, 1.0))
    );
    assert_eq!(plated("12.9", "zinc plated", true), None);
    for (grade, lubrication) in [
        ("12.9", "oiled"),
        ("12.9", "zinc flake"),
        ("10.9", "zinc plated"),
    ] {
        assert_eq!(
            plated(grade, lubrication, false),
            None,
            "{grade} {lubrication}"
        );
    }
}
