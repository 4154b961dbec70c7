//! What is clamped and how it is held, as said. A record stores it as it is, so its fields keep their names for ever.

use serde::{Deserialize, Serialize};

/// One clamped layer as said, washers included.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct GripLayer {
    /// Metal as said.
    pub metal: String,
    /// Thickness, in mm.
    pub thickness_mm: f64,
    /// Outer diameter, in mm, of a washer; parts are taken as wide.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outer_diameter_mm: Option<f64>,
}

/// What is clamped and how it is held, as said.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GripStack {
    /// Layers from the head on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub layers: Vec<GripLayer>,
    /// The tapped hole; a nut when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tapped: Option<TappedHole>,
    /// Condition of the tapped metal, in words; for people, nothing is computed from it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[serde(rename = "parent_condition")]
    pub parent_state: String,
    /// Length of the bolt under its head, in mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bolt_length_mm: Option<f64>,
    /// Length of its thread, in mm; the standard's for its length when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread_length_mm: Option<f64>,
    /// Height of the nut, in mm; of the standard's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nut_height_mm: Option<f64>,
    /// Outer diameter of the bearing face, in mm; of the hexagon head when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bearing_diameter_mm: Option<f64>,
    /// Diameter of the clearance hole, in mm; medium when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole_diameter_mm: Option<f64>,
    /// Height of the head, in mm; of the hexagon head when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_height_mm: Option<f64>,
    /// Maximum diameter of the head, in mm; across the corners of the hexagon when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_diameter_mm: Option<f64>,
    /// Free height above the head's bearing face, in mm; not checked when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_room_mm: Option<f64>,
    /// Free diameter around the head, in mm; not checked when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_space_mm: Option<f64>,
}

impl GripStack {
    /// A stack of which nothing was said.
    const NOTHING: Self = Self {
        layers: Vec::new(),
        tapped: None,
        parent_state: String::new(),
        bolt_length_mm: None,
        thread_length_mm: None,
        nut_height_mm: None,
        bearing_diameter_mm: None,
        hole_diameter_mm: None,
        head_height_mm: None,
        head_diameter_mm: None,
        head_room_mm: None,
        head_space_mm: None,
    };
}

impl Default for GripStack {
    fn default() -> Self {
        Self::NOTHING
    }
}

/// So that a question of which only a part is said can leave its stack out.
impl Default for &GripStack {
    fn default() -> Self {
        static NOTHING: GripStack = GripStack::NOTHING;
        &NOTHING
    }
}

/// A tapped hole at the far end, as said.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct TappedHole {
    /// Metal as said.
    pub metal: String,
    /// Its shear strength from a better source, in MPa.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shear_mpa: Option<f64>,
    /// Depth of full thread, in mm.
    pub full_thread_mm: f64,
    /// Whether the hole has a bottom.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub blind: bool,
    /// Whether a helical insert is fitted: the metal then shears round the insert.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub insert: bool,
}
