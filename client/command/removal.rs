//! `removal`.

use clampbook_api::v1::{
    ImportRemovalsRequest, LogAlikeRemovalsRequest, LogRemovalRequest, Removal,
    job_service_client::JobServiceClient, removal::LengthSeen,
};

use super::file::read;
use crate::{
    args::{AlikeArgs, ImportArgs, LogArgs, RemovalCommand, SeenArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show::recorded,
};

pub(super) async fn run(
    command: RemovalCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    match command {
        RemovalCommand::Log(args) => log(*args, server, out).await,
        RemovalCommand::Alike(args) => alike(args, server, out).await,
        RemovalCommand::Import(args) => import(args, server, out).await,
    }
}

async fn log(args: LogArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let joint = name::joint(&args.place.job, &args.place.joint);
    let request = LogRemovalRequest {
        removal: Some(seen(joint, args.place.position, args.seen)),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_removal, request)
        .await?;
    out.answer(&answer, recorded::removal)
}

/// A removal as it was described.
pub(super) fn seen(joint: String, position: i32, seen: SeenArgs) -> Removal {
    let measured = seen.length.map(LengthSeen::Length);
    let compared = seen
        .compared
        .map(|length| LengthSeen::LengthCompared(length.into()));
    Removal {
        joint,
        position,
        outcome: seen.outcome.into(),
        ticks: numbers(seen.tick),
        methods: numbers(seen.methods),
        heat_colour: seen.heat.unwrap_or_default().into(),
        heated_place: seen.heated_place,
        thread: seen.thread,
        length_seen: measured.or(compared),
        head_marking: seen.head_marking,
        grade: seen.grade,
        breakaway_torque: seen.breakaway,
        kept_in: seen.kept_in,
        note: seen.note,
        marks: seen.assembled.marks.mark,
        stack: seen.assembled.stack,
        small_parts: seen.assembled.part,
        ..Removal::default()
    }
}

async fn alike(args: AlikeArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = LogAlikeRemovalsRequest {
        joint: name::joint(&args.job, &args.joint),
        positions: args.positions,
        outcome: args.outcome.into(),
        methods: numbers(args.methods),
        heat_colour: args.heat.unwrap_or_default().into(),
        kept_in: args.kept_in,
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_alike_removals, request)
        .await?;
    out.answer(&answer, recorded::alike)
}

async fn import(args: ImportArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let csv = read(&args.file)?;
    let ticket = args.change.ticket();
    let request = ImportRemovalsRequest {
        parent: name::job(&args.job),
        csv,
        validate_only: args.dry_run,
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::import_removals, request)
        .await?;
    out.answer(&answer, |answer| recorded::import(answer, args.dry_run))
}

fn numbers<W: Into<i32>>(words: Vec<W>) -> Vec<i32> {
    words.into_iter().map(Into::into).collect()
}
