//! What was found on parts other than fasteners, and what was seen on the other side.

use crate::record::ids::{AssemblyId, EntryNumber, JointId};
use crate::record::words::{Criticality, FindingKind, FindingSeverity};
use serde::{Deserialize, Serialize};

/// Something was found on a part other than a fastener.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartFound {
    /// The assembly it belongs to.
    pub assembly: AssemblyId,
    /// The joint it was found at, if at one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub joint: Option<JointId>,
    /// The part, in words.
    pub part: String,
    /// What is wrong with it.
    #[serde(rename = "fault")]
    pub kind: FindingKind,
    /// What that means for it.
    #[serde(rename = "verdict")]
    pub severity: FindingSeverity,
    /// What happens if it fails; as with the joint when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub criticality: Option<Criticality>,
    /// What caused it, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub cause: String,
    /// What was measured.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reading: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The same part on the other side was looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CounterpartAnswered {
    /// The finding that asked for it.
    pub finding: EntryNumber,
    /// What there is to show.
    pub shown: Shown,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// What shows that the other side was looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shown {
    /// What was measured.
    Reading(String),
    /// Where the photo is.
    Photo(String),
    /// A photo that was added to the job.
    AddedPhoto(EntryNumber),
    /// There is no such part, according to whom.
    NoSuchPart(String),
}
