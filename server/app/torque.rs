//! Asking how tight.

use super::error::{from_faults, violations_of};
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::{Answer, Ask, Question};

impl App {
    /// Computes a torque and hands question and answer to `show`, which makes what the adapter carries. `found` is what the
    /// adapter found wrong already.
    ///
    /// # Errors
    /// All violations together, or the refused purpose.
    pub(crate) fn compute_torque<T>(
        &self,
        caller: &Caller,
        ask: &Ask<'_>,
        mut found: Vec<Violation>,
        show: impl FnOnce(&Question<'_>, &Answer<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::ComputeTorque)?;
        match self.catalogue.resolve(ask) {
            Ok(question) if found.is_empty() => {
                Ok(show(&question, &clampbook_engine::compute(&question)))
            }
            Ok(_) => Err(Error::invalid(found)),
            Err(faults) if found.is_empty() => Err(from_faults(&faults, "")),
            Err(faults) => {
                found.extend(violations_of(&faults, ""));
                Err(Error::invalid(found))
            }
        }
    }
}
