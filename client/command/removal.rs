//! `removal`.

use std::{
    fs::File,
    io::{self, Read},
    path::Path,
};

use clampbook_api::v1::{
    ImportRemovalsRequest, LogAlikeRemovalsRequest, LogRemovalRequest, Removal,
    job_service_client::JobServiceClient, removal::LengthSeen,
};

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
        condition: seen.condition.into(),
        ticks: numbers(seen.tick),
        means: numbers(seen.means),
        heat_colour: seen.heat.unwrap_or_default().into(),
        heated_place: seen.heated_place,
        thread: seen.thread,
        length_seen: measured.or(compared),
        marking: seen.marking,
        grade: seen.grade,
        breakaway_torque: seen.breakaway,
        kept_in: seen.kept_in,
        note: seen.note,
        marks: seen.assembled.mark,
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
        condition: args.condition.into(),
        means: numbers(args.means),
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

/// More than the server would ever take; only keeps a slip of the finger from filling the memory.
const LARGEST_FILE: u64 = 1024 * 1024;

fn read(path: &Path) -> Result<String, Failure> {
    let name = path.display().to_string();
    let bytes = if path.as_os_str() == "-" {
        bounded(io::stdin().lock())
    } else {
        File::open(path).and_then(bounded)
    }
    .map_err(|error| Failure::usage(format!("cannot read {name}: {error}")))?;
    text(bytes, &name)
}

fn text(bytes: Vec<u8>, name: &str) -> Result<String, Failure> {
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(Failure::usage(format!(
            "{name} holds more than {LARGEST_FILE} bytes; the server takes 200,000 characters at once"
        )));
    }
    String::from_utf8(bytes).map_err(|error| {
        let sound = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + sound.iter().filter(|byte| **byte == b'\n').count();
        Failure::usage(format!(
            "{name}: line {line} is not UTF-8; save the table as UTF-8"
        ))
    })
}

fn bounded(file: impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    file.take(LARGEST_FILE + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_is_no_text_is_named_with_its_line() {
        let told =
            |bytes: &[u8]| text(bytes.to_vec(), "strip.csv").map_err(|failure| failure.told());
        assert_eq!(told("joint\nhüb".as_bytes()), Ok("joint\nhüb".to_owned()));
        assert_eq!(
            told(b"joint\nhub\nh\xFCb"),
            Err("clampbook: strip.csv: line 3 is not UTF-8; save the table as UTF-8".to_owned())
        );
    }

    #[test]
    fn a_file_far_too_large_is_not_even_read_to_its_end() {
        let read = bounded(io::repeat(b'x')).expect("a bounded read");
        let refused = text(read, "strip.csv").expect_err("too large");
        assert!(
            refused.told().contains("200,000 characters"),
            "{}",
            refused.told()
        );
    }
}
