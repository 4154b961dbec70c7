//! Pressure on each face of a joint.

use super::stack::{Layer, Stack};
use crate::{
    answer::{Answer, Severity},
    remarks::Remarks,
    show,
    strength::bearing,
    units::{Megapascals, Millimetres},
};

/// Pressure on one face.
#[derive(Clone, Debug, PartialEq)]
pub struct BearingFace {
    /// What presses on what.
    pub face: String,
    /// Pressure at the clamp load aimed at.
    pub nominal: Megapascals,
    /// Pressure at the maximum clamp load.
    pub maximum: Megapascals,
    /// Pressure allowed.
    pub allowed: Megapascals,
}

/// Faces from the head on, then from the nut on; a washer presses on what lies under it.
pub(super) fn faces(stack: &Stack, answer: &Answer<'_>) -> Vec<BearingFace> {
    let mut list = Vec::new();
    let mut walk = |first: &str, layers: &mut dyn Iterator<Item = &Layer>| {
        let mut presser = (first.to_owned(), Some(stack.bearing));
        for layer in layers {
            let (name, Some(outer)) = &presser else { break };
            let on = |f| bearing::pressure(f, *outer, stack.hole);
            list.push(BearingFace {
                face: format!("{name} on {}", layer.metal),
                nominal: on(answer.clamp_load),
                maximum: on(answer.scatter.maximum),
                allowed: layer.metal.bearing(),
            });
            presser = (
                format!("washer of {}", layer.metal),
                wider(layer.outer, stack.hole),
            );
        }
    };
    walk("head", &mut stack.layers.iter());
    if stack.tapped.is_none() {
        walk("nut", &mut stack.layers.iter().rev());
    }
    list
}

/// A washer that is wider than the hole; a part without outer diameter is no washer.
fn wider(outer: Option<Millimetres>, hole: Millimetres) -> Option<Millimetres> {
    outer.filter(|outer| *outer > hole)
}

pub(super) fn judge_face(face: &BearingFace, remarks: &mut Remarks<'_>) {
    let share = |p: Megapascals| p.get() / face.allowed.get();
    let (nominal, maximum) = (share(face.nominal), share(face.maximum));
    if nominal > 1.0 {
        remarks.find(
            "bearing-pressure",
            Severity::Caution,
            nominal,
            format!(
                "{}: the bearing pressure is {} where {} is allowed; it sinks in and the clamp load is lost. Put a hard washer under it.",
                face.face,
                show::stress(face.nominal),
                show::stress(face.allowed)
            ),
        );
    } else if maximum > 1.0 {
        remarks.find(
            "bearing-pressure-at-maximum",
            Severity::Note,
            maximum,
            format!(
                "{}: with the scatter the bearing pressure may be {} where {} is allowed.",
                face.face,
                show::stress(face.maximum),
                show::stress(face.allowed)
            ),
        );
    }
}
