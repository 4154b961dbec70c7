//! What went back in, and how it was tightened: two facts, because hours and people lie between them.

use super::{FastenerSpec, FittedWith, SaidTorque, WantedByMaker};
use crate::record::ids::{JointId, PositionNumber};
use crate::record::words::{Step, Tightness, TorqueUnit};
use serde::{Deserialize, Serialize};

/// Something went back into a position.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Refitted {
    /// The joint.
    pub joint: JointId,
    /// The position in it.
    pub position: PositionNumber,
    /// Whether the fastener was in already and stays as it is; only what is listed went in beside it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub in_already: bool,
    /// The new part, or nothing for the original.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub new_part: Option<FastenerSpec>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What went in with it, if somebody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<Box<FittedWith>>,
    /// How tight it was made at once; only entries that are older than tightening as a fact of its own say this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tightness: Option<Tightness>,
    /// What was read then.
    #[serde(flatten)]
    pub torque: TorqueRead,
}

impl Refitted {
    /// The original in, of which only this is known.
    #[must_use]
    pub fn new(joint: JointId, position: PositionNumber) -> Self {
        Self {
            joint,
            position,
            in_already: false,
            new_part: None,
            note: String::new(),
            with: None,
            tightness: None,
            torque: TorqueRead::default(),
        }
    }
}

/// What is in was made tighter.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tightened {
    /// The joint.
    pub joint: JointId,
    /// The position in it.
    pub position: PositionNumber,
    /// How far.
    pub step: Step,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What was read.
    #[serde(flatten)]
    pub torque: TorqueRead,
}

/// What was read, with which wrench, and what the record asked for.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct TorqueRead {
    /// Reading of the wrench.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reading: Option<SaidTorque>,
    /// Which wrench.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tool: String,
    /// Unit in which the record asks, where nothing was read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<TorqueUnit>,
    /// What the record asked for when this was said; kept so that history does not change with releases.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted: Option<Wanted>,
    /// What the published specification asked for when this was said, in place of a computed torque.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub published: Option<WantedByMaker>,
}

impl TorqueRead {
    /// The torque that was asked for, in newton metres, published or computed; nothing where published steps end in an angle.
    #[must_use]
    pub fn wanted_nm(&self) -> Option<f64> {
        match (&self.published, &self.wanted) {
            (Some(published), _) => published.torque_nm,
            (None, wanted) => wanted.as_ref().map(|wanted| wanted.torque_nm),
        }
    }
}

/// A computed torque as it was at the time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wanted {
    /// Torque, in newton metres.
    pub torque_nm: f64,
    /// Minimum clamp load at that torque, in newtons.
    #[serde(rename = "least_clamp_load_n")]
    pub minimum_clamp_load_n: f64,
    /// Maximum clamp load at that torque, in newtons.
    #[serde(rename = "greatest_clamp_load_n")]
    pub maximum_clamp_load_n: f64,
    /// Nut factor used.
    pub nut_factor: f64,
    /// Edition of the catalogue.
    pub catalog_edition: String,
    /// The shop's tests that the nut factor is from, if it is not published.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub own_tests: String,
}
