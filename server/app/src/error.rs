//! What can go wrong with an operation, by its reason; how it reaches the caller is the adapter's.

use super::{Operation, Reason};
use clampbook_book::refusal::{Refusal, Violation};
use clampbook_engine::{Fault, FaultReason};
use clampbook_journal::{CommitError, ReadError};
use std::fmt;

/// An operation that did not succeed.
#[derive(Clone, Debug, PartialEq)]
pub struct Error {
    /// What a program may act on.
    pub reason: Reason,
    /// One or two sentences for people.
    pub message: String,
    /// Every variable part of the message.
    pub metadata: Vec<(String, String)>,
    /// Fields that are wrong.
    pub violations: Vec<Violation>,
}

impl Error {
    fn new(reason: Reason, message: impl Into<String>) -> Self {
        Self {
            reason,
            message: message.into(),
            metadata: Vec::new(),
            violations: Vec::new(),
        }
    }

    fn with(mut self, key: &str, value: impl Into<String>) -> Self {
        self.metadata.push((key.into(), value.into()));
        self
    }

    /// Fields are wrong.
    pub fn invalid(violations: Vec<Violation>) -> Self {
        let message = match violations.as_slice() {
            [one] => format!("{}: {}", one.field, one.wrong),
            many => format!("{} fields are wrong", many.len()),
        };
        Self {
            violations,
            ..Self::new(Reason::FieldsInvalid, message)
        }
    }

    /// Nothing has that name.
    pub fn not_found(name: impl Into<String>) -> Self {
        let name = name.into();
        Self::new(Reason::ResourceNotFound, format!("{name} does not exist")).with("resource", name)
    }

    /// The next page is wanted of a list that was judged earlier and is not kept any more.
    pub(crate) fn moved_on(name: impl Into<String>) -> Self {
        let name = name.into();
        Self::new(
            Reason::EtagStale,
            format!("{name} has changed since the first page; list it again from the first page"),
        )
        .with("resource", name)
    }

    /// The caller's role does not include the operation.
    pub fn not_allowed(operation: Operation) -> Self {
        Self::new(
            Reason::NotAllowed,
            format!(
                "this server is open for reading only; {} writes",
                operation.name()
            ),
        )
        .with("operation", operation.name())
    }

    /// The call ran out of time.
    pub fn deadline_passed(operation: Operation) -> Self {
        let outcome = if operation.writes() {
            "; whether it was written is not known: send it again with the same request id"
        } else {
            ""
        };
        Self::new(
            Reason::DeadlinePassed,
            format!("{} took longer than allowed{outcome}", operation.name()),
        )
        .with("operation", operation.name())
    }

    /// The message is larger than its method takes.
    pub fn too_large() -> Self {
        Self::new(
            Reason::MessageTooLarge,
            "the message is too large: 256 KiB are allowed, 1 MiB for JobService and SpecificationService",
        )
    }

    /// Too many photos are under way.
    pub fn too_many_photos() -> Self {
        Self::new(
            Reason::Overloaded,
            "too many photos are being sent at once; try again shortly",
        )
    }

    /// The server is stopping.
    pub fn stopping() -> Self {
        Self::new(
            Reason::NotReady,
            "the server is stopping; connect again and continue after the last sequence",
        )
    }

    fn cannot_write(cause: &str) -> Self {
        tracing::error!(cause = %cause, "the journal cannot be written");
        Self::new(
            Reason::NotReady,
            "nothing was written: the journal cannot be written just now",
        )
    }

    /// The journal's file is gone from its place; where it was is for the log.
    fn lost(told: &str, detail: &str) -> Self {
        tracing::error!(cause = %detail, "the journal is not in its place");
        Self::new(
            Reason::NotReady,
            format!(
                "{told}: the journal's file was moved, removed or replaced while it was served; put it back and start the server again"
            ),
        )
    }

    /// Something broke; the cause goes to the log under an incident id, which is all the caller gets.
    pub fn broken(cause: &dyn fmt::Display) -> Self {
        let incident = uuid::Uuid::new_v4().to_string();
        tracing::error!(incident.id = %incident, cause = %cause, "an operation broke");
        Self::broken_as(incident)
    }

