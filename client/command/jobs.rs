//! `jobs`.

use clampbook_api::v1::{
    CreateJobRequest, GetJobRequest, Job, ListJobsRequest, job_service_client::JobServiceClient,
};

use super::paging::all;
use crate::{
    args::{JobArgs, JobsCommand},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show,
};

pub(super) async fn run(command: JobsCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        JobsCommand::Create(args) => create(args, server, out).await,
        JobsCommand::Show { job } => {
            let job = get(&job, server).await?;
            out.answer(&job, show::job::job)
        }
        JobsCommand::List => {
            let page = async |page_token| {
                let request = ListJobsRequest {
                    page_size: 0,
                    page_token,
                };
                server.jobs(JobServiceClient::list_jobs, request).await
            };
            out.answer(&all(page).await?, show::job::jobs)
        }
    }
}

/// The job as it now is.
pub(super) async fn get(id: &str, server: &Server) -> Result<Job, Failure> {
    let request = GetJobRequest {
        name: name::job(id),
    };
    server.jobs(JobServiceClient::get_job, request).await
}

async fn create(args: JobArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = CreateJobRequest {
        job_id: args.id,
        job: Some(Job {
            display_name: args.name,
            machine: args.machine,
            torque_unit: args.unit.unwrap_or_default().into(),
            ..Job::default()
        }),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let job = server
        .change(&ticket, JobServiceClient::create_job, request)
        .await?;
    out.answer(&job, show::job::job)
}
