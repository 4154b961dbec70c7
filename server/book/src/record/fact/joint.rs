//! A joint as described: its layout, what it was specified for, how it is built.

use super::{Followed, JointBuild};
use crate::record::ids::{AssemblyId, JointId};
use crate::record::words::{Criticality, HoleKind};
use serde::{Deserialize, Serialize};

/// Fasteners clamp one interface to one specification.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JointAdded {
    /// Its identifier in the job.
    pub joint: JointId,
    /// The assembly it belongs to.
    pub assembly: AssemblyId,
    /// The joint as people call it.
    pub display_name: String,
    /// How its positions are arranged.
    pub layout: Layout,
    /// One name per position, in counting order; a name may be empty.
    pub labels: Vec<String>,
    /// What happens if it fails.
    pub criticality: Criticality,
    /// What the fasteners go into.
    pub hole_kind: HoleKind,
    /// Identifier of the purpose, as the engine spells it.
    pub purpose: String,
    /// What its torque is computed from; absent for a purpose that is refused one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<Target>,
    /// How it is locked, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub lock: String,
    /// How thread and seat are prepared, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub preparation: String,
    /// Who approves a computed torque here.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub computed_torque_approver: String,
    /// How it is built; absent when nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub build: Option<Box<JointBuild>>,
    /// Published specification that it follows; absent when none is named.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub specification: Option<Followed>,
}

/// Arrangement of a joint's positions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "form", rename_all = "kebab-case")]
pub enum Layout {
    /// Evenly round a circle, counted clockwise.
    Ring,
    /// Rows and columns, counted row by row.
    Grid {
        /// Number of rows.
        rows: u16,
    },
    /// One after the other.
    Line,
    /// One position.
    Single,
}

/// What a joint's torque is computed from, in the words it was given in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Target {
    /// Thread designation.
    pub thread: String,
    /// Grade the joint was specified for.
    pub grade: String,
    /// Lubrication and finish; empty when only a nut factor is given.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[serde(rename = "condition")]
    pub lubrication: String,
    /// Share of proof load; the engine's default when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proof_share: Option<f64>,
    /// Wanted clamp load in newtons.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clamp_load_n: Option<f64>,
    /// Nut factor from own tests.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nut_factor: Option<f64>,
    /// Grade of the nut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nut_grade: Option<String>,
    /// Whether papers show that the part was baked after plating.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub baked: bool,
}
