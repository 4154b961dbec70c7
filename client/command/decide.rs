//! `decide`.

use clampbook_api::v1::{Decision, LogDecisionRequest, job_service_client::JobServiceClient};

use super::joints;
use crate::{
    args::{DecideArgs, DecidedArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show::recorded,
};

pub(super) async fn run(args: DecideArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let joint = name::joint(&args.place.job, &args.place.joint);
    let etag = match args.etag {
        Some(etag) => etag,
        None => position_etag(joint.clone(), args.place.position, server).await?,
    };
    let ticket = args.change.ticket().on(&etag);
    let request = LogDecisionRequest {
        decision: Some(decided(
            joint,
            args.place.position,
            args.decided,
            args.reason,
        )),
        etag,
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_decision, request)
        .await?;
    out.answer(&answer, recorded::decision)
}

/// A decision as it was described, and why.
pub(super) fn decided(joint: String, position: i32, said: DecidedArgs, reason: String) -> Decision {
    Decision {
        joint,
        position,
        kind: said.kind.into(),
        replacement: said.replacement.into_wire(),
        hold_reason: said.hold_reason.unwrap_or_default().into(),
        hole_check: said.hole_check.unwrap_or_default().into(),
        grade_shown: said.grade_shown,
        citation: said.citation,
        hole_repair: said.hole_repair,
        baking_shown: said.baking_shown,
        left_out_by: said.left_out_by,
        reason,
        ..Decision::default()
    }
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
