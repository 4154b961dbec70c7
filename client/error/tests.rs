//! What is told, and the exit codes.

use insta::assert_snapshot;
use tonic_types::FieldViolation;

use super::*;

const HOME: &str = "http://127.0.0.1:50551";

impl Failure {
    pub(crate) fn exit_code(&self) -> u8 {
        self.exit as u8
    }
}

fn answered(code: Code, reason: &str) -> Failure {
    let mut details = ErrorDetails::new();
    details.set_error_info(reason, reason::DOMAIN, []);
    let status = Status::with_error_details(code, "said so", details);
    Failure::answered(&status, HOME, false)
}

#[test]
fn every_code_has_its_exit_code() {
    for (code, exit) in [
        (Code::Cancelled, 1),
        (Code::Unknown, 1),
        (Code::InvalidArgument, 2),
        (Code::DeadlineExceeded, 5),
        (Code::NotFound, 3),
        (Code::AlreadyExists, 4),
        (Code::PermissionDenied, 6),
        (Code::ResourceExhausted, 5),
        (Code::FailedPrecondition, 4),
        (Code::Aborted, 4),
        (Code::OutOfRange, 1),
        (Code::Unimplemented, 1),
        (Code::Internal, 1),
        (Code::Unavailable, 5),
        (Code::DataLoss, 1),
        (Code::Unauthenticated, 6),
    ] {
        assert_eq!(answered(code, "").exit_code(), exit, "{code:?}");
    }
    let refused = answered(Code::FailedPrecondition, reason::PURPOSE_REFUSED);
    assert_eq!(refused.exit_code(), 7);
    let large = answered(Code::ResourceExhausted, reason::MESSAGE_TOO_LARGE);
    assert_eq!(large.exit_code(), 1);
}

#[test]
fn every_reason_says_what_to_do_next_unless_it_is_said_elsewhere() {
    // By the violations, the ticket, the code, the resource that is named, and the refusal's own text.
    let elsewhere = [
        reason::FIELDS_INVALID,
        reason::OUTCOME_UNKNOWN,
        reason::DEADLINE_PASSED,
        reason::RESOURCE_NOT_FOUND,
        reason::PURPOSE_REFUSED,
    ];
    for (reason, _) in reason::ALL {
        let covered = elsewhere.contains(reason);
        assert!(
            next_step(reason, Code::Unknown).is_some() || covered,
            "{reason}"
        );
    }
    assert!(next_step(reason::DEADLINE_PASSED, Code::DeadlineExceeded).is_some());
}

#[test]
fn all_violations_are_told_one_a_line() {
    let mut details = ErrorDetails::new();
    details
        .set_error_info(reason::FIELDS_INVALID, reason::DOMAIN, [])
        .set_bad_request(vec![
            FieldViolation::new("thread", "7/16-21 is no thread of the catalogue"),
            FieldViolation::new("proof_share", "2 is not within 0.05 to 1.00"),
        ]);
    let status = Status::with_error_details(Code::InvalidArgument, "2 fields are wrong", details);
    let failure = Failure::answered(&status, HOME, false);
    assert_eq!(failure.exit_code(), 2);
    assert_snapshot!(failure.told(), @r"
    clampbook: 2 fields are wrong
      thread: 7/16-21 is no thread of the catalogue
      proof_share: 2 is not within 0.05 to 1.00
    ");
    let written = failure.of_request(&Ticket::new("ID".to_owned())).told();
    let last = written.lines().last();
    assert_eq!(
        last,
        Some("Nothing was changed. Correct this and run it again.")
    );
}

#[test]
fn a_single_violation_is_not_told_twice() {
    let mut details = ErrorDetails::new();
    details.set_bad_request(vec![FieldViolation::new("thread", "is missing")]);
    let text = "thread: is missing";
    let status = Status::with_error_details(Code::InvalidArgument, text, details);
    let told = Failure::answered(&status, HOME, false).told();
    assert_eq!(told.matches("is missing").count(), 1, "{told}");
}

#[test]
fn what_is_not_found_says_where_to_look() {
    for (name, command) in [
        ("jobs/oak", "`clampbook jobs list`"),
        ("jobs/oak/joints/hub", "`clampbook joints list JOB`"),
        ("threads/9/16-99", "`clampbook catalog threads`"),
        ("rules/odd", "`clampbook flags rules`"),
    ] {
        let mut details = ErrorDetails::new();
        details.set_resource_info("", name, "", "");
        let status = Status::with_error_details(Code::NotFound, "no such thing", details);
        let told = Failure::answered(&status, HOME, false).told();
        assert!(told.contains(command), "{name}: {told}");
    }
}

#[test]
fn an_incident_and_a_precondition_are_told() {
    let mut details = ErrorDetails::new();
    details
        .set_error_info(
            reason::BROKEN,
            reason::DOMAIN,
            [("incident".to_owned(), "i-7".to_owned())],
        )
        .add_precondition_failure_violation("state", "jobs/oak/joints/hub position 3", "is empty");
    let status = Status::with_error_details(Code::Internal, "something broke", details);
    assert_snapshot!(Failure::answered(&status, HOME, false).told(), @r"
    clampbook: something broke
      jobs/oak/joints/hub position 3: is empty
      incident: i-7
    Tell the person who runs the server; the incident number finds it in the log.
    ");
}

#[test]
fn a_reader_that_went_away_is_no_failure_but_a_full_disk_is() {
    let gone = Failure::output(&io::Error::from(io::ErrorKind::BrokenPipe));
    assert_eq!(gone.exit_code(), 0);
    let full = Failure::output(&io::Error::from(io::ErrorKind::StorageFull));
    assert_eq!(full.exit_code(), 1);
}

#[test]
fn a_status_without_a_word_still_says_something() {
    let status = Status::new(Code::DataLoss, "");
    let told = Failure::answered(&status, HOME, false).told();
    assert!(
        told.starts_with("clampbook: the server answered DataLoss"),
        "{told}"
    );
}
