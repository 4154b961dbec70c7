//! Application errors as gRPC statuses; the one place that makes a `Status`.

use crate::app::Error;
use clampbook_api::reason;
use std::collections::HashMap;
use std::time::Duration;
use tonic::{Code, Status};
use tonic_types::{ErrorDetails, FieldViolation, PreconditionViolation, StatusExt};

/// Most bytes of a message: status and details travel in trailers, which HTTP/2 peers cut off at 8 KiB or so.
const MESSAGE_BYTES: usize = 1_000;
/// Most bytes that details may take together.
const DETAIL_BYTES: usize = 3_000;
/// When to try again after an overload.
const RETRY_AFTER: Duration = Duration::from_millis(100);

/// The code of each reason.
#[must_use]
pub(crate) fn code(reason: &str) -> Code {
    match reason {
        reason::FIELDS_INVALID | reason::REQUEST_ID_REUSED => Code::InvalidArgument,
        reason::RESOURCE_NOT_FOUND => Code::NotFound,
        reason::RESOURCE_EXISTS => Code::AlreadyExists,
        reason::STATE_FORBIDS | reason::PURPOSE_REFUSED => Code::FailedPrecondition,
        reason::ETAG_STALE => Code::Aborted,
        reason::NOT_ALLOWED => Code::PermissionDenied,
        reason::OVERLOADED | reason::NOT_READY | reason::OUTCOME_UNKNOWN => Code::Unavailable,
        reason::DEADLINE_PASSED => Code::DeadlineExceeded,
        reason::MESSAGE_TOO_LARGE => Code::ResourceExhausted,
        _ => Code::Internal,
    }
}

/// The status of an error, with all details that help a program or a person.
#[must_use]
pub(crate) fn status(error: &Error) -> Status {
    let code = code(error.reason);
    let metadata: HashMap<String, String> = error
        .metadata
        .iter()
        .map(|(key, value)| (key.clone(), cut(value, 300)))
        .collect();
    let mut details = ErrorDetails::with_error_info(error.reason, reason::DOMAIN, metadata);
    if !error.violations.is_empty() {
        details.set_bad_request(violations(error));
    }
    let subject = error
        .metadata
        .iter()
        .find(|(key, _)| key == "resource")
        .map(|(_, v)| v.as_str());
    if let Some(name) = subject {
        match code {
            Code::FailedPrecondition => {
                details.set_precondition_failure(vec![PreconditionViolation::new(
                    error.reason,
                    name,
                    cut(&error.message, 300),
                )]);
            }
            _ => {
                details.set_resource_info(collection(name), name, "", "");
            }
        }
    }
    if matches!(error.reason, reason::OVERLOADED | reason::NOT_READY) {
        details.set_retry_info(Some(RETRY_AFTER));
    }
    Status::with_error_details(code, cut(&error.message, MESSAGE_BYTES), details)
}

/// As many violations as fit; the last says how many more there are.
fn violations(error: &Error) -> Vec<FieldViolation> {
    let mut left = DETAIL_BYTES;
    let mut shown = Vec::new();
    for violation in &error.violations {
        let wrong = cut(&violation.wrong, 300);
        let size = violation.field.len() + wrong.len() + 40;
        if size > left {
            break;
        }
        left -= size;
        shown.push(FieldViolation::new(violation.field.clone(), wrong));
    }
    let hidden = error.violations.len() - shown.len();
    if let (Some(last), true) = (error.violations.get(shown.len()), hidden > 0) {
        shown.push(FieldViolation::new(
            last.field.clone(),
            format!("and {hidden} more; fix the others first"),
        ));
    }
    shown
}

/// Kind of resource that a name is of, from its last collection.
fn collection(name: &str) -> &str {
    name.split('/').rev().nth(1).unwrap_or("resource")
}

fn cut(text: &str, most: usize) -> String {
    if text.len() <= most {
        return text.to_owned();
    }
    let mut end = most;
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    format!("{}…", &text[..end])
}

#[cfg(test)]
mod tests {
    use super::{code, status};
    use crate::app::Error;
    use clampbook_api::reason;
    use clampbook_book::refusal::Violation;
    use tonic::Code;
    use tonic_types::StatusExt;

    #[test]
    fn every_reason_but_broken_has_a_code_of_its_own() {
        for (name, meaning) in reason::ALL {
            assert_eq!(
                code(name) == Code::Internal,
                *name == reason::BROKEN,
                "{name}"
            );
            assert!(meaning.len() > 10, "{name} says what it means");
        }
    }

    #[test]
    fn many_violations_still_fit_into_trailers_and_none_is_passed_over_in_silence() {
        let many = (0..500)
            .map(|i| Violation::new(format!("removal.ticks[{i}]"), "is given twice"))
            .collect();
        let status = status(&Error::invalid(many));
        assert!(status.details().len() < 4_096, "{}", status.details().len());
        let bad = status.get_details_bad_request().expect("violations");
        let last = bad.field_violations.last().expect("one");
        assert!(last.description.contains("more"), "{}", last.description);
        assert_eq!(
            status.get_details_error_info().map(|info| info.reason),
            Some(reason::FIELDS_INVALID.to_owned())
        );
    }
}
