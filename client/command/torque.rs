//! `torque`.

use clampbook_api::v1::{ComputeTorqueRequest, torque_service_client::TorqueServiceClient};

use crate::{args::TorqueArgs, call::Server, error::Failure, out::Out, show};

pub(super) async fn run(args: TorqueArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    let request = ComputeTorqueRequest {
        thread: args.thread,
        grade: args.grade,
        condition: args.condition.unwrap_or_default(),
        proof_share: args.proof_share,
        clamp_load_n: args.clamp_load_n,
        nut_factor: args.nut_factor,
        nut_grade: args.nut_grade,
        purpose: args.purpose.unwrap_or_default().into(),
    };
    let answer = server
        .torque(TorqueServiceClient::compute_torque, request)
        .await?;
    out.answer(&answer, |answer| show::torque::answer(answer, unit))
}
