//! Looks up everything a published torque names.

use super::{
    Catalogue,
    resolve::{kept, strength},
};
use crate::{
    fault::{Fault, FaultReason},
    published::{self, Looked, Published, PublishedAsk},
};

/// What is refused for a seat that is not flat.
const NOT_FLAT: FaultReason = FaultReason::PurposeRefused {
    purpose: "seats that are not flat",
    why: "On a cone or ball seat the seat takes another share of the torque, so T2 = T1 K2/K1 does not hold.",
    instead: "Tighten as published, with the lubrication it is published for.",
};

impl Catalogue {
    /// Examines a published torque: what it implies, whether its unit is believable, and the torque for another lubricant.
    ///
    /// # Errors
    /// All faults, not only the first: unknown names, a published lubrication that nobody knows, seats that are not
    /// flat, purposes for which the formula does not hold.
    pub fn examine<'c>(&'c self, ask: &PublishedAsk<'_>) -> Result<Published<'c>, Vec<Fault>> {
        let mut faults = Vec::new();
        if let Some(refusal) = ask.purpose.refusal() {
            faults.push(Fault::refused(ask.purpose, refusal));
        }
        if !ask.flat_seats {
            faults.push(Fault::new("flat_seats", NOT_FLAT));
        }
        let mut keep = |field, reason| faults.push(Fault::new(field, reason));
        let thread = kept(self.thread(ask.thread), |r| keep("thread", r));
        let grade = match ask.grade.trim() {
            "" => Some(None),
            said => kept(self.grade(said), |r| keep("grade", r)).map(Some),
        };
        let grade = match (thread, grade) {
            (Some(thread), Some(Some(grade))) => {
                kept(strength(grade, thread), |r| keep("grade", r)).map(|s| Some((grade, s)))
            }
            (_, Some(None)) => Some(None),
            _ => None,
        };
        let published = kept(self.lubrication(ask.published_lubrication), |r| {
            keep("published_lubrication", r);
        });
        let wanted = match ask.lubrication.trim() {
            "" => Some(None),
            said => kept(self.lubrication(said), |r| keep("lubrication", r)).map(Some),
        };
        match (thread, grade, published, wanted) {
            (Some(thread), Some(grade), Some(published), Some(wanted)) if faults.is_empty() => {
                let looked = Looked {
                    thread,
                    grade,
                    published,
                    wanted,
                };
                published::examine(ask, &looked).map_err(|fault| vec![fault])
            }
            _ => Err(faults),
        }
    }
}
