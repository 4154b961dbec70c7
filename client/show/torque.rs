//! One torque on one short screen.

use clampbook_api::v1::{ComputeTorqueResponse, LiteratureSpread, TorqueUnit};

use super::{
    assumed, checks,
    cite::sources,
    quantity::{UNBROKEN, at_most, both, load, plain, three_figures, torque},
    scatter,
    text::{paragraph, paragraphs},
};

/// The number with its unit first, then what speaks against it, then what it rests on. A computed value says so beside
/// the number.
pub(crate) fn answer(answer: &ComputeTorqueResponse, unit: TorqueUnit) -> String {
    let mut shown = format!("{}   COMPUTED, NOT MAKER'S\n", both(answer.torque_nm, unit));
    shown.push_str(&format!("{}\n\n", what(answer)));
    shown.push_str(&checks(&answer.checks));
    shown.push_str(&paragraph("Clamp load", &clamp_load(answer, unit)));
    if let Some(band) = &answer.scatter {
        shown.push_str(&scatter(
            band.minimum_clamp_load_n,
            band.maximum_clamp_load_n,
            unit,
        ));
    }
    if let Some(literature) = &answer.literature {
        shown.push_str(&paragraph("Literature", &spread(literature, unit)));
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
        "{} (stress area {}{UNBROKEN}mm²), {}, {lubrication}, K {}",
        answer.thread,
        three_figures(answer.tensile_stress_area_mm2),
        answer.grade,
        plain(answer.nut_factor)
    )
}

fn clamp_load(answer: &ComputeTorqueResponse, unit: TorqueUnit) -> String {
    let governed = match answer.governed_by.as_str() {
        "wanted-clamp-load" => "as asked,",
        _ => "governed by",
    };
    // Where the standard has no proof stress, 0.85 of yield stands for it.
    let bears = match answer.governed_by.as_str() {
        "yield-of-bolt" => "0.85 of the bolt's yield load,",
        _ => "the bolt's proof load of",
    };
    format!(
        "{}, {governed} {} of {bears} {}.",
        load(answer.clamp_load_n, unit),
        at_most(3, answer.clamp_load_n / answer.proof_load_n),
        load(answer.proof_load_n, unit),
    )
}

fn spread(literature: &LiteratureSpread, unit: TorqueUnit) -> String {
    format!(
        "K {} to {} is reported, so {} to {}.",
        plain(literature.low_nut_factor),
        plain(literature.high_nut_factor),
        torque(literature.low_torque_nm, unit),
        torque(literature.high_torque_nm, unit)
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
            proof_load_n: 54_733.0,
            scatter: Some(Scatter {
                minimum_clamp_load_n: 26_682.0,
                maximum_clamp_load_n: 55_417.0,
                relative_scatter: 0.35,
            }),
            literature: Some(LiteratureSpread {
                low_nut_factor: 0.15,
                high_nut_factor: 0.3,
                low_torque_nm: 68.4,
                high_torque_nm: 136.9,
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
        }
    }

    fn shown(unit: TorqueUnit) -> String {
        finish(&answer(&example(), unit), Look::default())
    }

    #[test]
    fn the_number_comes_first_and_says_that_it_is_computed() {
        assert_snapshot!(shown(TorqueUnit::Unspecified), @r"
        91.2 N·m   67.3 lbf·ft   COMPUTED, NOT MAKER'S
        7/16-20 UNF (stress area 76.6 mm²), SAE J429 grade 5, dry, K 0.2

        Checks       CAUTION The maximum clamp load exceeds proof load.
        Clamp load   41.0 kN, governed by 0.75 of the bolt's proof load of 54.7 kN.
        Scatter      26.7 kN to 55.4 kN at this setting (wrench and friction).
        Literature   K 0.15 to 0.3 is reported, so 68.4 N·m to 137 N·m.
        Assumed      Flat seats, hand wrench.
        Mind         The maker's specification, local codes and a licensed inspection
                     stand above this value.
        Sources      Grade: SAE J429, table 1 (FROM MEMORY).
        ");
    }

    #[test]
    fn another_unit_comes_first_when_it_is_asked_for() {
        assert!(shown(TorqueUnit::PoundForceFoot).starts_with("67.3 lbf·ft   91.2 N·m   COMPUTED"));
        assert!(shown(TorqueUnit::PoundForceInch).starts_with("807 lbf·in   91.2 N·m   COMPUTED"));
        assert!(shown(TorqueUnit::PoundForceFoot).contains("9230 lbf, governed by"));
    }

    #[test]
    fn no_line_is_wider_than_the_page() {
        for line in shown(TorqueUnit::PoundForceInch).lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
}
