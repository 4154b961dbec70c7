//! Judging a joint as described: how it is built, and which published specification it names.

use super::bounds::MOST_JOINTS;
use super::build::violations;
use super::job::full;
use crate::judge::refusal::{Refusal, Violation};
use crate::reason::effective::{self, NotInForce};
use crate::reason::target;
use crate::record::context::Context;
use crate::record::fact::{Fact, Followed, JointAdded, SpecificationStated};
use crate::record::job::Job;
use crate::record::shop::Shop;
use clampbook_engine::Catalogue;

pub(super) fn add(
    job: &Job,
    added: &JointAdded,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    if job.joint(&added.joint).is_some() {
        return Err(Refusal::Exists {
            name: format!("jobs/{}/joints/{}", job.id, added.joint),
        });
    }
    let mut wrong = wrong_build(added, context.shop.catalogue());
    let named = named(added, None, context.shop, &mut wrong);
    if job.assembly(&added.assembly).is_none() {
        wrong.push(Violation::new(
            "joint.assembly",
            format!(
                "jobs/{}/assemblies/{} does not exist; add the assembly first",
                job.id, added.assembly
            ),
        ));
    }
    if !wrong.is_empty() {
        return Err(Refusal::Invalid(wrong));
    }
    if job.joints.len() >= MOST_JOINTS {
        return Err(full(job, "joints", MOST_JOINTS));
    }
    Ok(vec![Fact::JointAdded(following(added, named))])
}

/// What is wrong with how a joint is said to be built.
pub(super) fn wrong_build(added: &JointAdded, catalogue: &Catalogue) -> Vec<Violation> {
    let Some(build) = &added.build else {
        return Vec::new();
    };
    violations(
        build,
        Some(added.hole_kind),
        added.target.as_ref(),
        target::purpose(added).unwrap_or_default(),
        catalogue,
    )
}

/// The specification that a joint names and the revision read; `before` is what the joint named until now.
///
/// Revision 0 methods the one in force, or the one that the joint named before: who corrects something else of a joint
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
    let told = !stated.grade.is_empty() && !stated.lubrication.is_empty();
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
