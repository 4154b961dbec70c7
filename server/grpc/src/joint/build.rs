//! How a joint is built, from the wire and back.

use crate::words::Word;
use crate::{Validator, stack};
use clampbook_api::v1 as wire;
use clampbook_book::fact::{CastellatedNut, GripStack, JointBuild};
use clampbook_engine::strength::limits::Fit;

impl Validator {
    /// Takes how a joint is built, if it was said. What is wrong with the numbers and metals, the book says.
    pub(super) fn build(&mut self, build: Option<&wire::JointBuild>) -> Option<JointBuild> {
        let build = build?;
        let grip = self.required("joint.build.stack", build.stack.as_ref());
        let fit = self.word::<Fit>("joint.build.fit", build.fit);
        let grip = grip?;
        Some(JointBuild {
            stack: GripStack {
                parent_state: build.parent_state.trim().to_owned(),
                ..stack::from_wire(Some(grip))
            },
            close_fit: fit == Some(Fit::Close),
            shear_plane_mm: build.shear_plane_mm,
            castle: build.castellated_nut.as_ref().map(castle),
        })
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
        stack: Some(stack::to_wire(&build.stack)),
        fit: fit.number(),
        shear_plane_mm: build.shear_plane_mm,
        parent_state: build.stack.parent_state.clone(),
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
