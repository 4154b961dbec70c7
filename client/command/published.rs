//! `restate`.

use clampbook_api::v1::{RestateTorqueRequest, torque_service_client::TorqueServiceClient};

use crate::{args::RestateArgs, call::Server, error::Failure, out::Out, show};

pub(super) async fn run(args: RestateArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let request = RestateTorqueRequest {
        thread: args.thread,
        grade: args.grade.unwrap_or_default(),
        torque: args.torque,
        published_lubrication: args.published_lubrication,
        lubrication: args.lubrication.unwrap_or_default(),
        flat_seats: args.flat_seats,
        purpose: args.purpose.unwrap_or_default().into(),
        unit_confirmed: args.unit_confirmed,
        torque_unit: args.unit.unwrap_or_default().into(),
    };
    let answer = server
        .torque(TorqueServiceClient::restate_torque, request)
        .await?;
    out.answer(&answer, show::published::answer)
}
