//! Collects what is wrong with a request: the checks of the use cases, and beside them those of what only the wire has.

use clampbook_app::Error;
use clampbook_book::refusal::Violation;
use std::ops::{Deref, DerefMut};

/// Violations found so far.
#[derive(Default)]
pub(crate) struct Check(clampbook_app::Check);

impl Deref for Check {
    type Target = clampbook_app::Check;

    fn deref(&self) -> &Self::Target {
        &self.0
    }
}

impl DerefMut for Check {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.0
    }
}

impl Check {
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
