//! `decide`.

use clampbook_api::v1::{Decision, LogDecisionRequest, job_service_client::JobServiceClient};

use super::joints;
use crate::{args::DecideArgs, call::Server, error::Failure, name, out::Out, show::recorded};

pub(super) async fn run(args: DecideArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let joint = name::joint(&args.place.job, &args.place.joint);
    let etag = match args.etag {
        Some(etag) => etag,
        None => position_etag(joint.clone(), args.place.position, server).await?,
    };
    let ticket = args.change.ticket().on(&etag);
    let request = LogDecisionRequest {
        decision: Some(Decision {
            joint,
            position: args.place.position,
            disposition: args.disposition.into(),
            replacement: args.replacement.into_wire(),
            waits_for: args.waits_for.unwrap_or_default().into(),
            hole_check: args.hole.unwrap_or_default().into(),
            grade_shown: args.grade_shown,
            citation: args.citation,
            hole_repair: args.hole_repair,
            baking_shown: args.baking_shown,
            left_out_by: args.left_out_by,
            reason: args.reason,
            ..Decision::default()
        }),
        etag,
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_decision, request)
        .await?;
    out.answer(&answer, recorded::decision)
}

/// The position's etag just now: for somebody who decides without having read it by program.
async fn position_etag(joint: String, number: i32, server: &Server) -> Result<String, Failure> {
    let joint = joints::get(joint, server).await?;
    let count = joint.positions.len();
    joint
        .positions
        .into_iter()
        .find(|position| position.number == number)
        .map(|position| position.etag)
        .ok_or_else(|| {
            Failure::usage(format!(
                "decision.position: {} has no position {number}; allowed is 1 to {count}",
                joint.name
            ))
        })
}
