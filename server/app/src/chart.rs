//! Asking for a picture.

use super::error::unless_wrong;
use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::{Ask, quantity::TorqueUnit};
use clampbook_paper::chart::{self, Chart};

impl Call<'_> {
    /// Draws clamp load against torque for one joint, in the unit that is usual at its thread if no other is asked for. `found` is what the adapter found wrong already.
    ///
    /// # Errors
    /// All faults of the question as violations of `ask`, or the refused purpose.
    pub fn render_chart(
        &self,
        ask: &Ask<'_>,
        unit: Option<TorqueUnit>,
        found: Vec<Violation>,
    ) -> Result<Chart, Error> {
        let catalogue = self.catalogue();
        let question = unless_wrong(catalogue.resolve(ask), "ask.", found)?;
        let answer = clampbook_engine::compute(&question);
        let unit = unit.unwrap_or_else(|| TorqueUnit::usual(question.thread().system()));
        Ok(chart::render(&question, &answer, unit))
    }
}
