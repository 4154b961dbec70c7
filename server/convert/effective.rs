//! `effective_value.proto`.

use super::record::flag;
use super::specification::newest;
use super::{Check, catalog, published, torque};
use crate::app::Error;
use clampbook_api::v1 as wire;
use clampbook_book::effective::{self, OnFastener, Value};
use clampbook_book::ids::{JobId, JointId, SpecificationId};
use clampbook_book::job::Job;
use clampbook_book::value::Effective;

/// Whose value is wanted.
///
/// # Errors
/// All violations.
pub(crate) fn wanted(request: &wire::GetEffectiveValueRequest) -> Result<(JobId, JointId), Error> {
    let mut check = Check::default();
    let joint = check.joint_name("joint", &request.joint);
    check.finish(joint)
}

/// The value on the wire.
pub(crate) fn value(job: &JobId, effective: &Effective<'_>) -> wire::GetEffectiveValueResponse {
    let followed = effective.joint.fact.specification.as_ref();
    let (origin, torque_nm) = match &effective.value {
        Value::Published(stated) => {
            let torque = stated.final_torque().map(|torque| torque.nm);
            (wire::ValueOrigin::Published, torque)
        }
        Value::Computed(answer) => (wire::ValueOrigin::Computed, Some(answer.torque.get())),
        Value::Nothing(_) => (wire::ValueOrigin::Unspecified, None),
    };
    wire::GetEffectiveValueResponse {
        joint: effective.joint.name(job),
        origin: origin.into(),
        torque_nm,
        specification: effective.kept.map(newest),
        named_specification: followed
            .map(|followed| format!("specifications/{}", followed.specification))
            .unwrap_or_default(),
        named_revision: followed.map_or(0, |followed| {
            i32::try_from(followed.revision).unwrap_or(i32::MAX)
        }),
        reason: effective.reason(),
        condition: effective.condition.clone(),
        fasteners: effective.fasteners.iter().map(on_fastener).collect(),
        restated: effective.restated.as_ref().map(published::restated),
        cautions: effective.cautions().into_iter().map(Into::into).collect(),
        sources: effective
            .sources()
            .map(|cited| catalog::cited(&cited))
            .collect(),
        stops: effective.stops.iter().map(|stop| flag(job, stop)).collect(),
    }
}

/// The uses of a specification in a job on the wire.
pub(crate) fn uses(
    job: &Job,
    id: &SpecificationId,
) -> impl Iterator<Item = wire::SpecificationUse> {
    let opened = job.opened.as_ref();
    let called = opened.map_or("", |opened| &opened.fact.display_name);
    let revision = |revision| i32::try_from(revision).unwrap_or(i32::MAX);
    effective::uses(job, id).map(move |found| wire::SpecificationUse {
        joint: found.joint.name(&job.id),
        job_display_name: called.to_owned(),
        display_name: found.joint.fact.display_name.clone(),
        named_revision: revision(found.named),
        tightened_revisions: found.tightened.into_iter().map(revision).collect(),
    })
}

fn on_fastener(on: &OnFastener<'_>) -> wire::TorqueOnFastener {
    let answer = on.outcome.as_ref().ok();
    wire::TorqueOnFastener {
        position: on.position.into(),
        grade: on.grade.clone(),
        clamp_load_n: answer.map(|answer| answer.clamp_load.get()),
        share_of_proof: answer.map(|answer| answer.clamp_load.get() / answer.working_load.get()),
        scatter: answer.map(torque::scatter),
        checks: answer.map(torque::checks).unwrap_or_default(),
        unknown_because: on
            .outcome
            .as_ref()
            .err()
            .into_iter()
            .flatten()
            .map(ToString::to_string)
            .collect(),
    }
}
