//! What to set a wrench to.

use clampbook_api::v1::{SetWrenchResponse, WrenchFit};

use super::{
    cite::sources,
    severity,
    text::{paragraph, paragraphs, strong, unbroken},
};

/// The setting first, as it is read on the wrench; then each wrench.
pub(crate) fn answer(answer: &SetWrenchResponse) -> String {
    let wrench = match answer.chosen.as_str() {
        "" => String::new(),
        chosen => format!("WRENCH {chosen} "),
    };
    let mut shown = match &answer.set {
        Some(set) => strong(&format!("SET {wrench}TO {}", unbroken(&set.text))) + "\n",
        None => format!(
            "{}\n{} wanted on the wrench\n",
            strong("NONE OF THESE WRENCHES"),
            unbroken(&answer.setting_text)
        ),
    };
    if let Some(at_fastener) = &answer.at_fastener {
        shown.push_str(&format!("at the nut {}\n", unbroken(&at_fastener.text)));
    }
    shown.push('\n');
    if !answer.adapter_text.is_empty() {
        shown.push_str(&paragraph("Adapter", &answer.adapter_text));
    }
    shown.push_str(&paragraphs("Wrenches", answer.fits.iter().map(one)));
    if let Some(found) = &answer.lock_nut {
        let said = format!("{} {}", severity(found.severity), found.text);
        shown.push_str(&paragraph("Lock nut", &said));
    }
    if !answer.minimum_prevailing_torque_text.is_empty() {
        let said = &answer.minimum_prevailing_torque_text;
        shown.push_str(&paragraph("Minimum grip", said));
    }
    shown.push_str(&paragraphs("Mind", &answer.cautions));
    shown.push_str(&sources(&answer.sources));
    shown
}

fn one(fit: &WrenchFit) -> String {
    let objections = fit.objections.iter();
    let objections = objections.map(|one| format!(" {} {}", severity(one.severity), one.text));
    fit.text.clone() + &objections.collect::<String>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};
    use clampbook_api::v1::{Objection, Severity, ShownTorque, TorqueUnit};
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
            setting_text: "59 lbf·ft (80 N·m)".to_owned(),
            adapter_text: "The torque at the nut times 0.8.".to_owned(),
            chosen: "A".to_owned(),
            set: set.clone(),
            at_fastener: reading(73.8, TorqueUnit::PoundForceFoot, "73.8 lbf·ft (100 N·m)"),
            fits: vec![
                WrenchFit {
                    label: "A".to_owned(),
                    set,
                    text: "A: 59 lbf·ft, really 56.6 lbf·ft (76.8 N·m) to 61.4 lbf·ft (83.2 N·m) (4 % either way)."
                        .to_owned(),
                    ..Default::default()
                },
                WrenchFit {
                    label: "small".to_owned(),
                    text: "small: not to be used at 160 % of its scale.".to_owned(),
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
        let shown = finish(&answer(&on_a_crowfoot()), Look::default());
        assert_snapshot!(shown, @r"
        SET WRENCH A TO 59 lbf·ft
        at the nut 73.8 lbf·ft (100 N·m)

        Adapter      The torque at the nut times 0.8.
        Wrenches     A: 59 lbf·ft, really 56.6 lbf·ft (76.8 N·m) to 61.4 lbf·ft
                     (83.2 N·m) (4 % either way).
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
            adapter_text: String::new(),
            ..on_a_crowfoot()
        };
        let shown = finish(&answer(&bare), Look::default());
        assert_snapshot!(shown, @"SET TO 59 lbf·ft");
        let useless = SetWrenchResponse {
            chosen: String::new(),
            set: None,
            fits: on_a_crowfoot().fits.split_off(1),
            ..on_a_crowfoot()
        };
        let shown = finish(&answer(&useless), Look::default());
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
