//! How a joint of the story is built.

use clampbook_api::v1::{CastellatedNut, GripLayer, GripStack, JointBuild};

/// Steering arm on knuckle, both forged, held by a castellated nut: 1-7/16 in clamped by a bolt of 2 in.
pub(super) fn steering_arm() -> JointBuild {
    let layer = |metal: &str, thickness_mm| GripLayer {
        metal: metal.into(),
        thickness_mm,
        outer_diameter_mm: None,
    };
    JointBuild {
        stack: Some(GripStack {
            layers: vec![layer("alloy steel", 20.6), layer("alloy steel", 15.9)],
            bolt_length_mm: Some(50.8),
            ..Default::default()
        }),
        castellated_nut: Some(CastellatedNut::default()),
        ..Default::default()
    }
}
