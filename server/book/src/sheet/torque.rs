//! The torque cell of a joint, and what stands behind it.

use crate::fact::JointAdded;
use crate::target;
use crate::words::TorqueUnit;
use clampbook_engine::quantity;
use clampbook_engine::source::basis_text;
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::{Catalogue, Caution, Cited, FindingId, compute};

/// Said beside every computed number.
const COMPUTED: &str = "COMPUTED, NOT MAKER'S";

/// A joint's torque as the sheet shows it.
pub(super) struct Shown {
    pub(super) shown: String,
    pub(super) nm: Option<f64>,
    pub(super) cautions: Vec<String>,
    pub(super) sources: Vec<String>,
}

/// The torque of a joint in the unit people chose.
pub(super) fn of(fact: &JointAdded, unit: TorqueUnit, catalogue: &Catalogue) -> Shown {
    let Some(purpose) = target::purpose(fact) else {
        return none("no torque: this release does not know what the joint is for".into());
    };
    if let Some(refusal) = purpose.refusal() {
        return none(format!(
            "NO COMPUTED TORQUE: {} {}",
            refusal.why, refusal.instead
        ));
    }
    let Some(wanted) = &fact.target else {
        return none("no torque: nothing is specified for this joint".into());
    };
    let question = match target::question(wanted, purpose, catalogue) {
        Ok(question) => question,
        Err(faults) => {
            let why: Vec<String> = faults.iter().map(ToString::to_string).collect();
            return none(format!("no torque: {}", why.join("; ")));
        }
    };
    let answer = compute(&question);
    // A tapped hole of known engagement is judged by the rules instead.
    let is_judged = fact
        .build
        .as_ref()
        .is_some_and(|b| b.tapped.is_some() && b.bolt_length_mm.is_some());
    let nm = answer.torque.get();
    Shown {
        shown: computed(nm, unit),
        nm: Some(nm),
        cautions: std::iter::once(format!(
            "Clamp load at this torque: {:.1} to {:.1} kN, aiming at {:.1} kN.",
            answer.scatter.least.get() / 1000.0,
            answer.scatter.greatest.get() / 1000.0,
            answer.clamp_load.get() / 1000.0
        ))
        .chain(
            answer
                .findings
                .iter()
                // What the nut does not carry is a flag of the joint, and told as one.
                .filter(|finding| !is_of_nut(finding.id))
                .map(|finding| finding.id.text().to_owned()),
        )
        .chain(
            answer
                .cautions
                .iter()
                .filter(|caution| *caution != Caution::NutNotChecked || !is_judged)
                .map(|caution| caution.text().to_owned()),
        )
        .collect(),
        sources: answer.sources.iter().map(|cited| source(&cited)).collect(),
    }
}

const fn is_of_nut(finding: FindingId) -> bool {
    matches!(
        finding,
        FindingId::NutAgainstTarget
            | FindingId::NutAgainstGreatest
            | FindingId::NutWeakerThanBolt
            | FindingId::NutNotMadeForBolt
    )
}

/// A publication and what it was used for.
pub(super) fn source(cited: &Cited<'_>) -> String {
    format!(
        "{}: {} ({})",
        cited.used_for.text(),
        cited.source.citation,
        basis_text(cited.basis)
    )
}

/// A computed torque for people; it is never shown without saying so.
pub(super) fn computed(nm: f64, unit: TorqueUnit) -> String {
    format!("{} {COMPUTED}", shown(nm, unit))
}

/// A torque for people: in one unit, to three significant figures.
pub(super) fn shown(nm: f64, unit: TorqueUnit) -> String {
    let unit = match unit {
        TorqueUnit::NewtonMetre => quantity::TorqueUnit::NewtonMetre,
        TorqueUnit::PoundForceFoot => quantity::TorqueUnit::PoundForceFoot,
        TorqueUnit::PoundForceInch => quantity::TorqueUnit::PoundForceInch,
        TorqueUnit::KilogramForceMetre => quantity::TorqueUnit::KilogramForceMetre,
    };
    NewtonMetres::new(nm).map_or_else(
        |_| "no torque".into(),
        |torque| quantity::show_torque(torque, unit),
    )
}

fn none(shown: String) -> Shown {
    Shown {
        shown,
        nm: None,
        cautions: Vec::new(),
        sources: Vec::new(),
    }
}
