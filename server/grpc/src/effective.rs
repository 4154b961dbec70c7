//! Which value holds for a joint, and where a specification is used.

use crate::flag::flag;
use crate::job::JOBS;
use crate::page::jobs_token;
use crate::request::int;
use crate::specification::newest;
use crate::{Validator, catalogue, published, torque};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::effective::{self as book, OnFastener, Value};
use clampbook_book::ids::{JobId, SpecificationId};
use clampbook_book::job::Job;
use clampbook_book::shown;
use clampbook_book::value::Effective;
use clampbook_book::words::TorqueUnit;
use clampbook_engine::{quantity, show};

/// The value that holds for a joint.
pub(crate) async fn get(
    call: Call<'_>,
    request: wire::GetEffectiveValueRequest,
) -> Result<wire::GetEffectiveValueResponse, Error> {
    let mut check = Validator::default();
    let joint = check.joint_name("joint", &request.joint);
    let unit = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let (job, joint) = check.finish(joint)?;
    let show = |found: &Effective<'_>| value(&job, found);
    call.effective_value(&job, &joint, unit, show).await
}

/// The uses of a specification, of so many jobs a page.
pub(crate) async fn uses(
    call: Call<'_>,
    request: wire::ListSpecificationUsesRequest,
) -> Result<wire::ListSpecificationUsesResponse, Error> {
    let mut check = Validator::default();
    let id = check.specification_name("name", &request.name);
    // A token goes on with the specification that it was given for.
    let list = format!("ListSpecificationUses {}", request.name);
    let page = check.jobs_page(&list, request.page_size, &request.page_token, JOBS);
    let (id, (limit, after)) = check.finish(id.zip(page))?;
    let (jobs, next) = call.jobs_with_uses(&id, after, limit).await?;
    Ok(wire::ListSpecificationUsesResponse {
        uses: jobs.iter().flat_map(|job| uses_in(job, &id)).collect(),
        next_page_token: jobs_token(&list, next),
    })
}

/// The value on the wire.
fn value(job: &JobId, effective: &Effective<'_>) -> wire::GetEffectiveValueResponse {
    let unit = shown::engine_unit(effective.unit);
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
            .map(|followed| names::specification(&followed.specification))
            .unwrap_or_default(),
        named_revision: followed.map_or(0, |followed| int(followed.revision)),
        reason: effective.reason(),
        lubrication: effective.lubrication.clone(),
        fasteners: (effective.fasteners.iter())
            .map(|on| on_fastener(on, unit))
            .collect(),
        restated: (effective.restated.as_ref()).map(|restated| published::restated(restated, unit)),
        cautions: effective.cautions().into_iter().map(Into::into).collect(),
        sources: effective
            .sources()
            .map(|cited| catalogue::cited(&cited))
            .collect(),
        stops: effective.stops.iter().map(|stop| flag(job, stop)).collect(),
        torque_text: effective.torque_text(),
    }
}

/// The uses of a specification in a job on the wire.
fn uses_in(job: &Job, id: &SpecificationId) -> impl Iterator<Item = wire::SpecificationUse> {
    let opened = job.opened.as_ref();
    let called = opened.map_or("", |opened| &opened.fact.display_name);
    book::uses(job, id).map(move |found| wire::SpecificationUse {
        joint: found.joint.name(&job.id),
        job_display_name: called.to_owned(),
        display_name: found.joint.fact.display_name.clone(),
        named_revision: int(found.named),
        tightened_revisions: found.tightened.into_iter().map(int).collect(),
    })
}

fn on_fastener(on: &OnFastener<'_>, unit: quantity::TorqueUnit) -> wire::TorqueOnFastener {
    let answer = on.outcome.as_ref().ok();
    let share = answer.map(|answer| answer.clamp_load.get() / answer.working_load.get());
    wire::TorqueOnFastener {
        position: on.position.into(),
        grade: on.grade.clone(),
        clamp_load_n: answer.map(|answer| answer.clamp_load.get()),
        share_of_proof: share,
        share_of_proof_text: share.map(show::ratio).unwrap_or_default(),
        scatter: answer.map(|answer| torque::scatter(answer, unit)),
        checks: answer.map(torque::checks).unwrap_or_default(),
        unknown_because: on
            .outcome
            .as_ref()
            .err()
            .into_iter()
            .flatten()
            .map(ToString::to_string)
            .collect(),
        clamp_load_text: answer
            .map(|answer| show::load(answer.clamp_load, unit))
            .unwrap_or_default(),
    }
}
