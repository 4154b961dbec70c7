//! Asking what a published torque implies, and for another lubricant.

use super::error::unless_wrong;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::published::{Published, PublishedAsk};

impl App {
    /// Examines a published torque and restates it. `found` is what the adapter found wrong already.
    ///
    /// # Errors
    /// All faults as violations, or why it is refused.
    pub(crate) fn restate_torque(
        &self,
        caller: &Caller,
        ask: &PublishedAsk<'_>,
        found: Vec<Violation>,
    ) -> Result<Published<'_>, Error> {
        caller.may(Operation::RestateTorque)?;
        unless_wrong(self.catalogue.examine(ask), "", found)
    }
}
