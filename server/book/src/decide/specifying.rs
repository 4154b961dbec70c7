//! Judging which published specification a joint names.

use crate::effective::{self, NotInForce};
use crate::fact::{Followed, JointAdded, SpecificationStated};
use crate::refusal::Violation;
use crate::shop::Shop;
use crate::target;

/// The specification that a joint names and the revision read; `before` is what the joint named until now.
///
/// Revision 0 means the one in force, or the one that the joint named before: who corrects something else of a joint
/// does not say by that to have read a new revision.
pub(super) fn named(
    added: &JointAdded,
    before: Option<&Followed>,
    shop: &Shop,
    wrong: &mut Vec<Violation>,
) -> Option<Followed> {
    let said = added.specification.as_ref()?;
    let own = before
        .filter(|before| before.specification == said.specification)
        .map(|before| before.revision);
    match effective::named(added, shop)? {
        Err(NotInForce::Withdrawn(_)) if own.is_some() => {}
        Err(why) => {
            wrong.push(effective::not_in_force(said, why));
            return None;
        }
        Ok(stated) => wrong.extend(untold(added, stated)),
    }
    let newest = shop
        .specification(&said.specification)?
        .newest
        .fact
        .revision;
    let revision = match said.revision {
        0 => own.unwrap_or(newest),
        given if given == newest || Some(given) == own => given,
        given => {
            wrong.push(Violation::new(
                "joint.specification_revision",
                format!("is {given}; revision {newest} is in force: read it and say {newest}"),
            ));
            return None;
        }
    };
    Some(Followed {
        specification: said.specification.clone(),
        revision,
    })
}

/// The target that is missing, where the publication does not say all that one needs.
fn untold(added: &JointAdded, stated: &SpecificationStated) -> Option<Violation> {
    let is_needed = target::purpose(added).is_some_and(|purpose| purpose.refusal().is_none());
    let told = !stated.grade.is_empty() && !stated.condition.is_empty();
    (is_needed && added.target.is_none() && !told).then(|| {
        Violation::new(
            "joint.target",
            format!(
                "is required: specifications/{} does not state both grade and lubrication",
                stated.specification
            ),
        )
    })
}

/// The joint with what it names.
pub(super) fn following(added: &JointAdded, named: Option<Followed>) -> JointAdded {
    JointAdded {
        specification: named,
        ..added.clone()
    }
}
