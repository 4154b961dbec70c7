//! `search`.

use clampbook_api::v1::{SearchJobsRequest, job_service_client::JobServiceClient};

use super::paging::all;
use crate::{args::SearchArgs, call::Server, error::Failure, out::Out, show};

pub(super) async fn run(args: SearchArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let wanted = SearchJobsRequest {
        machine: args.machine,
        thread: args.thread,
        rule: args.rule,
        part: args.part,
        kept_in: args.kept_in,
        ..SearchJobsRequest::default()
    };
    let page = async |page_token| {
        let request = SearchJobsRequest {
            page_token,
            ..wanted.clone()
        };
        server.jobs(JobServiceClient::search_jobs, request).await
    };
    out.answer(&all(page).await?, show::search::places)
}
