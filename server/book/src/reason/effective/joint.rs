//! A joint whose target comes from its published specification where one holds, else from the joint itself.

use super::{Value, named, value};
use crate::reason::{shown, target};
use crate::record::fact::{JointAdded, SpecificationStated, Target};
use crate::record::job::{Joint, Position};
use crate::record::shop::Shop;
use clampbook_engine::published::implied_clamp_load;
use clampbook_engine::thread::System;
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::{Catalogue, Purpose, Question, compute};
use std::sync::Arc;

/// A joint with the target in force for it. Rules, orders, fits and the sheet take this one, so that nothing judges a
/// joint by a target that its published specification replaced.
#[derive(Clone, Debug)]
pub struct EffectiveJoint<'a> {
    recorded: &'a Joint,
    shop: &'a Shop,
    published: Option<&'a SpecificationStated>,
    fact: Arc<JointAdded>,
}

impl<'a> EffectiveJoint<'a> {
    /// The joint as the shop's specifications make it now: with the published grade, and with the clamp load that the
    /// published torque makes on its thread with the lubrication that is really used. As recorded where nothing is published.
    #[must_use]
    pub fn new(recorded: &'a Joint, shop: &'a Shop) -> Self {
        let published = named(&recorded.fact, shop).and_then(Result::ok);
        let target =
            published.and_then(|stated| target_of(&recorded.fact, stated, shop.catalogue()));
        let fact = match target {
            None => Arc::clone(&recorded.fact),
            Some(target) => Arc::new(JointAdded {
                target: Some(target),
                ..JointAdded::clone(&recorded.fact)
            }),
        };
        Self {
            recorded,
            shop,
            published,
            fact,
        }
    }

    /// The joint as recorded, with its own target.
    #[must_use]
    pub const fn recorded(&self) -> &'a Joint {
        self.recorded
    }

    /// The shop whose specifications and tables it was made with.
    #[must_use]
    pub const fn shop(&self) -> &'a Shop {
        self.shop
    }

    /// Its description with the target in force.
    #[must_use]
    pub const fn fact(&self) -> &Arc<JointAdded> {
        &self.fact
    }

    /// The target in force.
    #[must_use]
    pub fn target(&self) -> Option<&Target> {
        self.fact.target.as_ref()
    }

    /// The published specification in force.
    #[must_use]
    pub const fn published(&self) -> Option<&'a SpecificationStated> {
        self.published
    }

    /// The value in force.
    #[must_use]
    pub fn value(&self) -> Value<'a> {
        value(&self.fact, self.published, self.shop)
    }

    /// The engine's question for the target in force; nothing for a purpose or a target that this release cannot answer.
    #[must_use]
    pub fn question(&self) -> Option<Question<'a>> {
        let purpose = target::purpose(&self.fact)?;
        target::question(self.target()?, purpose, self.shop.catalogue()).ok()
    }

    /// Family of its thread; metric where none is known.
    #[must_use]
    pub fn family(&self) -> System {
        let own = self.target().map(|target| &target.thread);
        let thread = own.or(self.published.map(|stated| &stated.thread));
        let catalogue = self.shop.catalogue();
        shown::family(thread.and_then(|thread| catalogue.thread(thread).ok()))
    }

    /// Its positions; number 1 is first.
    #[must_use]
    pub fn positions(&self) -> &'a [Arc<Position>] {
        &self.recorded.positions
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
    // What cannot be computed, a load that breaks the bolt for instance, is left to the rules.
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
    (!stated.grade.is_empty() && !stated.lubrication.is_empty()).then(|| Target {
        thread: stated.thread.clone(),
        grade: stated.grade.clone(),
        lubrication: stated.lubrication.clone(),
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