    fn broken_as(incident: String) -> Self {
        Self::new(
            Reason::Broken,
            format!("something broke in the server; the log has it under incident {incident}"),
        )
        .with("incident", incident)
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Error {}

impl From<Refusal> for Error {
    fn from(refusal: Refusal) -> Self {
        let message = refusal.to_string();
        match refusal {
            Refusal::Invalid(violations) => Self::invalid(violations),
            Refusal::NotFound { name } => Self::not_found(name),
            Refusal::Exists { name } => {
                Self::new(Reason::ResourceExists, message).with("resource", name)
            }
            Refusal::State { subject, .. } => {
                Self::new(Reason::StateForbids, message).with("resource", subject)
            }
            Refusal::Stale {
                subject,
                given,
                current,
            } => Self::new(Reason::EtagStale, message)
                .with("resource", subject)
                .with("given", given)
                .with("current", current),
        }
    }
}

impl From<CommitError> for Error {
    fn from(error: CommitError) -> Self {
        match error {
            CommitError::Refused(refusal) => refusal.into(),
            CommitError::RequestReused => Self::new(
                Reason::RequestIdReused,
                "the request id was used before with other content; make a new id",
            ),
            CommitError::Full => Self::new(
                Reason::Overloaded,
                "too many requests are waiting to be written; try again shortly",
            ),
            CommitError::Stopped => Self::stopping(),
            error @ CommitError::NoSpace => Self::new(
                Reason::NotReady,
                format!("{error}; make room, and send it again"),
            ),
            CommitError::Lost { detail } => Self::lost("nothing was written", &detail),
            CommitError::Broken { detail } => Self::cannot_write(&detail),
            CommitError::OutcomeUnknown => Self::new(
                Reason::OutcomeUnknown,
                "it is not known whether this was written; send it again with the same request id",
            ),
            CommitError::Panicked { incident } => Self::broken_as(incident.to_string()),
        }
    }
}

impl From<ReadError> for Error {
    fn from(error: ReadError) -> Self {
        match error {
            ReadError::Stopped => Self::stopping(),
            ReadError::Lost { detail } => Self::lost("nothing can be read", &detail),
            ReadError::Damaged { .. } | ReadError::Broken { .. } => Self::broken(&error),
        }
    }
}

/// The engine's faults, as violations of the fields at `path`, or as a refused purpose.
pub fn from_faults(faults: &[Fault], path: &str) -> Error {
    if let Some(FaultReason::PurposeRefused { why, instead, .. }) = faults
        .iter()
        .map(|fault| &fault.reason)
        .find(|reason| matches!(reason, FaultReason::PurposeRefused { .. }))
    {
        return Error::new(
            Reason::PurposeRefused,
            format!("no torque is computed for this purpose: {why} {instead}"),
        )
        .with("why", *why)
        .with("instead", *instead);
    }
    Error::invalid(violations_of(faults, path))
}

/// What the engine looked up, unless something is wrong: by its own word, or in `found` by the adapter's.
///
/// # Errors
/// All violations together, or the refused purpose where nothing else is wrong.
pub fn unless_wrong<Q>(
    resolved: Result<Q, Vec<Fault>>,
    path: &str,
    found: Vec<Violation>,
) -> Result<Q, Error> {
    match resolved {
        Ok(question) if found.is_empty() => Ok(question),
        Ok(_) => Err(Error::invalid(found)),
        Err(faults) if found.is_empty() => Err(from_faults(&faults, path)),
        Err(faults) => Err(Error::invalid(beside(found, violations_of(&faults, path)))),
    }
}

/// What else is wrong, beside what was found before. What was found wrong as a whole is not told again in parts.
pub(crate) fn beside(mut found: Vec<Violation>, others: Vec<Violation>) -> Vec<Violation> {
    let within = |inner: &str, outer: &str| {
        let rest = inner.strip_prefix(outer);
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    };
    let told = found.len();
    for other in others {
        if !found[..told]
            .iter()
            .any(|one| within(&other.field, &one.field))
        {
            found.push(other);
        }
    }
    found
}

/// The engine's faults as violations of the fields at `path`.
pub fn violations_of(faults: &[Fault], path: &str) -> Vec<Violation> {
    faults
        .iter()
        .map(|fault| Violation::new(format!("{path}{}", fault.field), fault.reason.to_string()))
        .collect()
}
