//! What a published torque does on the fasteners really found, with the lubrication really used.

use super::EffectiveJoint;
use super::joint::clamp_load;
use crate::reason::target;
use crate::record::fact::{JointAdded, SpecificationStated, Target};
use crate::record::ids::PositionNumber;
use clampbook_engine::published::{PublishedAsk, Restated};
use clampbook_engine::quantity::Torque;
use clampbook_engine::{Answer, Catalogue, Fault, Purpose, compute};

/// What a published torque does on one fastener.
#[derive(Clone, Debug)]
pub struct OnFastener<'c> {
    /// The position it goes into; 0 for a fastener of the grade that is specified.
    pub position: PositionNumber,
    /// Its grade as far as it was shown; empty when unknown.
    pub grade: String,
    /// Clamp load, scatter and checks at the published torque, or why they are not known.
    pub outcome: Result<Answer<'c>, Vec<Fault>>,
}

/// What the published torque does on the fastener specified and on each that is to go in; nothing where the published steps
/// end in an angle, or where torque and clamp load do not go together.
#[must_use]
pub fn fasteners<'s>(joint: &EffectiveJoint<'s>) -> Vec<OnFastener<'s>> {
    let catalogue = joint.shop().catalogue();
    let Some(((stated, target), purpose)) = joint
        .published()
        .zip(joint.target())
        .zip(target::purpose(joint.fact()))
    else {
        return Vec::new();
    };
    let Some(load) = clamp_load(target, stated, purpose, catalogue) else {
        return Vec::new();
    };
    std::iter::once((0, target.grade.clone()))
        .chain(found(joint))
        .map(|(position, grade)| OnFastener {
            outcome: on(target, load, &grade, purpose, catalogue),
            position,
            grade,
        })
        .collect()
}

/// Grade of the fastener that is to go into each position that one came out of.
fn found(joint: &EffectiveJoint<'_>) -> impl Iterator<Item = (PositionNumber, String)> {
    joint
        .positions()
        .iter()
        .filter(|position| position.removal().is_some() && !position.is_left_out())
        .map(|position| (position.number, position.grade().to_owned()))
}

fn on<'c>(
    target: &Target,
    clamp_load_n: f64,
    grade: &str,
    purpose: Purpose,
    catalogue: &'c Catalogue,
) -> Result<Answer<'c>, Vec<Fault>> {
    let target = Target {
        grade: grade.into(),
        proof_share: None,
        clamp_load_n: Some(clamp_load_n),
        ..target.clone()
    };
    target::question(&target, purpose, catalogue).map(|question| compute(&question))
}

/// The published torque restated for the lubrication of the joint; nothing where it is the one stated, where either is not
/// known, or where the formula does not hold.
#[must_use]
pub fn restated<'c>(
    joint: &JointAdded,
    stated: &SpecificationStated,
    catalogue: &'c Catalogue,
) -> Option<Restated<'c>> {
    let target = joint.target.as_ref().filter(|t| t.nut_factor.is_none())?;
    let own = catalogue.lubrication(&target.lubrication).ok()?;
    let published = catalogue.lubrication(&stated.lubrication).ok()?;
    if own.id() == published.id() {
        return None;
    }
    let ask = PublishedAsk {
        thread: &stated.thread,
        grade: "",
        torque: Torque::parse(&stated.final_torque()?.said).ok()?,
        published_lubrication: &stated.lubrication,
        lubrication: &target.lubrication,
        flat_seats: true,
        purpose: target::purpose(joint)?,
        unit_is_confirmed: stated.unit_confirmed,
    };
    catalogue.examine(&ask).ok()?.restated
}
