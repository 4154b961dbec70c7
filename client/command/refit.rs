//! `refit`.

use clampbook_api::v1::{LogRefitRequest, Refit, job_service_client::JobServiceClient};

use crate::{
    args::{RefitArgs, RefittedArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show::recorded,
};

pub(super) async fn run(args: RefitArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let joint = name::joint(&args.place.job, &args.place.joint);
    let request = LogRefitRequest {
        refit: Some(refitted(joint, args.place.position, args.refitted)),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_refit, request)
        .await?;
    out.answer(&answer, recorded::refit)
}

/// A refit as it was described.
pub(super) fn refitted(joint: String, position: i32, said: RefittedArgs) -> Refit {
    Refit {
        joint,
        position,
        fitted_part: said.part.into(),
        new_part: said.new_part.into_wire(),
        note: said.note,
        fitted_pieces: said.with.with,
        as_it_came_out: said.with.as_it_came_out,
        prevailing_torque: said.with.prevailing_torque,
        ..Refit::default()
    }
}
