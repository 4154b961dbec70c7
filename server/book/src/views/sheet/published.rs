//! A published specification as the sheet tells it.

use super::cell::{Number, TorqueCell};
use super::passes::{FIRST_SHARE, Way};
use super::torque::{Shown, loads, mind};
use crate::reason::effective::{self, EffectiveJoint};
use crate::reason::shown;
use crate::reason::target;
use crate::record::fact::{Revision, SaidTorque, SpecificationStated, SpecifiedStep};
use crate::record::ids::SpecificationId;
use crate::record::words::TorqueUnit;
use crate::views::value;

/// The specification in force for a joint of the sheet.
#[derive(Clone, Debug)]
pub struct Published {
    /// Its identifier.
    pub specification: SpecificationId,
    /// The revision in force.
    pub revision: Revision,
    /// Where it is published.
    pub citation: String,
    /// For people, a line each: where it is published, what it is stated for, what is allowed at the end.
    pub lines: Vec<String>,
}

/// How the sheet tells it. A stopped joint tells no torque, not even a published one.
pub(super) fn of(stated: &SpecificationStated, unit: TorqueUnit, stopped: bool) -> Published {
    let either = |said: &str, none: &str| if said.is_empty() { none } else { said }.to_owned();
    let mut lines = vec![
        format!(
            "Published: {} (specifications/{}, revision {}).",
            stated.citation, stated.specification, stated.revision
        ),
        format!(
            "Stated for {}, {}.",
            either(&stated.grade, "no grade"),
            either(&stated.lubrication, "no lubrication")
        ),
    ];
    if !stopped {
        lines.extend(allowed(stated, unit));
        lines.extend(Some(stated.note.clone()).filter(|note| !note.is_empty()));
    }
    Published {
        specification: stated.specification.clone(),
        revision: stated.revision,
        citation: stated.citation.clone(),
        lines,
    }
}

fn allowed(stated: &SpecificationStated, unit: TorqueUnit) -> Option<String> {
    let said =
        |torque: &Option<SaidTorque>| torque.as_ref().map(|torque| shown::published(torque, unit));
    let limits = match (said(&stated.minimum), said(&stated.maximum)) {
        (Some(minimum), Some(maximum)) => format!("{minimum} to {maximum}"),
        (Some(minimum), None) => format!("{minimum} or more"),
        (None, Some(maximum)) => format!("{maximum} or less"),
        (None, None) => return None,
    };
    Some(format!("Allowed at the end: {limits}."))
}

/// The torque cell, with the loads that it makes on a fastener as specified.
pub(super) fn torque(
    stated: &SpecificationStated,
    joint: &EffectiveJoint<'_>,
    unit: TorqueUnit,
) -> Shown {
    let catalogue = joint.shop().catalogue();
    let steps: Vec<String> = stated.steps.iter().map(|one| step(one, unit)).collect();
    let end = stated.final_torque();
    let answer = end.and_then(|_| target::answer(joint.fact(), catalogue));
    let (mut cautions, sources) = answer
        .as_ref()
        .map(|answer| loads(answer, unit))
        .unwrap_or_default();
    cautions.extend(
        effective::restated(joint.fact(), stated, catalogue).map(|restated| {
            format!(
                "Stated for {}: with {} {} would give the intended clamp load; the published torque still holds.",
                stated.lubrication,
                restated.lubrication.name(),
                shown::torque(restated.torque.get(), unit)
            )
        }),
    );
    let said = value::cautions(stated, answer.as_ref());
    cautions.extend(mind(said.into_iter(), joint.fact()));
    Shown {
        cell: TorqueCell::Published {
            last: end.map(|torque| Number {
                nm: torque.nm,
                unit,
            }),
            steps: steps.join(", then "),
            revision: stated.revision,
        },
        way: Some(way(stated, steps, unit)),
        cautions,
        sources,
    }
}

fn way(stated: &SpecificationStated, steps: Vec<String>, unit: TorqueUnit) -> Way {
    match (&stated.steps[..], stated.final_torque()) {
        ([_], Some(torque)) => Way::Torque {
            nm: torque.nm,
            full: shown::published(torque, unit),
            first: format!(
                "{}, {FIRST_SHARE} of the published torque",
                shown::torque(FIRST_SHARE * torque.nm, unit)
            ),
        },
        _ => Way::Steps(steps),
    }
}

fn step(step: &SpecifiedStep, unit: TorqueUnit) -> String {
    match step {
        SpecifiedStep::Torque(torque) => shown::published(torque, unit),
        SpecifiedStep::TurnDegrees(degrees) => format!("{} further", shown::angle(*degrees)),
    }
}
