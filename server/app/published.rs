//! Asking what a published torque implies, and for another lubricant.

use super::error::from_faults;
use super::{App, Caller, Error, Operation};
use clampbook_engine::published::{Published, PublishedAsk};

impl App {
    /// Examines a published torque and restates it.
    ///
    /// # Errors
    /// All faults as violations, or why it is refused.
    pub(crate) fn restate_torque(
        &self,
        caller: &Caller,
        ask: &PublishedAsk<'_>,
    ) -> Result<Published<'_>, Error> {
        caller.may(Operation::RestateTorque)?;
        self.catalogue
            .examine(ask)
            .map_err(|faults| from_faults(&faults, ""))
    }
}
