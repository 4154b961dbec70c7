//! `marks`.

use clampbook_api::v1::{LogMarksRequest, Marking, job_service_client::JobServiceClient};

use crate::{
    args::{MarkedArgs, MarksCommand},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show,
};

pub(super) async fn run(command: MarksCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    let MarksCommand::Log(args) = command;
    let ticket = args.change.ticket();
    let request = LogMarksRequest {
        marking: Some(marked(&args.job, args.seen)),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_marks, request)
        .await?;
    out.answer(&answer, show::recorded::marks)
}

/// Marks as they were described.
pub(super) fn marked(job: &str, seen: MarkedArgs) -> Marking {
    Marking {
        joint: name::joint(job, &seen.joint),
        position: seen.position.unwrap_or_default(),
        marks: seen.marks.mark,
        note: seen.note,
        ..Marking::default()
    }
}
