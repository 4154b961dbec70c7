//! Stretch of a bolt, and where a castellated nut lines up.

use crate::stack::{self, Beside, beside};
use crate::words::Word;
use crate::{Validator, torque};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::answers;
use clampbook_book::refusal::Violation;
use clampbook_engine::joint::{
    CastleAnswer, CastleAsk, CastleQuestion, GripStack, Stretch, StretchAsk, StretchQuestion,
    Verdict,
};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;
use clampbook_engine::stretch::settling::Roughness;

// What is not said is a value of its own.
impl Word for Roughness {
    type Wire = wire::FaceRoughness;

    fn from_wire(word: wire::FaceRoughness) -> Option<Self> {
        Some(match word {
            wire::FaceRoughness::Unspecified => Self::Machined,
            wire::FaceRoughness::Fine => Self::Fine,
            wire::FaceRoughness::Rough => Self::Rough,
        })
    }

    fn to_wire(self) -> wire::FaceRoughness {
        match self {
            Self::Machined => wire::FaceRoughness::Unspecified,
            Self::Fine => wire::FaceRoughness::Fine,
            Self::Rough => wire::FaceRoughness::Rough,
        }
    }
}

/// Computes stretch.
pub(crate) fn compute(
    call: Call<'_>,
    request: wire::ComputeStretchRequest,
) -> Result<wire::ComputeStretchResponse, Error> {
    let stack = stack::from_wire(request.stack.as_ref());
    let (ask, found) = stretch(&request, &stack);
    let asked = (request.torque.as_ref()).map(wire::ComputeTorqueRequest::torque_unit);
    call.compute_stretch(&ask, found, |question, found| {
        let unit = torque::unit_of(asked.unwrap_or_default(), question.torque.thread());
        stretch_answer(question, found, unit)
    })
}

/// Aligns a castellated nut.
pub(crate) fn align(
    call: Call<'_>,
    request: wire::AlignCastellatedNutRequest,
) -> Result<wire::AlignCastellatedNutResponse, Error> {
    let stack = stack::from_wire(
        request
            .joint
            .as_ref()
            .and_then(|joint| joint.stack.as_ref()),
    );
    let (ask, found) = castle(&request, &stack);
    let torque = (request.joint.as_ref()).and_then(|joint| joint.torque.as_ref());
    let asked = torque.map(wire::ComputeTorqueRequest::torque_unit);
    call.align_castellated_nut(&ask, found, |question, found| {
        let thread = question.stretch.torque.thread();
        let unit = torque::unit_of(asked.unwrap_or_default(), thread);
        castle_answer(question, found, unit)
    })
}

/// The question of a stretch request, and what was found wrong with it so far.
fn stretch<'a>(
    request: &'a wire::ComputeStretchRequest,
    stack: &'a GripStack,
) -> (StretchAsk<'a>, Vec<Violation>) {
    let mut check = Validator::default();
    let torque = check.torque_ask("torque", request.torque.as_ref());
    let _ = check.required("stack", request.stack.as_ref());
    let roughness = check.word::<Roughness>("roughness", request.roughness);
    let ask = StretchAsk {
        torque,
        stack,
        bolt_modulus_mpa: request.bolt_modulus_mpa,
        loading_plane: request.loading_plane,
        roughness: roughness.unwrap_or_default(),
    };
    (ask, check.into_violations())
}

/// The stretch on the wire.
fn stretch_answer(
    question: &StretchQuestion<'_>,
    found: &Stretch<'_>,
    unit: TorqueUnit,
) -> wire::ComputeStretchResponse {
    let Beside {
        checks,
        assumptions,
        cautions,
        sources,
    } = beside(&found.remarks);
    wire::ComputeStretchResponse {
        clamp_load_n: found.answer.clamp_load.get(),
        bolt_stiffness_n_per_mm: found.bolt.get(),
        member_stiffness_n_per_mm: found.members.get(),
        load_share: found.load_share,
        angle_degrees: found.angle.get(),
        elongation_mm: found.elongation_mm,
        compression_mm: found.compression_mm,
        settling_mm: found.settling_mm,
        settling_loss_n: found.settling_loss.get(),
        angle_text: show::angle(found.angle),
        clamp_load_text: show::load(found.answer.clamp_load, unit),
        stretch_text: answers::gives(found),
        stiffness_text: answers::stiffness(found),
        settling_text: answers::settling(found, unit),
        thread: question.torque.thread().designation().into(),
        sources,
        assumptions,
        cautions,
        checks,
    }
}

/// The question of a castellated nut's request, and what was found wrong with it so far.
fn castle<'a>(
    request: &'a wire::AlignCastellatedNutRequest,
    stack: &'a GripStack,
) -> (CastleAsk<'a>, Vec<Violation>) {
    let mut check = Validator::default();
    let joint = check.required("joint", request.joint.as_ref());
    let stretch = joint.map_or_else(StretchAsk::default, |joint| {
        let (ask, found) = stretch(joint, stack);
        check.extend_under("joint.", found);
        ask
    });
    // A negative number of slots is none; the engine says which there are.
    let count = |given: Option<i32>| given.map(|count| u32::try_from(count).unwrap_or_default());
    let ask = CastleAsk {
        stretch,
        slots: count(request.slots),
        holes: count(request.holes),
        minimum_torque_nm: request.minimum_torque_nm,
        maximum_torque_nm: request.maximum_torque_nm,
        prevailing_torque_nm: request.prevailing_torque_nm,
        to_slot_degrees: request.to_slot_degrees,
    };
    (ask, check.into_violations())
}

/// What the slots mean, on the wire.
fn castle_answer(
    question: &CastleQuestion<'_>,
    found: &CastleAnswer<'_>,
    unit: TorqueUnit,
) -> wire::AlignCastellatedNutResponse {
    let Beside {
        checks,
        assumptions,
        cautions,
        sources,
    } = beside(&found.remarks);
    let change = |(from_mm, to_mm)| Some(wire::WasherChange { from_mm, to_mm });
    let mut answer = wire::AlignCastellatedNutResponse {
        step_degrees: found.step.get(),
        step_mm: found.step_mm,
        load_per_step_n: found.load_per_step.map(|load| load.get()),
        window_degrees: found.window.map(|window| window.get()),
        thread: question.stretch.torque.thread().designation().into(),
        sources,
        assumptions,
        cautions,
        checks,
        text: answers::deed(&found.verdict, unit),
        washers_text: answers::washers(&found.verdict),
        slots_text: answers::slots(found, unit),
        ..Default::default()
    };
    let verdict = match found.verdict {
        Verdict::Advance { torque_nm } => {
            answer.slot_torque_nm = torque_nm;
            wire::SlotVerdict::Advance
        }
        Verdict::Measure => wire::SlotVerdict::Measure,
        Verdict::ChangeWasher {
            thinner_mm,
            thicker_mm,
        } => {
            answer.thinner = change(thinner_mm);
            answer.thicker = change(thicker_mm);
            wire::SlotVerdict::ChangeWasher
        }
        Verdict::Refuse { why, instead } => {
            answer.why = why.into();
            answer.instead = instead.into();
            wire::SlotVerdict::Refuse
        }
    };
    answer.verdict = verdict.into();
    answer
}
