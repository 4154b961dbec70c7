//! How a joint is built, as said: what is clamped, what holds the far end, which fastener belongs there.

pub use clampbook_engine::joint::{GripLayer, GripStack, TappedHole};
use serde::{Deserialize, Serialize};

/// How a joint is built.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct JointBuild {
    /// What is clamped and how it is held; its bolt is the fastener that belongs here.
    #[serde(flatten)]
    pub stack: GripStack,
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
