//! Whether a joint holds: the long form, its weaker partner, lengths.

use crate::stack::{self, Beside, beside};
use crate::words::Word;
use crate::{Validator, torque};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::answers;
use clampbook_book::refusal::Violation;
use clampbook_engine::joint::{
    Engagement, GripStack, JointAsk, JointCheck, JointQuestion, LengthAsk, LengthQuestion, Lengths,
    Partner,
};
use clampbook_engine::long_form::{LongAnswer, LongAsk, LongQuestion};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::strength::limits::Fit;
use clampbook_engine::thread::System;
use clampbook_engine::{Purpose, show};

// What is not said is a value of its own.
impl Word for Fit {
    type Wire = wire::ThreadFit;

    fn from_wire(word: wire::ThreadFit) -> Option<Self> {
        Some(match word {
            wire::ThreadFit::Unspecified => Self::Medium,
            wire::ThreadFit::Close => Self::Close,
        })
    }

    fn to_wire(self) -> wire::ThreadFit {
        match self {
            Self::Medium => wire::ThreadFit::Unspecified,
            Self::Close => wire::ThreadFit::Close,
        }
    }
}

/// Computes a torque by the long form.
pub(crate) fn compute_long_form(
    call: Call<'_>,
    request: wire::ComputeLongFormTorqueRequest,
) -> Result<wire::ComputeLongFormTorqueResponse, Error> {
    let (ask, found) = long_form(&request);
    call.long_form(&ask, found, |question, answer| {
        let unit = torque::unit_of(request.torque_unit(), question.thread());
        long_form_answer(question, answer, unit)
    })
}

/// Checks a joint.
pub(crate) fn check_joint(
    call: Call<'_>,
    request: wire::CheckJointRequest,
) -> Result<wire::CheckJointResponse, Error> {
    let stack = stack::from_wire(request.stack.as_ref());
    let (ask, found) = joint(&request, &stack);
    let asked = (request.torque.as_ref()).map(wire::ComputeTorqueRequest::torque_unit);
    call.joint_check(&ask, found, |question, joint| {
        let unit = torque::unit_of(asked.unwrap_or_default(), question.torque.thread());
        joint_answer(question, joint, unit)
    })
}

/// Fits lengths.
pub(crate) fn fit_length(
    call: Call<'_>,
    request: wire::FitLengthRequest,
) -> Result<wire::FitLengthResponse, Error> {
    let stack = stack::from_wire(request.stack.as_ref());
    let (ask, found) = length(&request, &stack);
    call.fit_length(&ask, found, length_answer)
}

/// The question of a long form request, and what was found wrong with it so far.
fn long_form(request: &wire::ComputeLongFormTorqueRequest) -> (LongAsk<'_>, Vec<Violation>) {
    let mut check = Validator::default();
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    let _ = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let ask = LongAsk {
        thread: &request.thread,
        grade: &request.grade,
        thread_friction: request.thread_friction,
        bearing_friction: request.bearing_friction,
        friction_low: request.friction_low,
        friction_high: request.friction_high,
        bearing_diameter_mm: request.bearing_diameter_mm,
        cone_half_angle_degrees: request.cone_half_angle_degrees,
        lubricated: request.lubricated,
        proof_share: request.proof_share,
        yield_share: request.yield_share,
        clamp_load_n: request.clamp_load_n,
        purpose: purpose.unwrap_or_default(),
    };
    (ask, check.into_violations())
}

/// The answer by the long form on the wire.
fn long_form_answer(
    question: &LongQuestion<'_>,
    answer: &LongAnswer,
    unit: TorqueUnit,
) -> wire::ComputeLongFormTorqueResponse {
    let Beside {
        checks,
        assumptions,
        cautions,
        sources,
    } = beside(&answer.remarks);
    wire::ComputeLongFormTorqueResponse {
        torque_nm: answer.torque.get(),
        clamp_load_n: answer.clamp_load.get(),
        helix_torque_nm: answer.helix_torque.get(),
        thread_torque_nm: answer.thread_torque.get(),
        bearing_torque_nm: answer.bearing_torque.get(),
        loosening_torque_nm: answer.loosening_torque_nm,
        equivalent_nut_factor: answer.equivalent_nut_factor,
        working_load_n: answer.working_load.get(),
        combined_plastic_mpa: answer.combined_plastic.get(),
        combined_elastic_mpa: answer.combined_elastic.get(),
        yield_mpa: answer.yield_stress.map(|stress| stress.get()),
        scatter: Some(wire::Scatter {
            minimum_clamp_load_n: answer.scatter.0.get(),
            maximum_clamp_load_n: answer.scatter.1.get(),
            relative_scatter: answer.relative_scatter,
            text: show::load_range(answer.scatter.0, answer.scatter.1, unit),
        }),
        friction: answer.friction.map(|spread| wire::FrictionSpread {
            low_torque_nm: spread.low_torque.get(),
            high_torque_nm: spread.high_torque.get(),
            minimum_clamp_load_n: spread.minimum_clamp_load.get(),
            maximum_clamp_load_n: spread.maximum_clamp_load.get(),
            text: answers::friction(&spread, unit),
        }),
        governed_by: answer.governed_by.id().into(),
        torque_text: show::torque(answer.torque, unit),
        clamp_load_text: show::load(answer.clamp_load, unit),
        equivalent_nut_factor_text: show::ratio(answer.equivalent_nut_factor),
        target_text: answers::long_target(answer, unit),
        parts_text: answers::parts(answer, unit),
        stress_text: answers::stress(answer),
        thread: question.thread().designation().into(),
        grade: question.grade().full_name().into(),
        sources,
        assumptions,
        cautions,
        checks,
    }
}

