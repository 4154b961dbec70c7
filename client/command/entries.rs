//! `entries`.

use clampbook_api::v1::{ListEntriesRequest, job_service_client::JobServiceClient};

use super::paging::all;
use crate::{args::EntriesArgs, call::Server, error::Failure, name, out::Out, show::journal};

pub(super) async fn run(args: EntriesArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let parent = name::stream(args.job.as_deref(), args.shop);
    let page = async |page_token| {
        let parent = parent.clone();
        let request = ListEntriesRequest {
            parent,
            page_size: 0,
            page_token,
        };
        server.jobs(JobServiceClient::list_entries, request).await
    };
    out.answer(&all(page).await?, journal::entries)
}
