//! `finding`.

use clampbook_api::v1::{
    AnswerCounterpartRequest, CounterpartAnswer, Finding, LogFindingRequest,
    counterpart_answer::Shown, job_service_client::JobServiceClient,
};

use crate::{
    args::{AnsweredArgs, FindingArgs, FindingCommand, FoundArgs, ShownArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show,
};

pub(super) async fn run(
    command: FindingCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    match command {
        FindingCommand::Log(args) => log(*args, server, out).await,
        FindingCommand::Answer(args) => {
            let ticket = args.change.ticket();
            let request = AnswerCounterpartRequest {
                answer: Some(answered(&args.job, args.answered)),
                request_id: ticket.request_id(),
                said_time: None,
            };
            let answer = server
                .change(&ticket, JobServiceClient::answer_counterpart, request)
                .await?;
            out.answer(&answer, show::recorded::counterpart)
        }
    }
}

async fn log(args: FindingArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = LogFindingRequest {
        finding: Some(found(&args.job, args.found)),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_finding, request)
        .await?;
    out.answer(&answer, show::recorded::finding)
}

/// A finding as it was described.
pub(super) fn found(job: &str, found: FoundArgs) -> Finding {
    Finding {
        assembly: name::assembly(job, &found.assembly),
        joint: found
            .joint
            .map(|id| name::joint(job, &id))
            .unwrap_or_default(),
        part: found.part,
        kind: found.kind.into(),
        severity: found.severity.into(),
        criticality: found.class.unwrap_or_default().into(),
        cause: found.cause,
        reading: found.reading,
        note: found.note,
        ..Finding::default()
    }
}

/// An answer as it was described.
pub(super) fn answered(job: &str, said: AnsweredArgs) -> CounterpartAnswer {
    CounterpartAnswer {
        finding: name::entry(job, &said.finding),
        shown: shown(job, said.shown),
        note: said.note,
        ..CounterpartAnswer::default()
    }
}

fn shown(job: &str, args: ShownArgs) -> Option<Shown> {
    let photo = args.photo.map(Shown::Photo);
    let added = args
        .added_photo
        .map(|entry| Shown::AddedPhoto(name::entry(job, &entry)));
    let none = args.none_says.map(Shown::NoSuchPartSays);
    args.reading
        .map(Shown::Reading)
        .or(photo)
        .or(added)
        .or(none)
}
