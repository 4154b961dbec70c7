//! Asking how tight.

use super::error::unless_wrong;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::{Answer, Ask, Question};

impl App {
    /// Computes a torque and hands question and answer to `show`, which makes what the adapter carries. `found` is what the
    /// adapter found wrong already.
    ///
    /// # Errors
    /// All violations together, or the refused purpose.
    pub fn compute_torque<T>(
        &self,
        caller: &Caller,
        ask: &Ask<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&Question<'_>, &Answer<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::ComputeTorque)?;
        let catalogue = self.catalogue();
        let question = unless_wrong(catalogue.resolve(ask), "", found)?;
        Ok(show(&question, &clampbook_engine::compute(&question)))
    }
}
