//! What was marked or measured before parting, said before anything came out.

use super::Mark;
use crate::record::ids::{JointId, PositionNumber};
use serde::{Deserialize, Serialize};

/// Something was marked or measured before parting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Marked {
    /// The joint.
    pub joint: JointId,
    /// The position in it; 0 for the joint as a whole.
    #[serde(default, skip_serializing_if = "is_whole")]
    pub position: PositionNumber,
    /// What.
    pub marks: Vec<Mark>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_whole(position: &PositionNumber) -> bool {
    *position == 0
}
