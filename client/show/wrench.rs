//! What to set a wrench to.

use clampbook_api::v1::{SetWrenchResponse, TorqueUnit, WrenchFit};

use super::{
    quantity::{at_most, three_figures, torque},
    severity, sources,
    text::{paragraph, paragraphs, strong},
};

/// The setting first, then each wrench.
pub(crate) fn answer(answer: &SetWrenchResponse, unit: TorqueUnit) -> String {
    let taken = answer.fits.iter().find(|fit| fit.label == answer.chosen);
    let set = taken.and_then(|fit| fit.set_torque_nm);
    let mut shown = match set {
        Some(set) => format!("{}   on {}\n\n", strong(&torque(set, unit)), answer.chosen),
        None => format!(
            "{}   to be shown\n\n",
            strong(&torque(answer.setting_nm, unit))
        ),
    };
    let at_fastener = torque(answer.fastener_torque_nm, unit);
    let reckoned = if answer.adapter_factor == 1.0 {
        format!("{at_fastener} at the fastener.")
    } else {
        format!(
            "{at_fastener} at the fastener, times {} for the adapter, is {}.",
            three_figures(answer.adapter_factor),
            torque(answer.setting_nm, unit)
        )
    };
    shown.push_str(&paragraph("Reckoned", &reckoned));
    let fits = answer.fits.iter().map(|fit| one(fit, unit));
    shown.push_str(&paragraphs("Wrenches", fits));
    if let Some(found) = &answer.lock_nut {
        let said = format!("{} {}", severity(found.severity), found.text);
        shown.push_str(&paragraph("Lock nut", &said));
    }
    let least = answer.least_run_on_nm.iter().map(|nm| torque(*nm, unit));
    let least: Vec<String> = least.collect();
    if !least.is_empty() {
        let said = format!(
            "{} of run-on torque by the published tables.",
            least.join(" or ")
        );
        shown.push_str(&paragraph("Least grip", &said));
    }
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn one(fit: &WrenchFit, unit: TorqueUnit) -> String {
    let percent = |share: f64| at_most(1, share * 100.0);
    let mut said = match fit.set_torque_nm {
        Some(set) => format!(
            "{}: {}, really {} to {} ({} % either way).",
            fit.label,
            torque(set, unit),
            torque(fit.least_torque_nm, unit),
            torque(fit.greatest_torque_nm, unit),
            percent(fit.deviation)
        ),
        None => format!(
            "{}: not to be used at {} % of its scale.",
            fit.label,
            percent(fit.share_of_scale)
        ),
    };
    for objection in &fit.objections {
        said.push_str(&format!(
            " {} {}",
            severity(objection.severity),
            objection.text
        ));
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};
    use clampbook_api::v1::{Objection, Severity};
    use insta::assert_snapshot;

    #[test]
    fn the_setting_comes_first_with_the_wrench_it_is_for() {
        let set = SetWrenchResponse {
            fastener_torque_nm: 100.0,
            setting_nm: 80.0,
            adapter_factor: 0.8,
            chosen: "long".to_owned(),
            fits: vec![
                WrenchFit {
                    label: "long".to_owned(),
                    set_torque_nm: Some(80.0),
                    share_of_scale: 0.4,
                    deviation: 0.04,
                    least_torque_nm: 76.8,
                    greatest_torque_nm: 83.2,
                    ..Default::default()
                },
                WrenchFit {
                    label: "small".to_owned(),
                    share_of_scale: 1.6,
                    objections: vec![Objection {
                        objection: "wrench-above-full-scale".to_owned(),
                        severity: Severity::Stop.into(),
                        text: "The setting is above full scale: take a larger wrench.".to_owned(),
                    }],
                    ..Default::default()
                },
            ],
            ..Default::default()
        };
        let shown = finish(&answer(&set, TorqueUnit::NewtonMetre), Look::default());
        assert_snapshot!(shown, @r"
        80.0 N·m   on long

        Reckoned     100 N·m at the fastener, times 0.800 for the adapter, is 80.0 N·m.
        Wrenches     long: 80.0 N·m, really 76.8 N·m to 83.2 N·m (4 % either way).
                     small: not to be used at 160 % of its scale. STOP The setting is
                     above full scale: take a larger wrench.
        ");
    }
}
