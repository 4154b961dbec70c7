//! One torque on one short screen.

use clampbook_api::v1::{ComputeTorqueResponse, LiteratureSpread};

use super::{
    assumed, checks,
    cite::sources,
    scatter,
    text::{paragraph, paragraphs, strong, unbroken},
};

/// The number with its unit first, then what speaks against it, then what it rests on. A computed value says so beside
/// the number.
pub(crate) fn answer(answer: &ComputeTorqueResponse) -> String {
    let torque = strong(&unbroken(&answer.torque_text));
    let mut shown = format!("{torque}   COMPUTED, NOT MAKER'S\n");
    shown.push_str(&format!("{}\n\n", what(answer)));
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&paragraph("Clamp load", &answer.target_text));
    shown.push_str(&scatter(answer.scatter.as_ref()));
    if let Some(literature) = &answer.literature {
        shown.push_str(&paragraph("Literature", &spread(literature)));
    }
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn what(answer: &ComputeTorqueResponse) -> String {
    let lubrication = match answer.lubrication.as_str() {
        "" => "nut factor as given",
        name => crate::name::id(name),
    };
    format!(
        "{} (stress area {}), {}, {lubrication}, K {}",
        answer.thread,
        unbroken(&answer.tensile_stress_area_text),
        answer.grade,
        answer.nut_factor_text
    )
}

fn spread(literature: &LiteratureSpread) -> String {
    format!(
        "K {} reported: {}.",
        literature.nut_factor_text,
        unbroken(&literature.torque_text)
    )
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Basis, Check, Scatter, Severity, Source};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn example() -> ComputeTorqueResponse {
        ComputeTorqueResponse {
            torque_nm: 91.234,
            clamp_load_n: 41_050.0,
            nut_factor: 0.2,
            tensile_stress_area_mm2: 76.58,
            working_load_n: 54_733.0,
            proof_load_n: Some(54_733.0),
            scatter: Some(Scatter {
                minimum_clamp_load_n: 26_682.0,
                maximum_clamp_load_n: 55_417.0,
                relative_scatter: 0.35,
                text: "26.7 to 55.4 kN".to_owned(),
            }),
            literature: Some(LiteratureSpread {
                low_nut_factor: 0.15,
                high_nut_factor: 0.3,
                low_torque_nm: 68.4,
                high_torque_nm: 136.9,
                nut_factor_text: "0.15 to 0.30".to_owned(),
                torque_text: "68.4 to 137 N·m (50.4 to 101 lbf·ft)".to_owned(),
            }),
            governed_by: "proof-of-bolt".to_owned(),
            sources: vec![Source {
                source: "j429".to_owned(),
                citation: "SAE J429, table 1".to_owned(),
                basis: Basis::Memory.into(),
                used_for: "grade".to_owned(),
            }],
            assumptions: vec!["Flat seats, hand wrench.".to_owned()],
            cautions: vec!["The maker's specification, local codes and a licensed inspection stand above this value.".to_owned()],
            checks: vec![Check {
                check: "maximum-against-proof".to_owned(),
                severity: Severity::Caution.into(),
                share: 1.01,
                text: "The maximum clamp load exceeds proof load.".to_owned(),
            }],
            thread: "7/16-20 UNF".to_owned(),
            grade: "SAE J429 grade 5".to_owned(),
            lubrication: "lubrications/dry".to_owned(),
            torque_text: "91.2 N·m (67.3 lbf·ft)".to_owned(),
            clamp_load_text: "41.1 kN".to_owned(),
            nut_factor_text: "0.20".to_owned(),
            working_load_text: "54.7 kN".to_owned(),
            target_text: "41.1 kN, governed by 0.75 of the bolt's proof load of 54.7 kN.".to_owned(),
            tensile_stress_area_text: "76.6 mm²".to_owned(),
        }
    }

    fn shown() -> String {
        finish(&answer(&example()), Look::default())
    }

    #[test]
    fn the_number_comes_first_and_says_that_it_is_computed() {
        assert_snapshot!(shown(), @r"
        91.2 N·m (67.3 lbf·ft)   COMPUTED, NOT MAKER'S
        7/16-20 UNF (stress area 76.6 mm²), SAE J429 grade 5, dry, K 0.20

        Checks       CAUTION The maximum clamp load exceeds proof load.
        Clamp load   41.1 kN, governed by 0.75 of the bolt's proof load of 54.7 kN.
        Scatter      26.7 to 55.4 kN at this setting (wrench and friction).
        Literature   K 0.15 to 0.30 reported: 68.4 to 137 N·m (50.4 to 101 lbf·ft).
        Assumed      Flat seats, hand wrench.
        Mind         The maker's specification, local codes and a licensed inspection
                     stand above this value.
        Sources      Grade: SAE J429, table 1 (FROM MEMORY).
        ");
    }

    #[test]
    fn no_line_is_wider_than_the_page() {
        for line in shown().lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
}
