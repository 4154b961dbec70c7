//! How a joint is built, from the wire and back.

use crate::Validator;
use crate::words::Word;
use clampbook_api::v1 as wire;
use clampbook_book::fact::{CastellatedNut, ClampedLayer, JointBuild, TappedHole};
use clampbook_engine::strength::limits::Fit;

impl Validator {
    /// Takes how a joint is built, if it was said. What is wrong with the numbers and metals, the book says.
    pub(super) fn build(&mut self, build: Option<&wire::JointBuild>) -> Option<JointBuild> {
        let build = build?;
        let stack = self.required("joint.build.stack", build.stack.as_ref());
        let fit = self.word::<Fit>("joint.build.fit", build.fit);
        let stack = stack?;
        Some(JointBuild {
            layers: stack.layers.iter().map(layer).collect(),
            tapped: stack.tapped.as_ref().map(tapped),
            parent_state: build.parent_state.trim().to_owned(),
            bolt_length_mm: stack.bolt_length_mm,
            thread_length_mm: stack.thread_length_mm,
            nut_height_mm: stack.nut_height_mm,
            bearing_diameter_mm: stack.bearing_diameter_mm,
            hole_diameter_mm: stack.hole_diameter_mm,
            head_height_mm: stack.head_height_mm,
            head_diameter_mm: stack.head_diameter_mm,
            head_room_mm: stack.head_room_mm,
            head_space_mm: stack.head_space_mm,
            close_fit: fit == Some(Fit::Close),
            shear_plane_mm: build.shear_plane_mm,
            castle: build.castellated_nut.as_ref().map(castle),
        })
    }
}

fn layer(layer: &wire::GripLayer) -> ClampedLayer {
    ClampedLayer {
        metal: layer.metal.clone(),
        thickness_mm: layer.thickness_mm,
        outer_diameter_mm: layer.outer_diameter_mm,
    }
}

fn tapped(tapped: &wire::TappedHole) -> TappedHole {
    TappedHole {
        metal: tapped.metal.clone(),
        shear_mpa: tapped.shear_mpa,
        full_thread_mm: tapped.full_thread_mm,
        blind: tapped.blind,
        insert: tapped.insert,
    }
}

fn castle(nut: &wire::CastellatedNut) -> CastellatedNut {
    // A negative number of slots is none; the engine says which there are.
    let count = |given: Option<i32>| given.map(|count| u32::try_from(count).unwrap_or_default());
    CastellatedNut {
        slots: count(nut.slots),
        holes: count(nut.holes),
        minimum_torque_nm: nut.minimum_torque_nm,
        maximum_torque_nm: nut.maximum_torque_nm,
    }
}

/// How a joint is built, on the wire.
pub(super) fn build(build: &JointBuild) -> wire::JointBuild {
    let fit = if build.close_fit {
        Fit::Close
    } else {
        Fit::Medium
    };
    wire::JointBuild {
        stack: Some(wire::GripStack {
            layers: build
                .layers
                .iter()
                .map(|layer| wire::GripLayer {
                    metal: layer.metal.clone(),
                    thickness_mm: layer.thickness_mm,
                    outer_diameter_mm: layer.outer_diameter_mm,
                })
                .collect(),
            tapped: build.tapped.as_ref().map(|tapped| wire::TappedHole {
                metal: tapped.metal.clone(),
                shear_mpa: tapped.shear_mpa,
                full_thread_mm: tapped.full_thread_mm,
                blind: tapped.blind,
                insert: tapped.insert,
            }),
            bolt_length_mm: build.bolt_length_mm,
            thread_length_mm: build.thread_length_mm,
            nut_height_mm: build.nut_height_mm,
            bearing_diameter_mm: build.bearing_diameter_mm,
            hole_diameter_mm: build.hole_diameter_mm,
            head_height_mm: build.head_height_mm,
            head_diameter_mm: build.head_diameter_mm,
            head_room_mm: build.head_room_mm,
            head_space_mm: build.head_space_mm,
        }),
        fit: fit.number(),
        shear_plane_mm: build.shear_plane_mm,
        parent_state: build.parent_state.clone(),
        castellated_nut: build.castle.as_ref().map(|nut| {
            // Both are counted by the dozen at most.
            let count = |count: u32| i32::try_from(count).unwrap_or(i32::MAX);
            wire::CastellatedNut {
                slots: nut.slots.map(count),
                holes: nut.holes.map(count),
                minimum_torque_nm: nut.minimum_torque_nm,
                maximum_torque_nm: nut.maximum_torque_nm,
            }
        }),
    }
}
