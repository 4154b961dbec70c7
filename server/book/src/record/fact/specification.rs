//! What the maker of a machine, part or kit published: a specification, as it is printed.

use super::SaidTorque;
use super::shop::Revision;
use crate::record::ids::SpecificationId;
use serde::{Deserialize, Serialize};

/// A published specification, or a new revision of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SpecificationStated {
    /// Its identifier.
    pub specification: SpecificationId,
    /// Which revision this is.
    pub revision: Revision,
    /// What it is for, as people call it.
    pub display_name: String,
    /// Thread designation.
    pub thread: String,
    /// Grade it is published for; empty when the publication names none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub grade: String,
    /// Lubrication it is published for; empty when the publication says nothing.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[serde(rename = "condition")]
    pub lubrication: String,
    /// Identifier of the purpose, as the engine spells it.
    pub purpose: String,
    /// What is done, in order.
    pub steps: Vec<SpecifiedStep>,
    /// Minimum torque allowed at the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(rename = "least")]
    pub minimum: Option<SaidTorque>,
    /// Maximum torque allowed at the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(rename = "greatest")]
    pub maximum: Option<SaidTorque>,
    /// Where it is published: document, edition, page.
    pub citation: String,
    /// Whether somebody has looked again and the unit is as published.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub unit_confirmed: bool,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// One step of a specification.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SpecifiedStep {
    /// Tighten to a torque.
    Torque(SaidTorque),
    /// Turn further by an angle, in degrees.
    TurnDegrees(f64),
}

/// A specification that a joint follows, and the revision that was read when the joint named it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Followed {
    /// Its identifier.
    pub specification: SpecificationId,
    /// The revision.
    pub revision: Revision,
}

/// What a published specification asked for at the time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WantedByMaker {
    /// The specification, and the revision that was in force.
    #[serde(flatten)]
    pub followed: Followed,
    /// Torque of its last step, in newton metres; absent when that step is an angle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_nm: Option<f64>,
    /// Minimum torque allowed at the end, in newton metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(rename = "least_nm")]
    pub minimum_nm: Option<f64>,
    /// Maximum torque allowed at the end, in newton metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(rename = "greatest_nm")]
    pub maximum_nm: Option<f64>,
}

/// A specification does not hold any more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SpecificationWithdrawn {
    /// Its identifier.
    pub specification: SpecificationId,
    /// Why.
    pub reason: String,
}

impl SpecificationStated {
    /// The torque of its last torque step, if it has one.
    #[must_use]
    pub fn torque(&self) -> Option<&SaidTorque> {
        self.steps.iter().rev().find_map(|step| match step {
            SpecifiedStep::Torque(torque) => Some(torque),
            SpecifiedStep::TurnDegrees(_) => None,
        })
    }

    /// The torque that is reached at the end, unless the last step is an angle.
    #[must_use]
    pub fn final_torque(&self) -> Option<&SaidTorque> {
        match self.steps.last()? {
            SpecifiedStep::Torque(torque) => Some(torque),
            SpecifiedStep::TurnDegrees(_) => None,
        }
    }

    /// Whether another one asks for the same: thread, grade, lubrication, steps and limits.
    #[must_use]
    pub fn asks_the_same(&self, other: &Self) -> bool {
        self.thread == other.thread
            && self.grade == other.grade
            && self.lubrication == other.lubrication
            && self.steps == other.steps
            && self.minimum == other.minimum
            && self.maximum == other.maximum
    }

    /// Which specification and revision it is.
    #[must_use]
    pub fn followed(&self) -> Followed {
        Followed {
            specification: self.specification.clone(),
            revision: self.revision,
        }
    }
}
