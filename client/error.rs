//! What went wrong, as it is told: the message, what is wrong with which field, what to do next; and the exit code.

use std::{fmt::Display, io, process::ExitCode};

use clampbook_api::reason;
use tonic::{Code, Status};
use tonic_types::{ErrorDetails, StatusExt};

use crate::{out::Out, ticket::Ticket, transport};

/// Why the program ends without a result.
#[derive(Debug)]
pub(crate) struct Failure {
    exit: Exit,
    message: String,
    details: Vec<String>,
    next: Option<String>,
    may_be_done: bool,
}

/// Exit codes, as `--help` and the manual list them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Exit {
    /// The reader of the output has gone: nothing is left to do.
    Quiet = 0,
    General = 1,
    Usage = 2,
    NotFound = 3,
    Conflict = 4,
    Unavailable = 5,
    NotAllowed = 6,
    Refused = 7,
}

impl Failure {
    /// A value that cannot even be sent.
    pub(crate) fn usage(message: impl Into<String>) -> Self {
        Self::new(Exit::Usage, message)
    }

    /// Something on this side that should not happen.
    pub(crate) fn system(doing: &str, error: &dyn Display) -> Self {
        Self::new(Exit::General, format!("{doing}: {error}"))
    }

    /// Output that could not be written. A reader that has had enough is no error.
    pub(crate) fn output(error: &io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Self::new(Exit::Quiet, ""),
            _ => Self::system("cannot write the output", error),
        }
    }

    /// What the server, or the way there, answered.
    pub(crate) fn answered(status: &Status, address: &str, may_be_done: bool) -> Self {
        let details = status.get_error_details();
        let reason = details.error_info().map_or("", |info| &info.reason);
        if transport::unreachable(status) {
            let cause = transport::last_cause(status);
            return Self {
                next: Some(
                    "Start it with `clampbookd serve`, or name the right one with --server or CLAMPBOOK_SERVER."
                        .to_owned(),
                ),
                may_be_done,
                ..Self::new(Exit::Unavailable, format!("no server at {address}: {cause}"))
            };
        }
        Self {
            details: violations(&details, status.message()),
            next: next_step(reason, status.code())
                .map(ToOwned::to_owned)
                .or_else(|| where_to_look(&details)),
            may_be_done,
            ..Self::new(exit(status.code(), reason), message(status))
        }
    }

    /// The same for a writing request: whether it was written, or how to find out.
    pub(crate) fn of_request(mut self, ticket: &Ticket) -> Self {
        if self.may_be_done {
            self.next = Some(ticket.advice());
        } else if self.exit == Exit::Usage && self.next.is_none() {
            // A question changes nothing anyway; only after a write is this worth a line.
            self.next = Some("Nothing was changed. Correct this and run it again.".to_owned());
        }
        self
    }

    /// Tells it on standard error.
    pub(crate) fn report(&self, out: &Out) -> ExitCode {
        if self.exit != Exit::Quiet {
            out.notice(&self.told());
        }
        ExitCode::from(self.exit as u8)
    }

    /// The whole of it, one line or several.
    pub(crate) fn told(&self) -> String {
        let mut told = format!("clampbook: {}", self.message);
        for detail in &self.details {
            told.push_str("\n  ");
            told.push_str(detail);
        }
        if let Some(next) = &self.next {
            told.push('\n');
            told.push_str(next);
        }
        told
    }

    fn new(exit: Exit, message: impl Into<String>) -> Self {
        Self {
            exit,
            message: message.into(),
            details: Vec::new(),
            next: None,
            may_be_done: false,
        }
    }
}

fn message(status: &Status) -> String {
    if status.message().is_empty() {
        format!("the server answered {:?} without a message", status.code())
    } else {
        status.message().to_owned()
    }
}

/// One line per thing that is wrong, with its path in the request; none for what the message says already.
fn violations(details: &ErrorDetails, message: &str) -> Vec<String> {
    let fields = details
        .bad_request()
        .into_iter()
        .flat_map(|bad| &bad.field_violations)
        .map(|wrong| format!("{}: {}", wrong.field, wrong.description));
    let states = details
        .precondition_failure()
        .into_iter()
        .flat_map(|failed| &failed.violations)
        .filter(|wrong| wrong.description != message)
        .map(|wrong| format!("{}: {}", wrong.subject, wrong.description));
    let incident = details
        .error_info()
        .and_then(|info| info.metadata.get("incident"))
        .map(|id| format!("incident: {id}"));
    let all = fields.chain(states).chain(incident);
    all.filter(|line| line != message).collect()
}

fn exit(code: Code, reason: &str) -> Exit {
    if reason == reason::PURPOSE_REFUSED {
        return Exit::Refused;
    }
    if reason == reason::MESSAGE_TOO_LARGE {
        return Exit::General;
    }
    match code {
        Code::InvalidArgument => Exit::Usage,
        Code::NotFound => Exit::NotFound,
        Code::AlreadyExists | Code::Aborted | Code::FailedPrecondition => Exit::Conflict,
        Code::Unavailable | Code::DeadlineExceeded | Code::ResourceExhausted => Exit::Unavailable,
        Code::Unauthenticated | Code::PermissionDenied => Exit::NotAllowed,
        _ => Exit::General,
    }
}

/// The command that lists things of the kind that was not found.
fn where_to_look(details: &ErrorDetails) -> Option<String> {
    let missing = &details.resource_info()?.resource_name;
    let mut parts = missing.split('/');
    let (outer, inner) = (parts.next()?, parts.nth(1));
    let command = match inner.filter(|_| outer == "jobs").unwrap_or(outer) {
        "threads" => "catalog threads",
        "rules" => "flags rules",
        "jobs" => "jobs list",
        "assemblies" => "jobs show JOB",
        "joints" => "joints list JOB",
        "entries" => "entries JOB",
        _ => return None,
    };
    Some(format!("List what there is with `clampbook {command}`."))
}

fn next_step(reason: &str, code: Code) -> Option<&'static str> {
    Some(match reason {
        reason::REQUEST_ID_REUSED => "Leave out --request-id to send this as a request of its own.",
        reason::RESOURCE_EXISTS => "Choose another id, or go on with the one that is there.",
        reason::STATE_FORBIDS => {
            "Look at it with `clampbook joints show JOB JOINT`; correct a wrong entry with `clampbook correct`."
        }
        reason::ETAG_STALE => {
            "Somebody has changed the record since: read it again, then decide again."
        }
        reason::NOT_ALLOWED => "Ask the person who keeps the book to do it or to allow it.",
        reason::OVERLOADED | reason::NOT_READY => "Wait a moment and run it again.",
        reason::MESSAGE_TOO_LARGE => "Send it in smaller parts.",
        reason::BROKEN => {
            "Tell the person who runs the server; the incident number finds it in the log."
        }
        _ if code == Code::DeadlineExceeded => "Run it again, with a longer --timeout if need be.",
        _ if code == Code::Unavailable => "Wait a moment and run it again.",
        _ if code == Code::Unimplemented => {
            "This server is older than this program; `clampbook --version` tells which it is."
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests;
