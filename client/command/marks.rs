//! `marks`.

use clampbook_api::v1::{LogMatchMarksRequest, MatchMarks, job_service_client::JobServiceClient};

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
    let request = LogMatchMarksRequest {
        match_marks: Some(marked(&args.job, args.seen)),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_match_marks, request)
        .await?;
    out.answer(&answer, show::recorded::marks)
}

/// Marks as they were described.
pub(super) fn marked(job: &str, seen: MarkedArgs) -> MatchMarks {
    MatchMarks {
        joint: name::joint(job, &seen.joint),
        position: seen.position.unwrap_or_default(),
        marks: seen.marks.mark,
        note: seen.note,
        ..MatchMarks::default()
    }
}
