//! What is said about the shop itself: its own lubrications.

use crate::record::ids::LubricationId;
use serde::{Deserialize, Serialize};

/// Number of a revision, counted from 1.
pub type Revision = u32;

/// A lubrication of the shop's own, or a new revision of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LubricationStated {
    /// Its identifier.
    #[serde(rename = "condition")]
    pub lubrication: LubricationId,
    /// Which revision this is.
    pub revision: Revision,
    /// Its name as spoken; a revision keeps it.
    pub display_name: String,
    /// Nut factor to work with.
    pub nut_factor: f64,
    /// Lowest nut factor of the tests.
    pub low_nut_factor: f64,
    /// Highest nut factor of the tests.
    pub high_nut_factor: f64,
    /// Whether thread and turned face are lubricated.
    pub lubricated: bool,
    /// How many tests.
    pub test_count: u32,
    /// Who tested.
    pub tested_by: String,
    /// On which day, `2026-03-02`.
    pub tested_on: String,
    /// What was tested and how.
    pub tested: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A lubrication of the shop's own is not used any more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LubricationWithdrawn {
    /// Its identifier.
    #[serde(rename = "condition")]
    pub lubrication: LubricationId,
    /// Why.
    pub reason: String,
}
