//! `torque`.

use std::{fs, os::unix::fs::MetadataExt, path::Path};

use clampbook_api::v1::{
    ComputeTorqueRequest, RenderChartRequest, TorqueUnit,
    torque_service_client::TorqueServiceClient,
};

use super::many;
use crate::{args::TorqueArgs, call::Server, error::Failure, out::Out, show};

pub(super) async fn run(args: TorqueArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    if let Some(table) = &args.csv {
        return many::run(table, unit, server, out).await;
    }
    let request = ComputeTorqueRequest {
        thread: args.thread.unwrap_or_default(),
        grade: args.grade.unwrap_or_default(),
        lubrication: args.lubrication.unwrap_or_default(),
        proof_share: args.aim.proof_share,
        clamp_load_n: args.aim.clamp_load_n,
        nut_factor: args.aim.nut_factor,
        nut_grade: args.aim.nut_grade,
        purpose: args.purpose.unwrap_or_default().into(),
        baked: args.aim.baked,
        torque_unit: unit.into(),
    };
    let answer = server
        .torque(TorqueServiceClient::compute_torque, request.clone())
        .await?;
    if let Some(path) = &args.chart {
        chart(path, request, unit, server).await?;
    }
    out.answer(&answer, show::torque::answer)
}

/// Writes the picture before the answer is printed: who asked for both gets both or neither.
async fn chart(
    path: &Path,
    ask: ComputeTorqueRequest,
    unit: TorqueUnit,
    server: &Server,
) -> Result<(), Failure> {
    let request = RenderChartRequest {
        ask: Some(ask),
        torque_unit: unit.into(),
    };
    let chart = server
        .torque(TorqueServiceClient::render_chart, request)
        .await?;
    let cannot = |why: &dyn std::fmt::Display| {
        Failure::usage(format!("cannot write {}: {why}", path.display()))
    };
    // What a link leads to was not named, and may be somebody else's.
    let is_link = |found: fs::Metadata| found.is_symlink() || found.is_file() && found.nlink() > 1;
    if fs::symlink_metadata(path).is_ok_and(is_link) {
        return Err(cannot(&"it is a link; name a file of its own"));
    }
    fs::write(path, chart.svg).map_err(|error| cannot(&error))
}
