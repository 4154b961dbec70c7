//! `plan`.

use clampbook_api::v1::{PlanTighteningRequest, torque_service_client::TorqueServiceClient};

use crate::{args::PlanArgs, call::Server, error::Failure, out::Out, show};

pub(super) async fn run(args: PlanArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let request = PlanTighteningRequest {
        procedure: args.procedure.unwrap_or_default(),
        layout: args.layout.unwrap_or_default().into(),
        position_count: args.positions,
        row_count: args.rows,
        purpose: args.purpose.unwrap_or_default().into(),
        gasketed: args.gasketed,
        torque: args.torque.unwrap_or_default(),
        torque_published: args.published,
        back_off_degrees: args.back_off,
        thread: args.thread.unwrap_or_default(),
        torque_unit: args.unit.unwrap_or_default().into(),
    };
    let answer = server
        .torque(TorqueServiceClient::plan_tightening, request)
        .await?;
    out.answer(&answer, show::procedure::answer)
}
