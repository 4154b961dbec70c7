//! Joints and their positions.

mod build;
mod described;

use crate::page::of_list;
use crate::request::int;
use crate::words::Word;
use crate::{Validator, decision, job, mark, refit, removal, tightening};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, JointOf, names};
use clampbook_book::fact::{Layout, Target};
use clampbook_book::ids::{JobId, JointId};
use clampbook_book::job::{Joint, Position, Standing};
use clampbook_book::spoken::Spoken;
use clampbook_book::words::Tightness;
use clampbook_engine::Purpose;

/// Adds a joint.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreateJointRequest,
) -> Result<wire::Joint, Error> {
    let mut check = Validator::default();
    let job = check.job_name("parent", &request.parent);
    let id = check.new_id("joint_id", &request.joint_id, JointId::new);
    let added = check
        .required("joint", request.joint.as_ref())
        .and_then(|joint| check.joint(job.as_ref(), id, joint, &call.shop()));
    let change = check.change(&request, job.zip(added))?;
    let JointOf { job, joint: added } = call.add_joint(change).await?;
    Ok(joint(&job, &added))
}

/// A joint as it stands.
pub(crate) async fn get(
    call: Call<'_>,
    request: wire::GetJointRequest,
) -> Result<wire::Joint, Error> {
    let mut check = Validator::default();
    let ids = check.joint_name("name", &request.name);
    let (job, id) = check.finish(ids)?;
    Ok(joint(&job, &call.joint(&job, &id).await?.joint))
}

/// The joints of a job.
pub(crate) async fn list(
    call: Call<'_>,
    request: wire::ListJointsRequest,
) -> Result<wire::ListJointsResponse, Error> {
    let mut check = Validator::default();
    let id = check.job_name("parent", &request.parent);
    let list = format!("ListJoints {}", request.parent);
    let page = check.numbered_page(&list, request.page_size, &request.page_token, job::JOBS);
    let (id, (size, after)) = check.finish(id.zip(page))?;
    let found = call.job(&id).await?;
    let (joints, next_page_token) = of_list(&list, found.joints.iter(), size, after);
    Ok(wire::ListJointsResponse {
        joints: joints.into_iter().map(|one| joint(&id, one)).collect(),
        next_page_token,
    })
}

/// A joint of a job with its positions.
fn joint(job: &JobId, joint: &Joint) -> wire::Joint {
    let fact = &joint.fact;
    let (layout, row_count) = match fact.layout {
        Layout::Ring => (wire::Layout::Ring, 0),
        Layout::Line => (wire::Layout::Line, 0),
        Layout::Single => (wire::Layout::Single, 0),
        Layout::Grid { rows } => (wire::Layout::Grid, i32::from(rows)),
    };
    wire::Joint {
        name: joint.name(job),
        assembly: names::assembly(job, &fact.assembly),
        display_name: fact.display_name.clone(),
        layout: layout.into(),
        row_count,
        positions: joint
            .positions
            .iter()
            .map(|p| position(job, joint, p))
            .collect(),
        criticality: fact.criticality.number(),
        hole_kind: fact.hole_kind.number(),
        purpose: Purpose::from_id(&fact.purpose)
            .map(Word::number)
            .unwrap_or_default(),
        target: fact.target.as_ref().map(target),
        lock: fact.lock.clone(),
        preparation: fact.preparation.clone(),
        computed_torque_approver: fact.computed_torque_approver.clone(),
        etag: joint.etag(),
        build: fact.build.as_deref().map(|b| Box::new(build::build(b))),
        specification: fact
            .specification
            .as_ref()
            .map(|followed| names::specification(&followed.specification))
            .unwrap_or_default(),
        specification_revision: fact.specification.as_ref().map_or(0, |s| int(s.revision)),
        match_marks: mark::standing(job, joint.marked()),
        text: fact.text(),
    }
}

fn target(target: &Target) -> wire::JointTarget {
    wire::JointTarget {
        thread: target.thread.clone(),
        grade: target.grade.clone(),
        lubrication: target.lubrication.clone(),
        proof_share: target.proof_share,
        clamp_load_n: target.clamp_load_n,
        nut_factor: target.nut_factor,
        nut_grade: target.nut_grade.clone(),
        baked: target.baked,
    }
}

fn position(job: &JobId, joint: &Joint, position: &Position) -> wire::Position {
    wire::Position {
        number: position.number.into(),
        label: joint.label(position.number).to_owned(),
        state: state(position.standing()).into(),
        removal: position
            .removal()
            .map(|(r, removed)| removal::removal(job, r.entry, &r.said, removed)),
        decision: position
            .decision()
            .map(|(r, decided)| decision::decision(job, r.entry, &r.said, decided)),
        refit: position
            .refit()
            .map(|(r, refitted)| refit::refit(job, r.entry, &r.said, refitted)),
        etag: position.etag(),
        match_marks: mark::standing(job, position.marked()),
        tightening: tightening::standing(job, joint, position),
        beside: position
            .beside()
            .map(|(r, refitted)| refit::refit(job, r.entry, &r.said, refitted))
            .collect(),
    }
}

/// Where a position stands.
pub(crate) const fn state(standing: Standing) -> wire::PositionState {
    match standing {
        Standing::InPlace => wire::PositionState::InPlace,
        Standing::Empty => wire::PositionState::Empty,
        Standing::LeftOut => wire::PositionState::LeftOut,
        Standing::Fitted(Tightness::Started) => wire::PositionState::Started,
        Standing::Fitted(Tightness::Snug) => wire::PositionState::Snug,
        Standing::Fitted(Tightness::Final) => wire::PositionState::Final,
    }
}
