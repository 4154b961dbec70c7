//! What is clamped, from the wire and back, and what every answer about a joint carries beside its numbers.

use crate::words::{Word, severity};
use crate::{Validator, catalogue, torque};
use clampbook_api::v1 as wire;
use clampbook_engine::Ask;
use clampbook_engine::joint::{GripLayer, GripStack, TappedHole};
use clampbook_engine::remarks::Remarks;

/// A stack as said; an empty one where there is none. What is wrong with it, the engine says.
pub(crate) fn from_wire(stack: Option<&wire::GripStack>) -> GripStack {
    let Some(stack) = stack else {
        return GripStack::default();
    };
    let layer = |layer: &wire::GripLayer| GripLayer {
        metal: layer.metal.clone(),
        thickness_mm: layer.thickness_mm,
        outer_diameter_mm: layer.outer_diameter_mm,
    };
    GripStack {
        layers: stack.layers.iter().map(layer).collect(),
        tapped: stack.tapped.as_ref().map(|tapped| TappedHole {
            metal: tapped.metal.clone(),
            shear_mpa: tapped.shear_mpa,
            full_thread_mm: tapped.full_thread_mm,
            blind: tapped.blind,
            insert: tapped.insert,
        }),
        parent_state: String::new(),
        bolt_length_mm: stack.bolt_length_mm,
        thread_length_mm: stack.thread_length_mm,
        nut_height_mm: stack.nut_height_mm,
        bearing_diameter_mm: stack.bearing_diameter_mm,
        hole_diameter_mm: stack.hole_diameter_mm,
        head_height_mm: stack.head_height_mm,
        head_diameter_mm: stack.head_diameter_mm,
        head_room_mm: stack.head_room_mm,
        head_space_mm: stack.head_space_mm,
    }
}

/// A stack on the wire.
pub(crate) fn to_wire(stack: &GripStack) -> wire::GripStack {
    let layer = |layer: &GripLayer| wire::GripLayer {
        metal: layer.metal.clone(),
        thickness_mm: layer.thickness_mm,
        outer_diameter_mm: layer.outer_diameter_mm,
    };
    wire::GripStack {
        layers: stack.layers.iter().map(layer).collect(),
        tapped: stack.tapped.as_ref().map(|tapped| wire::TappedHole {
            metal: tapped.metal.clone(),
            shear_mpa: tapped.shear_mpa,
            full_thread_mm: tapped.full_thread_mm,
            blind: tapped.blind,
            insert: tapped.insert,
        }),
        bolt_length_mm: stack.bolt_length_mm,
        thread_length_mm: stack.thread_length_mm,
        nut_height_mm: stack.nut_height_mm,
        bearing_diameter_mm: stack.bearing_diameter_mm,
        hole_diameter_mm: stack.hole_diameter_mm,
        head_height_mm: stack.head_height_mm,
        head_diameter_mm: stack.head_diameter_mm,
        head_room_mm: stack.head_room_mm,
        head_space_mm: stack.head_space_mm,
    }
}

impl Validator {
    /// Takes a torque question that must be there; an empty one when it is not.
    pub(crate) fn torque_ask<'a>(
        &mut self,
        field: &str,
        ask: Option<&'a wire::ComputeTorqueRequest>,
    ) -> Ask<'a> {
        let Some(ask) = self.required(field, ask) else {
            return Ask::default();
        };
        let (ask, found) = torque::ask(ask);
        self.extend_under(&format!("{field}."), found);
        ask
    }
}

/// Findings, assumptions, cautions and sources, as answers carry them.
pub(crate) struct Beside {
    pub(crate) checks: Vec<wire::Check>,
    pub(crate) assumptions: Vec<String>,
    pub(crate) cautions: Vec<String>,
    pub(crate) sources: Vec<wire::Source>,
}

/// What goes along with the numbers, on the wire; worst findings first.
pub(crate) fn beside(remarks: &Remarks<'_>) -> Beside {
    let texts = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect();
    let mut findings: Vec<_> = remarks.findings.iter().collect();
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Beside {
        checks: findings
            .into_iter()
            .map(|finding| wire::Check {
                check: finding.id.into(),
                severity: severity(finding.severity).number(),
                share: finding.share,
                text: finding.text.clone(),
            })
            .collect(),
        assumptions: texts(&remarks.assumptions),
        cautions: texts(&remarks.cautions),
        sources: remarks.sources.iter().map(catalogue::cited).collect(),
    }
}
