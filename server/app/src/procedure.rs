//! Laying a procedure over a joint.

use super::error::unless_wrong;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::procedure::{Plan, PlanAsk, plan};
use clampbook_engine::{Catalogue, Fault};

impl App {
    /// Plans how a joint is tightened or loosened; `thread` is the one that is backed off, empty when it does not matter.
    /// `found` is what the adapter found wrong already.
    ///
    /// # Errors
    /// All faults as violations, or why a torque is refused here.
    pub fn plan_tightening(
        &self,
        caller: &Caller,
        ask: PlanAsk<'_>,
        thread: &str,
        found: Vec<Violation>,
    ) -> Result<Plan, Error> {
        caller.may(Operation::PlanTightening)?;
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
