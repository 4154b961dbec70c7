//! `tighten`.

use clampbook_api::v1::{LogTighteningRequest, Tightening, job_service_client::JobServiceClient};

use crate::{
    args::{TightenedArgs, TighteningArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show::recorded,
};

pub(super) async fn run(args: TighteningArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = LogTighteningRequest {
        joint: name::joint(&args.job, &args.joint),
        positions: args.holes.0,
        step: args.tightened.step.into(),
        torque_reading: args.tightened.reading,
        tool: args.tightened.tool,
        note: args.tightened.note,
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_tightening, request)
        .await?;
    out.answer(&answer, recorded::tightening)
}

/// A tightening as it was described.
pub(super) fn tightened(joint: String, position: i32, said: TightenedArgs) -> Tightening {
    Tightening {
        joint,
        position,
        step: said.step.into(),
        torque_reading: said.reading,
        tool: said.tool,
        note: said.note,
        ..Tightening::default()
    }
}
