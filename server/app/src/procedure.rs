//! Laying a procedure over a joint.

use super::error::unless_wrong;
use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::procedure::{Plan, PlanAsk, Values, plan};
use clampbook_engine::{Catalogue, Fault};

impl Call<'_> {
    /// Plans how a joint is tightened or loosened; `thread` is the one that is backed off, empty when it does not matter.
    /// `found` is what the adapter found wrong already.
    ///
    /// # Errors
    /// All faults as violations, or why a torque is refused here.
    pub fn plan_tightening(
        &self,
        ask: PlanAsk<'_>,
        thread: &str,
        found: Vec<Violation>,
    ) -> Result<Plan, Error> {
        let pitch = pitch(&self.catalogue(), thread);
        let planned = plan(&PlanAsk {
            pitch: pitch.as_ref().ok().copied().flatten(),
            ..ask
        });
        let planned = match (planned, pitch) {
            (Ok(plan), Ok(_)) => Ok(plan),
            (planned, pitch) => {
                let mut faults = planned.err().unwrap_or_default();
                faults.extend(pitch.err());
                Err(faults)
            }
        };
        unless_wrong(planned, "", found)
    }
}

fn pitch(
    catalogue: &Catalogue,
    thread: &str,
) -> Result<Option<clampbook_engine::units::Millimetres>, Fault> {
    if thread.is_empty() {
        return Ok(None);
    }
    match catalogue.thread(thread) {
        Ok(thread) => Ok(Some(thread.pitch())),
        Err(reason) => Err(Fault {
            field: "thread",
            reason,
        }),
    }
}

const MAKERS_VALUES: &str = "The values are the maker's: no computed value is filled in.";
const PUBLISHED_VALUE: &str =
    "Only a torque published for this joint belongs here, never a computed one.";
const ORDER: &str =
    "Orders differ from source to source: an order published for this joint takes precedence.";

/// What to beware of in a plan.
#[must_use]
pub fn cautions(plan: &Plan) -> Vec<&'static str> {
    let mut cautions = Vec::new();
    match plan.procedure.values {
        Values::Makers => cautions.push(MAKERS_VALUES),
        Values::Published => cautions.push(PUBLISHED_VALUE),
        Values::Asked | Values::None => {}
    }
    if plan.steps.iter().any(|step| step.positions.len() > 2) {
        cautions.push(ORDER);
    }
    if !plan.procedure.origin.note.is_empty() {
        cautions.push(plan.procedure.origin.note);
    }
    cautions
}
