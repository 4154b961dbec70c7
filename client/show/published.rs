//! A published torque: what it implies, and for another lubricant.

use clampbook_api::v1::{RestateTorqueResponse, TorqueUnit, UnitCheck, UnitReading};

use super::{
    assumed,
    cite::sources,
    quantity::{both, load, three_figures, torque},
    scatter,
    text::{caution, paragraph, paragraphs, strong},
};

/// The restated number first, or the question which unit it is.
pub(crate) fn answer(answer: &RestateTorqueResponse, unit: TorqueUnit) -> String {
    let published = torque(answer.torque_nm, unit);
    let mut shown = match &answer.restated {
        Some(restated) => format!(
            "{}   RESTATED, NOT PUBLISHED\n{}, {}, {} times the published {published}\n\n",
            both(restated.torque_nm, unit),
            answer.thread,
            restated.lubrication,
            three_figures(restated.ratio)
        ),
        None => format!(
            "{}   AS PUBLISHED\n{}, {}\n\n",
            strong(&published),
            answer.thread,
            answer.published_lubrication
        ),
    };
    shown.push_str(&paragraph("Implies", &implied(answer, unit)));
    if answer.unit_check() == UnitCheck::Ask {
        let question = format!("{} which unit is it?", caution("CAUTION"));
        shown.push_str(&paragraph("Unit", &question));
        let readings = answer.readings.iter().map(reading);
        shown.push_str(&paragraphs("", readings));
    }
    if let Some(restated) = &answer.restated {
        shown.push_str(&scatter(
            restated.minimum_clamp_load_n,
            restated.maximum_clamp_load_n,
            unit,
        ));
    }
    shown.push_str(&assumed(&answer.assumptions));
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn implied(answer: &RestateTorqueResponse, unit: TorqueUnit) -> String {
    let clamp = load(answer.clamp_load_n, unit);
    let lubrication = &answer.published_lubrication;
    match answer.share_of_proof {
        Some(share) => format!(
            "{clamp} of clamp load, {} of proof, {lubrication} as published.",
            three_figures(share)
        ),
        None => format!("{clamp} of clamp load, {lubrication} as published."),
    }
}

fn reading(reading: &UnitReading) -> String {
    format!(
        "as {}: {} of proof, off by a factor of {}",
        torque(reading.torque_nm, reading.unit()),
        three_figures(reading.share_of_proof),
        three_figures(reading.factor)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};
    use insta::assert_snapshot;

    #[test]
    fn a_doubtful_unit_is_asked_about_with_its_readings() {
        let asked = RestateTorqueResponse {
            torque_nm: 6.779,
            clamp_load_n: 3050.3,
            share_of_proof: Some(0.068),
            unit_check: UnitCheck::Ask.into(),
            readings: vec![UnitReading {
                unit: TorqueUnit::PoundForceFoot.into(),
                torque_nm: 81.35,
                share_of_proof: 0.816,
                factor: 12.0,
            }],
            thread: "7/16-20 UNF".to_owned(),
            published_lubrication: "dry".to_owned(),
            ..Default::default()
        };
        let shown = finish(&answer(&asked, TorqueUnit::PoundForceInch), Look::default());
        assert_snapshot!(shown, @r"
        60.0 pound-force inches   AS PUBLISHED
        7/16-20 UNF, dry

        Implies      686 lbf of clamp load, 0.0680 of proof, dry as published.
        Unit         CAUTION which unit is it?
                     as 60.0 lbf·ft: 0.816 of proof, off by a factor of 12.0
        ");
    }
}
