//! Asking what a published torque implies, and for another lubricant.

use super::error::unless_wrong;
use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::Caution;
use clampbook_engine::published::{Published, PublishedAsk, UnitCheck};

impl Call<'_> {
    /// Examines a published torque, restates it and hands it to `show`, which makes what the adapter carries. `found` is what
    /// the adapter found wrong already.
    ///
    /// # Errors
    /// All faults as violations, or why it is refused.
    pub fn restate_torque<T>(
        &self,
        ask: &PublishedAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&Published<'_>) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        unless_wrong(catalogue.examine(ask), "", found).map(|published| show(&published))
    }
}

const SHORT_FORM: &str = "T2 = T1 K2/K1 at the same clamp load: flat seats, nut or head turned freely, no prevailing torque.";
const UNIT_NOT_CHECKED: &str = "No grade was given, so the unit was not checked.";
const NOT_PUBLISHED: &str = "Restated, not published: with the lubrication it is published for, the published value takes precedence.";
const ASK_UNIT: &str = "The published torque would give a clamp load that is not plausible: check which unit it is in, then confirm it.";
const CONFIRMED: &str =
    "The clamp load is not plausible for this proof load; somebody has confirmed the unit.";

/// What a restated torque rests on.
#[must_use]
pub fn assumptions(found: &Published<'_>) -> Vec<&'static str> {
    let mut assumptions = vec![SHORT_FORM];
    if matches!(found.unit, UnitCheck::NotChecked) {
        assumptions.push(UNIT_NOT_CHECKED);
    }
    assumptions
}

/// What to beware of in a published torque and in what is made of it.
#[must_use]
pub fn cautions(found: &Published<'_>) -> Vec<&'static str> {
    let mut cautions = Vec::new();
    match found.unit {
        UnitCheck::NotChecked | UnitCheck::Believable => {}
        UnitCheck::Ask { .. } => cautions.push(ASK_UNIT),
        UnitCheck::Confirmed => cautions.push(CONFIRMED),
    }
    if found.restated.is_some() {
        cautions.push(NOT_PUBLISHED);
    }
    if found.uses_memory() {
        cautions.push(Caution::FromMemory.text());
    }
    cautions
}
