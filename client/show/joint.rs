//! Joints and their positions.

use clampbook_api::v1::{
    Criticality, Disposition, FittedPart, HoleKind, Joint, JointTarget, Layout, ListJointsResponse,
    Position, PositionState, Purpose, RemovalCondition,
};

use super::{
    quantity::plain,
    text::{paragraph, strong, table},
};
use crate::{args::Word, name};

/// One joint with all its positions.
pub(crate) fn joint(joint: &Joint) -> String {
    let mut shown = format!(
        "{}: {}\n",
        strong(name::id(&joint.name)),
        joint.display_name
    );
    let mut row = |heading: &str, value: &str| {
        if !value.is_empty() {
            shown.push_str(&paragraph(heading, value));
        }
    };
    row("Assembly", name::id(&joint.assembly));
    row("Class", &Criticality::said_of(joint.criticality));
    row("Layout", &layout(joint));
    row("Hole", &HoleKind::said_of(joint.hole_kind));
    if joint.purpose() != Purpose::Unspecified {
        row("Purpose", &Purpose::said_of(joint.purpose));
    }
    row(
        "Target",
        &joint.target.as_ref().map(target).unwrap_or_default(),
    );
    row("Preparation", &joint.preparation);
    row("Lock", &joint.lock);
    row("Approved by", &joint.computed_torque_approver);
    shown.push('\n');
    let rows: Vec<_> = joint.positions.iter().map(position).collect();
    shown.push_str(&table(
        ["hole", "state", "came out", "decided", "went in", "called"],
        &rows,
    ));
    shown
}

fn layout(joint: &Joint) -> String {
    let layout = Layout::said_of(joint.layout);
    match joint.row_count {
        0 => layout,
        rows => format!("{layout} of {rows} rows"),
    }
}

fn target(target: &JointTarget) -> String {
    let mut parts = vec![
        target.thread.clone(),
        target.grade.clone(),
        target.condition.clone(),
    ];
    parts.extend(target.nut_grade.as_ref().map(|nut| format!("nut {nut}")));
    parts.extend(
        target
            .nut_factor
            .map(|factor| format!("K {}", plain(factor))),
    );
    parts.extend(
        target
            .proof_share
            .map(|share| format!("{} of proof load", plain(share))),
    );
    parts.extend(
        target
            .clamp_load_n
            .map(|load| format!("clamp load {} N", plain(load))),
    );
    parts.retain(|part| !part.is_empty());
    parts.join(", ")
}

fn position(position: &Position) -> [String; 6] {
    let or_dash = |word: Option<String>| word.unwrap_or_else(|| "-".to_owned());
    [
        position.number.to_string(),
        PositionState::said_of(position.state),
        or_dash(
            position
                .removal
                .as_ref()
                .map(|removal| RemovalCondition::said_of(removal.condition)),
        ),
        or_dash(
            position
                .decision
                .as_ref()
                .map(|decision| Disposition::said_of(decision.disposition)),
        ),
        or_dash(
            position
                .refit
                .as_ref()
                .map(|refit| FittedPart::said_of(refit.fitted_part)),
        ),
        position.label.clone(),
    ]
}

/// All joints of a job.
pub(crate) fn joints(list: &ListJointsResponse) -> String {
    if list.joints.is_empty() {
        return "The job has no joint yet.\n".to_owned();
    }
    let rows: Vec<_> = list
        .joints
        .iter()
        .map(|joint| {
            [
                name::id(&joint.name).to_owned(),
                name::id(&joint.assembly).to_owned(),
                Criticality::said_of(joint.criticality),
                joint.positions.len().to_string(),
                joint.target.as_ref().map(target).unwrap_or_default(),
                joint.display_name.clone(),
            ]
        })
        .collect();
    table(
        ["joint", "assembly", "class", "holes", "target", "called"],
        &rows,
    )
}
