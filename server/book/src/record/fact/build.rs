//! How a joint is built, as said: what is clamped, what holds the far end, which fastener belongs there.

use serde::{Deserialize, Serialize};

/// How a joint is built.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct JointBuild {
    /// Layers from the head on, washers included.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub layers: Vec<ClampedLayer>,
    /// The tapped hole; a nut when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tapped: Option<TappedHole>,
    /// Condition of the tapped metal, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[serde(rename = "parent_condition")]
    pub parent_state: String,
    /// Length under the head of the fastener that belongs here, in millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bolt_length_mm: Option<f64>,
    /// Length of its thread, in millimetres; the standard's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread_length_mm: Option<f64>,
    /// Height of the nut, in millimetres; the standard's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nut_height_mm: Option<f64>,
    /// Outer diameter of the bearing face, in millimetres; the hexagon's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bearing_diameter_mm: Option<f64>,
    /// Diameter of the clearance hole, in millimetres; the medium series when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole_diameter_mm: Option<f64>,
    /// Height of the head, in millimetres; the hexagon's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_height_mm: Option<f64>,
    /// Maximum diameter of the head, in millimetres; across the corners of the hexagon when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_diameter_mm: Option<f64>,
    /// Free height above the head's bearing face, in millimetres; not checked when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_room_mm: Option<f64>,
    /// Free diameter around the head, in millimetres; not checked when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head_space_mm: Option<f64>,
    /// Whether the threads are of the close classes, 3A in 3B.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub close_fit: bool,
    /// Distance of a shear plane from the head's bearing face, in millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shear_plane_mm: Option<f64>,
    /// The castellated nut, if it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub castle: Option<CastellatedNut>,
}

/// One clamped layer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClampedLayer {
    /// Metal as said.
    pub metal: String,
    /// Thickness, in millimetres.
    pub thickness_mm: f64,
    /// Outer diameter of a washer, in millimetres; other parts are taken as wide.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outer_diameter_mm: Option<f64>,
}

/// A tapped hole at the far end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TappedHole {
    /// Metal as said.
    pub metal: String,
    /// Its shear strength from a better source than the catalogue, in megapascals.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shear_mpa: Option<f64>,
    /// Depth of full thread, in millimetres.
    pub full_thread_mm: f64,
    /// Whether the hole has a bottom.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub blind: bool,
    /// Whether a helical insert is fitted.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub insert: bool,
}

/// A castellated nut and what is published for it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CastellatedNut {
    /// Slots; the standard's when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slots: Option<u32>,
    /// Cross holes through the bolt; one when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holes: Option<u32>,
    /// Published minimum torque, in newton metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minimum_torque_nm: Option<f64>,
    /// Published maximum torque, in newton metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub maximum_torque_nm: Option<f64>,
}
