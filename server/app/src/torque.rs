//! Asking how tight.

use super::error::unless_wrong;
use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::{Answer, Ask, Question};

impl Call<'_> {
    /// Computes a torque and hands question and answer to `show`, which makes what the adapter carries. `found` is what the
    /// adapter found wrong already.
    ///
    /// # Errors
    /// All violations together, or the refused purpose.
    pub fn compute_torque<T>(
        &self,
        ask: &Ask<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&Question<'_>, &Answer<'_>) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let question = unless_wrong(catalogue.resolve(ask), "", found)?;
        Ok(show(&question, &clampbook_engine::compute(&question)))
    }
}
