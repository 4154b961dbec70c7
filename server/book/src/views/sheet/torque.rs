//! The torque cell of a joint, and what stands behind it.

use super::cell::{Goal, Number, TorqueCell};
use super::passes::{FIRST_SHARE, Way};
use super::published;
use crate::reason::effective::{EffectiveJoint, Value};
use crate::reason::shown;
use crate::record::fact::JointAdded;
use crate::record::words::TorqueUnit;
use clampbook_engine::source::basis_text;
use clampbook_engine::{Answer, Assumption, Caution, CheckId, Cited};

/// A joint's torque as the sheet shows it.
pub(super) struct Shown {
    pub(super) cell: TorqueCell,
    pub(super) way: Option<Way>,
    pub(super) cautions: Vec<String>,
    pub(super) sources: Vec<String>,
}

/// The torque of a joint in the unit people chose.
pub(super) fn of(joint: &EffectiveJoint<'_>, unit: TorqueUnit) -> Shown {
    match joint.value() {
        Value::Published(stated) => published::torque(stated, joint, unit),
        Value::Computed(answer) => of_computed(&answer, joint.fact(), unit),
        Value::Nothing(why) => Shown {
            cell: TorqueCell::Nothing(why),
            way: None,
            cautions: Vec::new(),
            sources: Vec::new(),
        },
    }
}

fn of_computed(answer: &Answer<'_>, fact: &JointAdded, unit: TorqueUnit) -> Shown {
    let nm = answer.torque.get();
    let (mut cautions, sources) = loads(answer, unit);
    cautions.extend(mind(answer.cautions.iter().map(Caution::text), fact));
    Shown {
        cell: TorqueCell::Computed(Number { nm, unit }),
        way: Some(Way::Torque {
            full: Goal::Computed(Number { nm, unit }),
            first: Goal::Computed(Number {
                nm: FIRST_SHARE * nm,
                unit,
            }),
        }),
        cautions,
        sources,
    }
}

/// Clamp loads at the torque, what was found about each, and the publications behind the numbers.
pub(super) fn loads(answer: &Answer<'_>, unit: TorqueUnit) -> (Vec<String>, Vec<String>) {
    let band = format!(
        "Clamp load at this torque: {}, aiming at {}.",
        shown::load_range(answer.scatter.minimum, answer.scatter.maximum, unit),
        shown::load(answer.clamp_load, unit)
    );
    let findings = answer
        .findings
        .iter()
        // What the nut does not carry is a flag of the joint, and told as one.
        .filter(|finding| !is_of_nut(finding.id))
        .map(|finding| finding.id.text().to_owned());
    let baked = answer
        .assumptions
        .iter()
        // The person who fits a new part must check it again.
        .filter(|assumption| *assumption == Assumption::Baked)
        .map(|assumption| assumption.text().to_owned());
    let said = std::iter::once(band).chain(findings).chain(baked).collect();
    let sources = answer.sources.iter().map(|cited| source(&cited)).collect();
    (said, sources)
}

/// What to mind; a tapped hole of known engagement is judged by the rules instead.
pub(super) fn mind<'t>(
    cautions: impl Iterator<Item = &'t str>,
    fact: &JointAdded,
) -> impl Iterator<Item = String> {
    let is_judged = fact
        .build
        .as_ref()
        .is_some_and(|b| b.stack.tapped.is_some() && b.stack.bolt_length_mm.is_some());
    cautions
        .filter(move |caution| !is_judged || *caution != Caution::NutNotChecked.text())
        .map(str::to_owned)
}

const fn is_of_nut(finding: CheckId) -> bool {
    matches!(
        finding,
        CheckId::NutAgainstTarget
            | CheckId::NutAgainstMaximum
            | CheckId::NutWeakerThanBolt
            | CheckId::NutNotMadeForBolt
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
