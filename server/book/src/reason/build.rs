//! From how a joint is built to the engine's questions and answers about it.

use crate::reason::sizes::Sizes;
use crate::reason::target;
use crate::reason::violation::Violation;
use crate::record::fact::{CastellatedNut, JointAdded, JointBuild};
use clampbook_engine::joint::check::JointFaults;
use clampbook_engine::joint::{
    CastleAnswer, CastleAsk, JointAsk, JointCheck, StretchAsk, align, check_joint,
};
use clampbook_engine::strength::limits::Fit;
use clampbook_engine::{Ask, Catalogue, Fault, compute};

pub(crate) fn of_stack(faults: &JointFaults) -> Vec<Violation> {
    under("joint.build.", &faults.stack)
}

pub(crate) fn under(path: &str, faults: &[Fault]) -> Vec<Violation> {
    faults
        .iter()
        .map(|fault| Violation::new(format!("{path}{}", fault.field), fault.reason.to_string()))
        .collect()
}

/// The check of a joint with the fastener that belongs there; nothing when nobody said how it is built.
///
/// # Errors
/// What this release cannot look up of a record that an earlier one took.
pub fn check<'c>(
    joint: &JointAdded,
    catalogue: &'c Catalogue,
) -> Option<Result<JointCheck<'c>, Vec<Violation>>> {
    check_at(joint, joint.build.as_ref()?, catalogue)
}

/// The same check with another fastener.
///
/// # Errors
/// As for [`check`].
pub fn check_with<'c>(
    joint: &JointAdded,
    sizes: &Sizes,
    catalogue: &'c Catalogue,
) -> Option<Result<JointCheck<'c>, Vec<Violation>>> {
    check_at(joint, &sizes.in_place_of(joint.build.as_ref()?), catalogue)
}

fn check_at<'c>(
    joint: &JointAdded,
    build: &JointBuild,
    catalogue: &'c Catalogue,
) -> Option<Result<JointCheck<'c>, Vec<Violation>>> {
    let target = joint.target.as_ref()?;
    let torque = target::ask(target, target::purpose(joint)?);
    let question = catalogue.resolve_joint(&joint_ask(build, torque));
    Some(question.map(|q| check_joint(&q)).map_err(|faults| {
        let mut wrong = under("joint.target.", &faults.torque);
        wrong.extend(of_stack(&faults));
        wrong
    }))
}

/// What the slots of its castellated nut mean; nothing without one.
#[must_use]
pub fn slots<'c>(joint: &JointAdded, catalogue: &'c Catalogue) -> Option<CastleAnswer<'c>> {
    let (build, target) = (joint.build.as_ref()?, joint.target.as_ref()?);
    let castle = build.castle.as_ref()?;
    let torque = target::ask(target, target::purpose(joint)?);
    let ask = joint_ask(build, torque);
    let question = catalogue.resolve_castle(&castle_ask(castle, &ask, catalogue));
    question.ok().map(|question| align(&question))
}

pub(crate) fn joint_ask<'a>(build: &'a JointBuild, torque: Ask<'a>) -> JointAsk<'a> {
    JointAsk {
        torque,
        stack: &build.stack,
        fit: if build.close_fit {
            Fit::Close
        } else {
            Fit::Medium
        },
        shear_plane_mm: build.shear_plane_mm,
    }
}

pub(crate) fn castle_ask<'a>(
    castle: &CastellatedNut,
    ask: &JointAsk<'a>,
    catalogue: &Catalogue,
) -> CastleAsk<'a> {
    // Without a published torque the slots are still counted; at which torque does not matter for that.
    let computed = || {
        catalogue
            .resolve(&ask.torque)
            .map_or(1.0, |question| compute(&question).torque.get())
    };
    CastleAsk {
        stretch: StretchAsk {
            torque: ask.torque,
            stack: ask.stack,
            ..StretchAsk::default()
        },
        slots: castle.slots,
        holes: castle.holes,
        minimum_torque_nm: castle.minimum_torque_nm.unwrap_or_else(computed),
        maximum_torque_nm: castle.maximum_torque_nm,
        prevailing_torque_nm: None,
        to_slot_degrees: None,
    }
}
