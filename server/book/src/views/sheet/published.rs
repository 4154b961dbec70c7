//! A published specification as the sheet tells it.

use super::cell::{Goal, Number, TorqueCell};
use super::passes::{FIRST_SHARE, Way};
use super::torque::{Shown, loads, mind};
use crate::reason::effective::{self, EffectiveJoint};
use crate::reason::shown;
use crate::reason::target;
use crate::record::fact::{Revision, SaidTorque, SpecificationStated, SpecifiedStep};
use crate::record::ids::SpecificationId;
use crate::record::words::TorqueUnit;
use crate::views::{answers, value};

/// The specification in force for a joint of the sheet.
#[derive(Clone, Debug)]
pub struct Published {
    /// Its identifier.
    pub specification: SpecificationId,
    /// The revision in force.
    pub revision: Revision,
    /// Where it is published.
    pub citation: String,
    /// The grade that it is stated for; may be empty.
    pub grade: String,
    /// The lubrication that it is stated for; may be empty.
    pub lubrication: String,
    /// The minimum torque allowed at the end.
    pub minimum: Option<Goal>,
    /// The maximum torque allowed at the end.
    pub maximum: Option<Goal>,
    /// What else is said of it; may be empty.
    pub note: String,
}

/// How the sheet tells it. A stopped joint tells no torque, not even a published one, and no note that may hold one.
pub(super) fn of(stated: &SpecificationStated, unit: TorqueUnit, stopped: bool) -> Published {
    let limit = |torque: &Option<SaidTorque>| {
        let printed = torque.clone().filter(|_| !stopped)?;
        Some(Goal::Published { printed, unit })
    };
    Published {
        specification: stated.specification.clone(),
        revision: stated.revision,
        citation: stated.citation.clone(),
        grade: stated.grade.clone(),
        lubrication: stated.lubrication.clone(),
        minimum: limit(&stated.minimum),
        maximum: limit(&stated.maximum),
        note: match stopped {
            true => String::new(),
            false => stated.note.clone(),
        },
    }
}

impl Published {
    /// For people, a line each: where it is published, what it is stated for, what is allowed at the end.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let either = |said: &str, none: &str| if said.is_empty() { none } else { said }.to_owned();
        let mut lines = vec![
            format!(
                "Published: {} (specifications/{}, revision {}).",
                self.citation, self.specification, self.revision
            ),
            format!(
                "Stated for {}, {}.",
                either(&self.grade, "no grade"),
                either(&self.lubrication, "no lubrication")
            ),
        ];
        let limits = match (&self.minimum, &self.maximum) {
            (Some(minimum), Some(maximum)) => Some(format!("{minimum} to {maximum}")),
            (Some(minimum), None) => Some(format!("{minimum} or more")),
            (None, Some(maximum)) => Some(format!("{maximum} or less")),
            (None, None) => None,
        };
        lines.extend(limits.map(|limits| format!("Allowed at the end: {limits}.")));
        lines.extend(Some(self.note.clone()).filter(|note| !note.is_empty()));
        lines
    }
}

/// The torque cell, with the loads that it makes on a fastener as specified.
pub(super) fn torque(
    stated: &SpecificationStated,
    joint: &EffectiveJoint<'_>,
    unit: TorqueUnit,
) -> Shown {
    let catalogue = joint.shop().catalogue();
    let steps: Vec<Goal> = stated.steps.iter().map(|one| goal(one, unit)).collect();
    let end = stated.final_torque();
    let answer = end.and_then(|_| target::answer(joint.fact(), catalogue));
    let (mut cautions, sources) = answer
        .as_ref()
        .map(|answer| loads(answer, unit))
        .unwrap_or_default();
    cautions.extend(
        effective::restated(joint.fact(), stated, catalogue).map(|restated| {
            let restated = answers::restated(&restated, shown::engine_unit(unit));
            format!("Stated for {}: {restated}", stated.lubrication)
        }),
    );
    let said = value::cautions(stated, answer.as_ref());
    cautions.extend(mind(said.into_iter(), joint.fact()));
    Shown {
        cell: TorqueCell::Published {
            steps: steps.clone(),
            revision: stated.revision,
        },
        way: Some(way(stated, steps, unit)),
        cautions,
        sources,
    }
}

fn way(stated: &SpecificationStated, steps: Vec<Goal>, unit: TorqueUnit) -> Way {
    match (&steps[..], stated.final_torque()) {
        ([full], Some(torque)) => Way::Torque {
            full: full.clone(),
            first: Goal::ShareOfPublished {
                number: Number {
                    nm: FIRST_SHARE * torque.nm,
                    unit,
                },
                share: FIRST_SHARE,
            },
        },
        _ => Way::Steps(steps),
    }
}

fn goal(step: &SpecifiedStep, unit: TorqueUnit) -> Goal {
    match step {
        SpecifiedStep::Torque(printed) => Goal::Published {
            printed: printed.clone(),
            unit,
        },
        SpecifiedStep::TurnDegrees(degrees) => Goal::Turn(*degrees),
    }
}
