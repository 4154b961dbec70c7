//! Parts that are ordered: wanted by hand, and arrived.

use crate::record::ids::{AssemblyId, JointId};
use serde::{Deserialize, Serialize};

/// A part is wanted that no position and no finding asks for: gasket, seal, compound.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartWanted {
    /// The assembly it is for.
    pub assembly: AssemblyId,
    /// The joint that cannot be closed without it; the whole assembly when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub joint: Option<JointId>,
    /// What, in words.
    pub what: String,
    /// How many.
    pub quantity: u16,
    /// Why.
    pub why: String,
    /// Its number with maker or dealer, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub part_number: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A part of an assembly's list arrived.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartArrived {
    /// The assembly it is for.
    pub assembly: AssemblyId,
    /// What, as the list calls it.
    pub what: String,
    /// How many.
    pub quantity: u16,
    /// Invoice, delivery note, shelf.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reference: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
