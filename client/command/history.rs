//! `history`.

use clampbook_api::v1::{ListPositionHistoryRequest, job_service_client::JobServiceClient};

use super::paging::all;
use crate::{args::HistoryArgs, call::Server, error::Failure, name, out::Out, show::journal};

pub(super) async fn run(args: HistoryArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let joint = name::joint(&args.place.job, &args.place.joint);
    let page = async |page_token| {
        let request = ListPositionHistoryRequest {
            joint: joint.clone(),
            position: args.place.position,
            page_size: 0,
            page_token,
        };
        server
            .jobs(JobServiceClient::list_position_history, request)
            .await
    };
    out.answer(&all(page).await?, journal::history)
}
