//! A fastener as ordered or fitted, as it was named.

use super::SaidLength;
use serde::{Deserialize, Serialize};

/// A fastener as ordered or fitted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FastenerSpec {
    /// Thread designation.
    pub thread: String,
    /// Length under the head.
    pub length: SaidLength,
    /// Grade as marked.
    pub grade: String,
    /// What else was said of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub detail: Option<Box<FastenerDetail>>,
}

/// What may be said of a fastener besides thread, length and grade.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FastenerDetail {
    /// Its form, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub form: String,
    /// Its finish or metal, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub finish: String,
    /// Identifier of the purpose it is made for, as the engine spells it; empty for any.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub purpose: String,
    /// Whether papers show that it was baked after plating.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub baked: bool,
    /// Length of its thread, in millimetres; the standard's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread_length_mm: Option<f64>,
    /// Height of its head, in millimetres; the hexagon's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_height_mm: Option<f64>,
    /// Maximum diameter of its head, in millimetres; across the corners of the hexagon when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_diameter_mm: Option<f64>,
}

impl FastenerSpec {
    /// Its finish or metal in words; empty when nobody said.
    #[must_use]
    pub fn finish(&self) -> &str {
        self.detail.as_ref().map_or("", |detail| &detail.finish)
    }

    /// Its grade for people; only one that is made may be without.
    #[must_use]
    pub fn grade_said(&self) -> &str {
        match self.grade.as_str() {
            "" => "grade not shown",
            said => said,
        }
    }
}
