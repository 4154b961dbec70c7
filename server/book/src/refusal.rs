//! Why a command was not accepted. Nothing is written for a refused command, and refusals are not remembered.

use std::fmt;

/// One field that is not as it must be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Violation {
    /// Path of the field in the request, in the contract's spelling.
    pub field: String,
    /// What was wrong and what is allowed, one sentence.
    pub wrong: String,
}

impl Violation {
    /// Says what is wrong with a field.
    pub fn new(field: impl Into<String>, wrong: impl Into<String>) -> Self {
        Self {
            field: field.into(),
            wrong: wrong.into(),
        }
    }

    /// The same of a line of a table: the field `steps[1].torque` is item 2 of the column `steps`.
    #[must_use]
    pub fn in_table(&self, line: u64) -> Self {
        let of_column = |field: &str| field.find(['[', '.']).unwrap_or(field.len());
        let (column, inner) = self.field.split_at(of_column(&self.field));
        let index = inner
            .strip_prefix('[')
            .and_then(|inner| inner.split(']').next())
            .and_then(|index| index.parse::<usize>().ok());
        let item = index.map_or_else(String::new, |index| format!("item {}: ", index + 1));
        Self::new(
            "csv",
            format!("line {line}, column {column}: {item}{}", self.wrong),
        )
    }

    /// The same of a field under another path: `under` is left out at its beginning.
    #[must_use]
    pub fn without(&self, under: &str) -> Self {
        let field = self.field.strip_prefix(under).unwrap_or(&self.field);
        Self::new(field, &self.wrong)
    }
}

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
