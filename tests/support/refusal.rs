//! What a refusal says, with what must hold of every one: a known reason, its code, and exactly one `ErrorInfo`.

use std::collections::HashMap;

use clampbook_api::reason;
use tonic::{Code, Status};
use tonic_types::{ErrorDetail, StatusExt};

/// A refusal, taken apart.
#[derive(Debug)]
pub(crate) struct Refusal {
    pub(crate) code: Code,
    pub(crate) reason: String,
    pub(crate) message: String,
    pub(crate) metadata: HashMap<String, String>,
    /// Field paths with what is wrong there.
    pub(crate) wrong: Vec<(String, String)>,
    /// What state stands in the way of.
    pub(crate) preconditions: Vec<String>,
    /// What was not found or is there already.
    pub(crate) resource: Option<String>,
    /// Whether the server said when to try again.
    pub(crate) says_when: bool,
}

impl Refusal {
    /// Reads a status.
    pub(crate) fn of(status: &Status) -> Self {
        let details = status
            .check_error_details_vec()
            .unwrap_or_else(|error| panic!("details of {status:?} cannot be read: {error}"));
        let mut refusal = Self {
            code: status.code(),
            reason: String::new(),
            message: status.message().to_owned(),
            metadata: HashMap::new(),
            wrong: Vec::new(),
            preconditions: Vec::new(),
            resource: None,
            says_when: false,
        };
        let mut infos = 0;
        for detail in details {
            match detail {
                ErrorDetail::ErrorInfo(info) => {
                    infos += 1;
                    assert_eq!(info.domain, reason::DOMAIN);
                    refusal.reason = info.reason;
                    refusal.metadata = info.metadata;
                }
                ErrorDetail::BadRequest(bad) => {
                    let violations = bad.field_violations.into_iter();
                    refusal
                        .wrong
                        .extend(violations.map(|v| (v.field, v.description)));
                }
                ErrorDetail::PreconditionFailure(failed) => {
                    let subjects = failed.violations.into_iter().map(|v| v.subject);
                    refusal.preconditions.extend(subjects);
                }
                ErrorDetail::ResourceInfo(info) => refusal.resource = Some(info.resource_name),
                ErrorDetail::RetryInfo(_) => refusal.says_when = true,
                _ => {}
            }
        }
        assert_eq!(infos, 1, "exactly one ErrorInfo in {status:?}");
        assert!(
            reason::ALL
                .iter()
                .any(|(known, _)| *known == refusal.reason),
            "{} is not in the table of reasons",
            refusal.reason
        );
        assert!(!refusal.message.is_empty(), "{status:?} says nothing");
        refusal
    }

    /// Asserts code and reason.
    #[track_caller]
    pub(crate) fn is(&self, code: Code, reason: &str) -> &Self {
        assert_eq!(
            (self.code, self.reason.as_str()),
            (code, reason),
            "{self:?}"
        );
        self
    }

    /// Asserts that fields are invalid, and exactly these.
    #[track_caller]
    pub(crate) fn names(&self, fields: &[&str]) -> &Self {
        self.is(Code::InvalidArgument, reason::FIELDS_INVALID);
        let mut named: Vec<&str> = self.wrong.iter().map(|(field, _)| field.as_str()).collect();
        named.sort_unstable();
        let mut fields = fields.to_vec();
        fields.sort_unstable();
        assert_eq!(named, fields, "{self:?}");
        self
    }

    /// Asserts that the message or one of the violations says this.
    #[track_caller]
    pub(crate) fn says(&self, words: &str) -> &Self {
        let said =
            self.message.contains(words) || self.wrong.iter().any(|(_, why)| why.contains(words));
        assert!(said, "{words:?} is not said by {self:?}");
        self
    }
}
