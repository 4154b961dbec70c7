//! Asking how tight.

use super::error::from_faults;
use super::{App, Caller, Error, Operation};
use clampbook_engine::{Answer, Ask, Question};

impl App {
    /// Computes a torque and hands question and answer to `show`, which makes what the adapter carries.
    ///
    /// # Errors
    /// All faults of the question as violations, or the refused purpose.
    pub(crate) fn compute_torque<T>(
        &self,
        caller: &Caller,
        ask: &Ask<'_>,
        show: impl FnOnce(&Question<'_>, &Answer<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::ComputeTorque)?;
        let question = self
            .catalogue
            .resolve(ask)
            .map_err(|faults| from_faults(&faults, ""))?;
        Ok(show(&question, &clampbook_engine::compute(&question)))
    }
}
