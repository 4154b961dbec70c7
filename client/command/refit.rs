//! `refit`.

use clampbook_api::v1::{LogRefitRequest, Refit, job_service_client::JobServiceClient};

use crate::{args::RefitArgs, call::Server, error::Failure, name, out::Out, show::recorded};

pub(super) async fn run(args: RefitArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = LogRefitRequest {
        refit: Some(Refit {
            joint: name::joint(&args.place.job, &args.place.joint),
            position: args.place.position,
            fitted_part: args.part.into(),
            new_part: args.new_part.into_wire(),
            tightness: args.tightness.into(),
            torque_reading: args.reading,
            tool: args.tool,
            note: args.note,
            fitted_pieces: args.with.with,
            as_it_came_out: args.with.as_it_came_out,
            run_on_torque: args.with.run_on,
            ..Refit::default()
        }),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_refit, request)
        .await?;
    out.answer(&answer, recorded::refit)
}
