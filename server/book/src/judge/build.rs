//! Judging how a joint is said to be built.

use super::bounds;
use crate::judge::refusal::Violation;
use crate::reason::build::{castle_ask, joint_ask, of_stack, under};
use crate::reason::target;
use crate::record::fact::{CastellatedNut, JointBuild, Target};
use crate::record::words::HoleKind;
use clampbook_engine::joint::JointAsk;
use clampbook_engine::{Ask, Catalogue, Purpose};

/// Everything that is wrong with how a joint is said to be built; fields as the contract spells them.
#[must_use]
pub fn violations(
    build: &JointBuild,
    hole: Option<HoleKind>,
    target: Option<&Target>,
    purpose: Purpose,
    catalogue: &Catalogue,
) -> Vec<Violation> {
    let mut wrong = Vec::new();
    wrong.extend(bounds::text(
        "joint.build.parent_state",
        &build.stack.parent_state,
        bounds::SHORT,
    ));
    wrong.extend(hole.and_then(|hole| against_hole(build, hole)));
    if target.is_none() {
        let instead = match purpose.refusal() {
            Some(_) => "this joint has none; leave it out",
            None => "give the target too",
        };
        wrong.push(Violation::new(
            "joint.build",
            format!("is judged by thread and grade of the target; {instead}"),
        ));
    }
    // Without a target what does not hang on the thread is judged all the same.
    let torque = target.map_or_else(Ask::default, |target| target::ask(target, purpose));
    let ask = joint_ask(build, torque);
    let faults = catalogue.resolve_joint(&ask).err().unwrap_or_default();
    wrong.extend(of_stack(&faults));
    if let Some(castle) = &build.castle {
        for one in of_castle(castle, &ask, catalogue) {
            if !wrong.contains(&one) {
                wrong.push(one);
            }
        }
    }
    wrong
}

/// What does not go together with the kind of hole.
fn against_hole(build: &JointBuild, hole: HoleKind) -> Option<Violation> {
    let wrong = |field: &str, why| Some(Violation::new(format!("joint.build.{field}"), why));
    match (hole, &build.stack.tapped) {
        (HoleKind::Through | HoleKind::Stud, Some(_)) => wrong(
            "stack.tapped",
            "the joint's hole_kind says that a nut holds the far end; leave it out",
        ),
        (HoleKind::TappedThrough | HoleKind::TappedBlind, None) => wrong(
            "stack.tapped",
            "is required: the joint's hole_kind says that the hole is tapped",
        ),
        (HoleKind::TappedThrough, Some(tapped)) if tapped.blind => wrong(
            "stack.tapped.blind",
            "is true, and the joint's hole_kind says that the hole is open",
        ),
        (HoleKind::TappedBlind, Some(tapped)) if !tapped.blind => wrong(
            "stack.tapped.blind",
            "is false, and the joint's hole_kind says that the hole is blind",
        ),
        (_, Some(_)) if build.castle.is_some() => wrong(
            "castellated_nut",
            "goes with a nut, and the far end is tapped; leave out one or the other",
        ),
        _ => None,
    }
}

fn of_castle(castle: &CastellatedNut, ask: &JointAsk<'_>, catalogue: &Catalogue) -> Vec<Violation> {
    let mut wrong = Vec::new();
    if castle.maximum_torque_nm.is_some() && castle.minimum_torque_nm.is_none() {
        wrong.push(Violation::new(
            "joint.build.castellated_nut.minimum_torque_nm",
            "is required beside maximum_torque_nm",
        ));
    }
    if let Err(faults) = catalogue.resolve_castle(&castle_ask(castle, ask, catalogue)) {
        wrong.extend(of_stack(&faults.joint));
        wrong.extend(under("joint.build.castellated_nut.", &faults.nut));
    }
    wrong
}
