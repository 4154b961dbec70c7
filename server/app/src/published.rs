//! Asking what a published torque implies, and for another lubricant.

use super::error::unless_wrong;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::published::{Published, PublishedAsk};

impl App {
    /// Examines a published torque, restates it and hands it to `show`, which makes what the adapter carries. `found` is what
    /// the adapter found wrong already.
    ///
    /// # Errors
    /// All faults as violations, or why it is refused.
    pub fn restate_torque<T>(
        &self,
        caller: &Caller,
        ask: &PublishedAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&Published<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::RestateTorque)?;
        let catalogue = self.catalogue();
        unless_wrong(catalogue.examine(ask), "", found).map(|published| show(&published))
    }
}
