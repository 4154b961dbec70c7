//! Application errors as gRPC statuses; the one place that makes a `Status`.

use clampbook_api::reason::DOMAIN;
use clampbook_app::{Error, Reason};
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
const fn code(reason: Reason) -> Code {
    match reason {
        Reason::FieldsInvalid | Reason::RequestIdReused => Code::InvalidArgument,
        Reason::ResourceNotFound => Code::NotFound,
        Reason::ResourceExists => Code::AlreadyExists,
        Reason::StateForbids | Reason::PurposeRefused => Code::FailedPrecondition,
        Reason::EtagStale => Code::Aborted,
        Reason::NotAllowed => Code::PermissionDenied,
        Reason::Overloaded | Reason::NotReady | Reason::OutcomeUnknown => Code::Unavailable,
        Reason::DeadlinePassed => Code::DeadlineExceeded,
        Reason::MessageTooLarge => Code::ResourceExhausted,
        Reason::Broken => Code::Internal,
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
    let mut details = ErrorDetails::with_error_info(error.reason.name(), DOMAIN, metadata);
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
                    error.reason.name(),
                    name,
                    cut(&error.message, 300),
                )]);
            }
            _ => {
                details.set_resource_info(collection(name), name, "", "");
            }
        }
    }
    if matches!(error.reason, Reason::Overloaded | Reason::NotReady) {
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
    use super::status;
    use clampbook_app::{Error, Reason};
    use clampbook_book::refusal::Violation;
    use tonic_types::StatusExt;

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
            Some(Reason::FieldsInvalid.name().to_owned())
        );
    }
}
