//! Joints and their positions.

use clampbook_api::v1::{
    Criticality, DecisionKind, FittedPart, GripLayer, HoleKind, Joint, JointBuild, JointTarget,
    Layout, ListJointsResponse, Position, PositionState, Purpose, RemovalOutcome, TappedHole,
};

use super::{
    marks,
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
    if !matches!(joint.purpose(), Purpose::Unspecified | Purpose::Clamping) {
        row("Purpose", &Purpose::said_of(joint.purpose));
    }
    row(
        "Target",
        &joint.target.as_ref().map(target).unwrap_or_default(),
    );
    row("Published", &published(joint));
    if let Some(build) = &joint.build {
        row("Built", &built(build));
    }
    row("Preparation", &joint.preparation);
    row("Lock", &joint.lock);
    row("Approved by", &joint.computed_torque_approver);
    for match_marks in &joint.match_marks {
        row("Marked", &marks::said(match_marks));
    }
    for position in &joint.positions {
        for match_marks in &position.match_marks {
            let what = format!("hole {}: {}", position.number, marks::said(match_marks));
            row("Marked", &what);
        }
    }
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
        target.lubrication.clone(),
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
    if target.baked {
        parts.push("baked after plating".to_owned());
    }
    parts.retain(|part| !part.is_empty());
    parts.join(", ")
}

/// The specification it names, and the revision that was read then.
fn published(joint: &Joint) -> String {
    match joint.specification_revision {
        0 => String::new(),
        revision => format!("{}, revision {revision}", name::id(&joint.specification)),
    }
}

/// How it is built, from the head on.
fn built(build: &JointBuild) -> String {
    let stack = build.stack.clone().unwrap_or_default();
    let mm = |name: &str, value: Option<f64>| value.map(|v| format!("{name} {} mm", plain(v)));
    let mut parts: Vec<String> = stack.layers.iter().map(layer).collect();
    match &stack.tapped {
        Some(hole) => parts.push(tapped(hole, &build.parent_state)),
        None => parts.push(match &build.castellated_nut {
            Some(_) => "castellated nut".to_owned(),
            None => "nut".to_owned(),
        }),
    }
    parts.extend(mm("bolt", stack.bolt_length_mm));
    parts.extend(mm("its thread", stack.thread_length_mm));
    parts.extend(mm("shear plane at", build.shear_plane_mm));
    parts.extend(mm("head", stack.head_height_mm).map(|head| format!("{head} high")));
    parts.extend(mm("head", stack.head_diameter_mm).map(|head| format!("{head} across")));
    parts.extend(mm("room above its face", stack.head_room_mm));
    parts.extend(mm("space around it", stack.head_space_mm));
    parts.join(", ")
}

fn layer(layer: &GripLayer) -> String {
    let washer = layer
        .outer_diameter_mm
        .map(|outer| format!(" washer of {} mm", plain(outer)));
    format!(
        "{} {} mm{}",
        layer.metal,
        plain(layer.thickness_mm),
        washer.unwrap_or_default()
    )
}

fn tapped(hole: &TappedHole, lubrication: &str) -> String {
    let mut said = format!("tapped {}", hole.metal);
    if !lubrication.is_empty() {
        said.push_str(&format!(" ({lubrication})"));
    }
    said.push_str(&format!(", full thread {} mm", plain(hole.full_thread_mm)));
    if hole.blind {
        said.push_str(", blind");
    }
    if hole.insert {
        said.push_str(", helical insert");
    }
    said
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
                .map(|removal| RemovalOutcome::said_of(removal.outcome)),
        ),
        or_dash(
            position
                .decision
                .as_ref()
                .map(|decision| DecisionKind::said_of(decision.kind)),
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
    let rows: Vec<_> = list.joints.iter().map(row).collect();
    table(["joint", "assembly", "class", "holes", "called"], &rows)
}

fn row(joint: &Joint) -> [String; 5] {
    let target = joint.target.as_ref().map(target);
    let told: Vec<_> = target
        .into_iter()
        .chain([published(joint)])
        .filter(|told| !told.is_empty())
        .collect();
    let called = match told.join("; ") {
        told if told.is_empty() => joint.display_name.clone(),
        told => format!("{} ({told})", joint.display_name),
    };
    [
        name::id(&joint.name).to_owned(),
        name::id(&joint.assembly).to_owned(),
        Criticality::said_of(joint.criticality),
        joint.positions.len().to_string(),
        called,
    ]
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Decision, Refit, Removal};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn example() -> Joint {
        let removed = Position {
            number: 1,
            label: "upper rear".to_owned(),
            state: PositionState::Snug.into(),
            removal: Some(Removal {
                outcome: RemovalOutcome::LooseOnArrival.into(),
                ..Removal::default()
            }),
            decision: Some(Decision {
                kind: DecisionKind::CleanAndReuse.into(),
                ..Decision::default()
            }),
            refit: Some(Refit {
                fitted_part: FittedPart::Original.into(),
                ..Refit::default()
            }),
            ..Position::default()
        };
        let in_place = Position {
            number: 2,
            state: PositionState::InPlace.into(),
            ..Position::default()
        };
        Joint {
            name: "jobs/oak/joints/hub".to_owned(),
            assembly: "jobs/oak/assemblies/left".to_owned(),
            display_name: "Hub to spindle".to_owned(),
            layout: Layout::Grid.into(),
            row_count: 2,
            positions: vec![removed, in_place],
            criticality: Criticality::A.into(),
            hole_kind: HoleKind::TappedBlind.into(),
            target: Some(JointTarget {
                thread: "7/16-20".to_owned(),
                grade: "SAE J429 5".to_owned(),
                nut_factor: Some(0.16),
                ..JointTarget::default()
            }),
            lock: "tab washer".to_owned(),
            specification: "specifications/hub-bolts".to_owned(),
            specification_revision: 2,
            ..Joint::default()
        }
    }

    #[test]
    fn a_joint_shows_every_hole_in_its_state() {
        assert_snapshot!(finish(&joint(&example()), Look::default()), @r"
        hub: Hub to spindle
        Assembly     left
        Class        A
        Layout       grid of 2 rows
        Hole         tapped blind
        Target       7/16-20, SAE J429 5, K 0.16
        Published    hub-bolts, revision 2
        Lock         tab washer

        hole  state     came out          decided          went in   called
        1     snug      loose on arrival  clean and reuse  original  upper rear
        2     in place  -                 -                -
        ");
    }

    #[test]
    fn joints_are_listed_with_what_they_were_specified_for() {
        let list = ListJointsResponse {
            joints: vec![example()],
            next_page_token: String::new(),
        };
        assert_snapshot!(finish(&joints(&list), Look::default()), @r"
        joint  assembly  class  holes  called
        hub    left      A      2      Hub to spindle (7/16-20, SAE J429 5, K 0.16;
                                       hub-bolts, revision 2)
        ");
    }
}
