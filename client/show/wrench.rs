//! What to set a wrench to.

use clampbook_api::v1::{SetWrenchResponse, ShownTorque, TorqueUnit, WrenchFit};

use super::{
    cite::sources,
    quantity::{UNBROKEN, at_most, three_figures, torque},
    severity,
    text::{paragraph, paragraphs, strong},
};

/// The setting first, as it is read on the wrench; then each wrench.
pub(crate) fn answer(answer: &SetWrenchResponse, unit: Option<TorqueUnit>) -> String {
    let own = [&answer.set, &answer.at_fastener].into_iter().flatten();
    let own = own.map(ShownTorque::unit).next();
    let unit = unit.or(own).unwrap_or_default();
    let mut shown = match &answer.set {
        Some(set) if answer.chosen.is_empty() => {
            format!("{}\n", strong(&format!("SET TO {}", text(set))))
        }
        Some(set) => strong(&format!("SET WRENCH {} TO {}", answer.chosen, text(set))) + "\n",
        None => format!(
            "{}\n{} wanted on the wrench\n",
            strong("NONE OF THESE WRENCHES"),
            torque(answer.setting_nm, unit)
        ),
    };
    if let Some(at_fastener) = &answer.at_fastener {
        shown.push_str(&format!("at the nut {}\n", text(at_fastener)));
    }
    shown.push('\n');
    if answer.adapter_factor != 1.0 {
        let reckoned = format!(
            "The torque at the nut times {}.",
            three_figures(answer.adapter_factor)
        );
        shown.push_str(&paragraph("Adapter", &reckoned));
    }
    shown.push_str(&paragraphs("Wrenches", answer.fits.iter().map(one)));
    if let Some(found) = &answer.lock_nut {
        let said = format!("{} {}", severity(found.severity), found.text);
        shown.push_str(&paragraph("Lock nut", &said));
    }
    let minimum = answer
        .minimum_prevailing_torque_nm
        .iter()
        .map(|nm| torque(*nm, unit));
    let minimum: Vec<String> = minimum.collect();
    if !minimum.is_empty() {
        let said = format!(
            "{} of prevailing torque by the published tables.",
            minimum.join(" or ")
        );
        shown.push_str(&paragraph("Minimum grip", &said));
    }
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

/// Number and unit, never parted at the end of a line.
fn text(shown: &ShownTorque) -> String {
    shown.text.replace(' ', &UNBROKEN.to_string())
}

/// One wrench, in its own unit.
fn one(fit: &WrenchFit) -> String {
    let percent = |share: f64| at_most(1, share * 100.0);
    let mut said = match &fit.set {
        Some(set) => format!(
            "{}: {}, really {} to {} ({} % either way).",
            fit.label,
            text(set),
            torque(fit.minimum_torque_nm, set.unit()),
            torque(fit.maximum_torque_nm, set.unit()),
            percent(fit.deviation_share)
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

    fn reading(value: f64, unit: TorqueUnit, text: &str) -> Option<ShownTorque> {
        Some(ShownTorque {
            value,
            unit: unit.into(),
            text: text.to_owned(),
        })
    }

    fn on_a_crowfoot() -> SetWrenchResponse {
        let set = reading(59.0, TorqueUnit::PoundForceFoot, "59 lbf·ft");
        SetWrenchResponse {
            fastener_torque_nm: 100.0,
            setting_nm: 80.0,
            adapter_factor: 0.8,
            chosen: "A".to_owned(),
            set: set.clone(),
            at_fastener: reading(73.8, TorqueUnit::PoundForceFoot, "73.8 lbf·ft (100 N·m)"),
            fits: vec![
                WrenchFit {
                    label: "A".to_owned(),
                    set_torque_nm: Some(80.0),
                    set,
                    share_of_scale: 0.4,
                    deviation_share: 0.04,
                    minimum_torque_nm: 76.8,
                    maximum_torque_nm: 83.2,
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
        }
    }

    #[test]
    fn the_setting_comes_first_with_the_wrench_it_is_for() {
        let shown = finish(&answer(&on_a_crowfoot(), None), Look::default());
        assert_snapshot!(shown, @r"
        SET WRENCH A TO 59 lbf·ft
        at the nut 73.8 lbf·ft (100 N·m)

        Adapter      The torque at the nut times 0.8.
        Wrenches     A: 59 lbf·ft, really 56.6 lbf·ft (76.8 N·m) to
                     61.4 lbf·ft (83.2 N·m) (4 % either way).
                     small: not to be used at 160 % of its scale. STOP The setting is
                     above full scale: take a larger wrench.
        ");
    }

    #[test]
    fn without_wrenches_there_is_a_number_and_with_useless_ones_there_is_none() {
        let bare = SetWrenchResponse {
            chosen: String::new(),
            fits: Vec::new(),
            at_fastener: None,
            adapter_factor: 1.0,
            ..on_a_crowfoot()
        };
        let shown = finish(&answer(&bare, None), Look::default());
        assert_snapshot!(shown, @"SET TO 59 lbf·ft");
        let useless = SetWrenchResponse {
            chosen: String::new(),
            set: None,
            fits: on_a_crowfoot().fits.split_off(1),
            ..on_a_crowfoot()
        };
        let shown = finish(&answer(&useless, None), Look::default());
        assert_snapshot!(shown, @r"
        NONE OF THESE WRENCHES
        59 lbf·ft (80 N·m) wanted on the wrench
        at the nut 73.8 lbf·ft (100 N·m)

        Adapter      The torque at the nut times 0.8.
        Wrenches     small: not to be used at 160 % of its scale. STOP The setting is
                     above full scale: take a larger wrench.
        ");
    }
}
