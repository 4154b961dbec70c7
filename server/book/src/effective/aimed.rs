//! A joint whose target comes from its published specification.

use super::published;
use crate::fact::{JointAdded, SpecificationStated, Target};
use crate::job::Joint;
use crate::shop::Shop;
use crate::target;
use clampbook_engine::published::implied_clamp_load;
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::{Catalogue, Purpose, compute};
use std::borrow::Cow;
use std::sync::Arc;

/// The joint with the published grade, and with the clamp load that the published torque makes on its thread with the
/// lubrication that is really used. As it is where nothing is published.
#[must_use]
pub fn aimed<'j>(joint: &'j Joint, shop: &Shop) -> Cow<'j, Joint> {
    let target = published(&joint.fact, shop)
        .and_then(|stated| target_of(&joint.fact, stated, shop.catalogue()));
    match target {
        None => Cow::Borrowed(joint),
        Some(target) => Cow::Owned(Joint {
            fact: Arc::new(JointAdded {
                target: Some(target),
                ..JointAdded::clone(&joint.fact)
            }),
            ..joint.clone()
        }),
    }
}

fn target_of(
    joint: &JointAdded,
    stated: &SpecificationStated,
    catalogue: &Catalogue,
) -> Option<Target> {
    let purpose = target::purpose(joint)?;
    let own = joint.target.clone().or_else(|| stated_target(stated))?;
    let graded = match stated.grade.as_str() {
        "" => own.clone(),
        grade => Target {
            grade: grade.into(),
            ..own.clone()
        },
    };
    // What cannot be computed with, a load that breaks the bolt for instance, is left to the rules.
    let good = |target: &Target| target::question(target, purpose, catalogue).is_ok();
    let loaded = clamp_load(&graded, stated, purpose, catalogue).map(|load| Target {
        proof_share: None,
        clamp_load_n: Some(load),
        ..graded.clone()
    });
    loaded
        .filter(good)
        .or_else(|| Some(graded).filter(good))
        .or(Some(own))
}

/// A target where the joint says none and the publication says all that one needs.
fn stated_target(stated: &SpecificationStated) -> Option<Target> {
    (!stated.grade.is_empty() && !stated.condition.is_empty()).then(|| Target {
        thread: stated.thread.clone(),
        grade: stated.grade.clone(),
        condition: stated.condition.clone(),
        proof_share: None,
        clamp_load_n: None,
        nut_factor: None,
        nut_grade: None,
        baked: false,
    })
}

/// Clamp load that the published torque makes with the joint's lubrication, in newtons; none where the steps end in an
/// angle.
pub(super) fn clamp_load(
    target: &Target,
    stated: &SpecificationStated,
    purpose: Purpose,
    catalogue: &Catalogue,
) -> Option<f64> {
    let torque = NewtonMetres::new(stated.final_torque()?.nm).ok()?;
    // Which share or load is aimed at does not matter for the nut factor.
    let any = Target {
        proof_share: None,
        clamp_load_n: None,
        ..target.clone()
    };
    let question = target::question(&any, purpose, catalogue).ok()?;
    let nut_factor = compute(&question).nut_factor;
    Some(implied_clamp_load(torque, nut_factor, question.thread().diameter()).get())
}
