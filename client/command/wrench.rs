//! `wrench`.

use clampbook_api::v1::{
    Adapter, SetWrenchRequest, UsedLockNut, torque_service_client::TorqueServiceClient,
};

use crate::{args::WrenchArgs, call::Server, error::Failure, out::Out, show};

pub(super) async fn run(args: WrenchArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let lengths = args.wrench_length.zip(args.adapter_length);
    let kind = args.lock_nut_kind.unwrap_or_default().into();
    let request = SetWrenchRequest {
        torque: args.torque,
        prevailing_torque: args.prevailing_torque.unwrap_or_default(),
        prevailing_torque_excluded: args.prevailing_torque_excluded,
        adapter: lengths.map(|(wrench_length, adapter_length)| Adapter {
            wrench_length,
            adapter_length,
            angle_degrees: args.angle.unwrap_or_default(),
        }),
        used_lock_nut: args
            .used_lock_nut
            .map(|thread| UsedLockNut { thread, kind }),
        wrenches: args.wrenches,
        torque_unit: args.unit.unwrap_or_default().into(),
    };
    let answer = server
        .torque(TorqueServiceClient::set_wrench, request)
        .await?;
    out.answer(&answer, show::wrench::answer)
}
