//! Jobs.

use crate::page::{Sizes, jobs_token};
use crate::request::{self, int};
use crate::words::Word;
use crate::{Validator, assembly, photo};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, JobSummary, names};
use clampbook_book::bounds;
use clampbook_book::fact::JobOpened;
use clampbook_book::ids::JobId;
use clampbook_book::job::Job;
use clampbook_book::standings::Standings;
use clampbook_book::words::TorqueUnit;

pub(crate) const JOBS: Sizes = Sizes {
    default: 50,
    most: 200,
};

/// Opens a job.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreateJobRequest,
) -> Result<wire::Job, Error> {
    let mut check = Validator::default();
    let id = check.new_id("job_id", &request.job_id, JobId::new);
    let opened = check
        .required("job", request.job.as_ref())
        .map(|job| JobOpened {
            display_name: check.required_text(
                "job.display_name",
                &job.display_name,
                bounds::DISPLAY_NAME,
            ),
            machine: check.text("job.machine", &job.machine, bounds::SENTENCE),
            torque_unit: check.word::<TorqueUnit>("job.torque_unit", job.torque_unit),
        });
    let change = check.change(&request, id.zip(opened))?;
    Ok(job(&*call.open_job(change).await?))
}

/// A job as it stands.
pub(crate) async fn get(call: Call<'_>, request: wire::GetJobRequest) -> Result<wire::Job, Error> {
    let mut check = Validator::default();
    let id = check.job_name("name", &request.name);
    let id = check.finish(id)?;
    Ok(job(&*call.job(&id).await?))
}

/// Jobs, the last written first.
pub(crate) async fn list(
    call: Call<'_>,
    request: wire::ListJobsRequest,
) -> Result<wire::ListJobsResponse, Error> {
    let mut check = Validator::default();
    let list = call.operation().name();
    let page = check.jobs_page(list, request.page_size, &request.page_token, JOBS);
    let (limit, after) = check.finish(page)?;
    let found = call.jobs(after, limit).await?;
    Ok(wire::ListJobsResponse {
        jobs: found.jobs.iter().map(summary).collect(),
        next_page_token: jobs_token(list, found.next),
    })
}

/// A job with its assemblies.
fn job(job: &Job) -> wire::Job {
    let opened = job.opened.as_deref();
    wire::Job {
        name: names::job(&job.id),
        display_name: opened
            .map(|o| o.fact.display_name.clone())
            .unwrap_or_default(),
        machine: opened.map(|o| o.fact.machine.clone()).unwrap_or_default(),
        torque_unit: job.torque_unit().map(Word::number).unwrap_or_default(),
        etag: job.etag(),
        create_time: opened.map(|o| request::timestamp(o.said.written)),
        update_time: Some(request::timestamp(job.updated)),
        assemblies: job
            .assemblies
            .iter()
            .map(|a| assembly::assembly(job, a))
            .collect(),
        position_count: Some(count(&Standings::of(&job.joints))),
        photos: photo::standing(&job.id, &job.photos),
    }
}

/// A job in a list.
fn summary(summary: &JobSummary) -> wire::Job {
    wire::Job {
        name: names::job(&summary.id),
        display_name: summary.display_name.clone(),
        machine: summary.machine.clone(),
        torque_unit: summary.torque_unit.map(Word::number).unwrap_or_default(),
        etag: clampbook_book::job::etag(summary.last),
        create_time: Some(request::timestamp(summary.opened)),
        update_time: Some(request::timestamp(summary.updated)),
        assemblies: Vec::new(),
        position_count: Some(count(&summary.standings)),
        photos: Vec::new(),
    }
}

/// Positions by state.
pub(crate) fn count(count: &Standings) -> wire::PositionCount {
    wire::PositionCount {
        in_place_count: int(count.in_place),
        empty_count: int(count.empty),
        loose_count: int(count.loose),
        final_count: int(count.tight),
        left_out_count: int(count.left_out),
    }
}
