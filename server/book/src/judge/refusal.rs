//! Why a command was not accepted. Nothing is written for a refused command, and refusals are not remembered.

pub use crate::reason::violation::Violation;
use std::fmt;

/// Why a command was not accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Fields are wrong; every one is listed.
    Invalid(Vec<Violation>),
    /// Nothing has that name.
    NotFound {
        /// The resource name that was asked for.
        name: String,
    },
    /// Something has that name already.
    Exists {
        /// The resource name that is taken.
        name: String,
    },
    /// The record is in a state that does not allow this.
    State {
        /// Resource name of what is in the wrong state.
        subject: String,
        /// What is the case and what to do instead.
        explanation: String,
    },
    /// Somebody wrote in between.
    Stale {
        /// Resource name of what has changed.
        subject: String,
        /// The etag given.
        given: String,
        /// The etag in force.
        current: String,
    },
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Invalid(violations) => {
                for (i, v) in violations.iter().enumerate() {
                    let gap = if i == 0 { "" } else { "; " };
                    write!(f, "{gap}{}: {}", v.field, v.wrong)?;
                }
                Ok(())
            }
            Self::NotFound { name } => write!(f, "{name} does not exist"),
            Self::Exists { name } => write!(f, "{name} exists already"),
            Self::State {
                subject,
                explanation,
            } => write!(f, "{subject}: {explanation}"),
            Self::Stale {
                subject,
                given,
                current,
            } => write!(
                f,
                "{subject} has changed: etag {given} was given, {current} is in force"
            ),
        }
    }
}

impl std::error::Error for Refusal {}
