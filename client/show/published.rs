//! A published torque: what it implies, and for another lubricant.

use clampbook_api::v1::{RestateTorqueResponse, UnitCheck, UnitReading};

use super::{
    assumed, band,
    cite::sources,
    text::{caution, paragraph, paragraphs, strong, unbroken},
};

/// The restated number first, or the question which unit it is.
pub(crate) fn answer(answer: &RestateTorqueResponse) -> String {
    let published = unbroken(&answer.torque_text);
    let mut shown = match &answer.restated {
        Some(restated) => format!(
            "{}   RESTATED, NOT PUBLISHED\n{}, {}, {} times the published {published}\n\n",
            strong(&unbroken(&restated.torque_text)),
            answer.thread,
            restated.lubrication,
            restated.ratio_text
        ),
        None => format!(
            "{}   AS PUBLISHED\n{}, {}\n\n",
            strong(&published),
            answer.thread,
            answer.published_lubrication
        ),
    };
    shown.push_str(&paragraph("Implies", &implied(answer)));
    if answer.unit_check() == UnitCheck::Ask {
        let question = format!("{} which unit is it?", caution("CAUTION"));
        shown.push_str(&paragraph("Unit", &question));
        let readings = answer.readings.iter().map(reading);
        shown.push_str(&paragraphs("", readings));
    }
    if let Some(restated) = &answer.restated {
        shown.push_str(&band(&restated.clamp_load_text));
    }
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn implied(answer: &RestateTorqueResponse) -> String {
    let clamp = unbroken(&answer.clamp_load_text);
    let lubrication = &answer.published_lubrication;
    match answer.share_of_proof_text.as_str() {
        "" => format!("{clamp} of clamp load, {lubrication} as published."),
        share => format!("{clamp} of clamp load, {share} of proof, {lubrication} as published."),
    }
}

fn reading(reading: &UnitReading) -> String {
    format!(
        "as {}: {} of proof, off by a factor of {}",
        unbroken(&reading.torque_text),
        reading.share_of_proof_text,
        reading.factor_text
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};
    use clampbook_api::v1::TorqueUnit;
    use insta::assert_snapshot;

    #[test]
    fn a_doubtful_unit_is_asked_about_with_its_readings() {
        let asked = RestateTorqueResponse {
            torque_nm: 6.779,
            clamp_load_n: 3050.3,
            share_of_proof: Some(0.068),
            share_of_proof_text: "0.07".to_owned(),
            unit_check: UnitCheck::Ask.into(),
            readings: vec![UnitReading {
                unit: TorqueUnit::PoundForceFoot.into(),
                torque_nm: 81.35,
                share_of_proof: 0.816,
                factor: 12.0,
                share_of_proof_text: "0.82".to_owned(),
                factor_text: "12".to_owned(),
                torque_text: "60 lbf·ft (81.3 N·m)".to_owned(),
            }],
            thread: "7/16-20 UNF".to_owned(),
            published_lubrication: "dry".to_owned(),
            torque_text: "60 lbf·in (6.78 N·m)".to_owned(),
            clamp_load_text: "686 lbf".to_owned(),
            ..Default::default()
        };
        let shown = finish(&answer(&asked), Look::default());
        assert_snapshot!(shown, @r"
        60 lbf·in (6.78 N·m)   AS PUBLISHED
        7/16-20 UNF, dry

        Implies      686 lbf of clamp load, 0.07 of proof, dry as published.
        Unit         CAUTION which unit is it?
                     as 60 lbf·ft (81.3 N·m): 0.82 of proof, off by a factor of 12
        ");
    }
}
