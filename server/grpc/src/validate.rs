//! Collects what is wrong with a request: the checks of the use cases, and beside them those of what only the wire has.

use clampbook_app::Error;
use clampbook_book::refusal::Violation;
use std::ops::{Deref, DerefMut};

/// Violations found so far.
#[derive(Default)]
pub(crate) struct Validator(clampbook_app::Validator);

impl Deref for Validator {
    type Target = clampbook_app::Validator;

    fn deref(&self) -> &Self::Target {
        &self.0
    }
}

impl DerefMut for Validator {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.0
    }
}

impl Validator {
    /// The violations found.
    pub(crate) fn into_violations(self) -> Vec<Violation> {
        self.0.into_violations()
    }

    /// The value, if nothing was wrong.
    ///
    /// # Errors
    /// All violations found.
    pub(crate) fn finish<T>(self, value: Option<T>) -> Result<T, Error> {
        self.0.finish(value)
    }
}