/// The question of a joint's request, and what was found wrong with it so far.
fn joint<'a>(
    request: &'a wire::CheckJointRequest,
    stack: &'a GripStack,
) -> (JointAsk<'a>, Vec<Violation>) {
    let mut check = Validator::default();
    let torque = check.torque_ask("torque", request.torque.as_ref());
    let _ = check.required("stack", request.stack.as_ref());
    let fit = check.word::<Fit>("fit", request.fit);
    let ask = JointAsk {
        torque,
        stack,
        fit: fit.unwrap_or_default(),
        shear_plane_mm: request.shear_plane_mm,
    };
    (ask, check.into_violations())
}

/// The check on the wire.
fn joint_answer(
    question: &JointQuestion<'_>,
    joint: &JointCheck<'_>,
    unit: TorqueUnit,
) -> wire::CheckJointResponse {
    let Beside {
        checks,
        assumptions,
        cautions,
        sources,
    } = beside(&joint.remarks);
    let family = question.torque.thread().system();
    wire::CheckJointResponse {
        torque_nm: joint.answer.torque.get(),
        clamp_load_n: joint.answer.clamp_load.get(),
        scatter: Some(torque::scatter(&joint.answer, unit)),
        partners: (joint.partners.iter())
            .map(|one| partner(one, unit))
            .collect(),
        engagement: Some(engagement(&joint.engagement, family)),
        bearing_faces: joint
            .bearing
            .iter()
            .map(|face| wire::BearingFace {
                face: face.face.clone(),
                nominal_mpa: face.nominal.get(),
                maximum_mpa: face.maximum.get(),
                allowed_mpa: face.allowed.get(),
                text: answers::face(face),
            })
            .collect(),
        lengths: Some(lengths(&joint.lengths, family)),
        torque_text: show::torque(joint.answer.torque, unit),
        clamp_load_text: show::load(joint.answer.clamp_load, unit),
        thread: question.torque.thread().designation().into(),
        grade: question.torque.grade().full_name().into(),
        sources,
        assumptions,
        cautions,
        checks,
    }
}

/// A part and the load it bears, on the wire.
pub(crate) fn partner(partner: &Partner, unit: TorqueUnit) -> wire::JointPartner {
    wire::JointPartner {
        partner: partner.id.into(),
        capacity_n: partner.capacity.get(),
        text: answers::partner(partner, unit),
    }
}

/// Engagement on the wire.
pub(crate) fn engagement(engagement: &Engagement, family: System) -> wire::ThreadEngagement {
    wire::ThreadEngagement {
        available_mm: engagement.available_mm,
        by_strength_mm: engagement.by_strength_mm,
        by_trade_mm: engagement.by_trade_mm,
        equal_strength_mm: engagement.equal_strength_mm,
        external_area_per_mm: engagement.external_area_per_mm,
        internal_area_per_mm: engagement.internal_area_per_mm,
        text: answers::engagement(engagement, family),
    }
}

/// The question of a length's request, and what was found wrong with it so far.
fn length<'a>(
    request: &'a wire::FitLengthRequest,
    stack: &'a GripStack,
) -> (LengthAsk<'a>, Vec<Violation>) {
    let mut check = Validator::default();
    let _ = check.required("stack", request.stack.as_ref());
    let ask = LengthAsk {
        thread: &request.thread,
        stack,
        shear_plane_mm: request.shear_plane_mm,
    };
    (ask, check.into_violations())
}

/// The lengths on the wire.
fn length_answer(question: &LengthQuestion<'_>, found: &Lengths) -> wire::FitLengthResponse {
    let Beside {
        checks,
        assumptions,
        cautions,
        sources,
    } = beside(&found.remarks);
    wire::FitLengthResponse {
        lengths: Some(lengths(found, question.thread().system())),
        thread: question.thread().designation().into(),
        sources,
        assumptions,
        cautions,
        checks,
    }
}

/// What a grip needs, on the wire.
pub(crate) fn lengths(found: &Lengths, family: System) -> wire::FitLengths {
    wire::FitLengths {
        grip_mm: found.grip_mm,
        needed_mm: found.needed_mm,
        longest_mm: found.longest_mm,
        standard_mm: found.standard_mm,
        at_hand: found.at_hand.map(|bolt| wire::BoltAtHand {
            engagement_mm: bolt.engagement_mm,
            reach_mm: bolt.reach_mm,
            protrusion_mm: bolt.protrusion_mm,
            body_mm: bolt.body_mm,
            grip_length_mm: bolt.grip_length_mm,
            thread_in_shear_plane: bolt.thread_in_shear_plane == Some(true),
            text: answers::at_hand(&bolt, family),
        }),
        text: answers::lengths(found, family),
        standard_text: answers::standard(found, family),
    }
}
