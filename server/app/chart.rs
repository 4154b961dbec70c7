//! Asking for a picture.

use super::error::from_faults;
use super::{App, Caller, Error, Operation};
use clampbook_engine::{Ask, quantity::TorqueUnit};
use clampbook_paper::chart::{self, Chart};

impl App {
    /// Draws clamp load against torque for one joint.
    ///
    /// # Errors
    /// All faults of the question as violations of `ask`, or the refused purpose.
    pub(crate) fn render_chart(
        &self,
        caller: &Caller,
        ask: &Ask<'_>,
        unit: TorqueUnit,
    ) -> Result<Chart, Error> {
        caller.may(Operation::RenderChart)?;
        let question = self
            .catalogue
            .resolve(ask)
            .map_err(|faults| from_faults(&faults, "ask."))?;
        let answer = clampbook_engine::compute(&question);
        Ok(chart::render(&question, &answer, unit))
    }
}
