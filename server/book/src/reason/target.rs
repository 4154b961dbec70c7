//! From a joint's description to the engine's question and answer.

use crate::record::fact::{JointAdded, Target};
use clampbook_engine::{Answer, Ask, Catalogue, Fault, Purpose, Question};

/// The engine's question for a target.
///
/// # Errors
/// Every fault of the target, each naming its field.
pub fn question<'c>(
    target: &Target,
    purpose: Purpose,
    catalogue: &'c Catalogue,
) -> Result<Question<'c>, Vec<Fault>> {
    catalogue.resolve(&ask(target, purpose))
}

/// A target in the engine's words.
pub(crate) fn ask(target: &Target, purpose: Purpose) -> Ask<'_> {
    Ask {
        thread: &target.thread,
        grade: &target.grade,
        lubrication: &target.lubrication,
        proof_share: target.proof_share,
        clamp_load_n: target.clamp_load_n,
        nut_factor: target.nut_factor,
        nut_grade: target.nut_grade.as_deref(),
        purpose,
        baked: target.baked,
    }
}

/// What the joint is for; nothing if the record holds a word that this release does not know.
#[must_use]
pub fn purpose(joint: &JointAdded) -> Option<Purpose> {
    Purpose::from_id(&joint.purpose)
}

/// The torque of a joint; nothing for a refused purpose or a target the catalogue cannot answer.
#[must_use]
pub fn answer<'c>(joint: &JointAdded, catalogue: &'c Catalogue) -> Option<Answer<'c>> {
    let target = joint.target.as_ref()?;
    let question = question(target, purpose(joint)?, catalogue).ok()?;
    Some(clampbook_engine::compute(&question))
}
