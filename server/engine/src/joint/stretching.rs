//! How a joint gives when it is tightened.

use super::{check::JointFaults, grip::GripStack, reach::body_and_grip, stack::Stack};
use crate::{
    answer::{Answer, Severity},
    ask::{Ask, Question},
    catalogue::Catalogue,
    fault::{Fault, FaultReason},
    remarks::Remarks,
    source::{Basis, UsedFor},
    stretch::{
        settling::{Roughness, settling, settling_loss},
        stiffness::{Bolt, STEEL_MODULUS_MPA, bolt, elastic_angle, load_share, members},
    },
    torque::compute,
    units::{Degrees, Newtons, Stiffness, lesser, within},
};
use clampbook_data::cite;

/// What is asked about stretch.
#[derive(Clone, Copy, Debug, Default)]
pub struct StretchAsk<'a> {
    /// How it is tightened.
    pub torque: Ask<'a>,
    /// What is clamped; the bolt's length is needed.
    pub stack: &'a GripStack,
    /// Modulus of elasticity of the bolt, in MPa; steel when absent.
    pub bolt_modulus_mpa: Option<f64>,
    /// Loading plane factor, 0 to 1; 1 when absent.
    pub loading_plane: Option<f64>,
    /// How rough the faces are.
    pub roughness: Roughness,
}

/// A question about stretch, looked up.
#[derive(Clone, Debug, PartialEq)]
pub struct StretchQuestion<'c> {
    /// How it is tightened.
    pub torque: Question<'c>,
    stack: Stack,
    bolt_modulus: f64,
    loading_plane: f64,
    roughness: Roughness,
}

/// How the joint gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch<'c> {
    /// The torque asked about.
    pub answer: Answer<'c>,
    /// Stiffness of the bolt.
    pub bolt: Stiffness,
    /// Stiffness of the clamped layers.
    pub members: Stiffness,
    /// Share of a load from outside that the bolt takes.
    pub load_share: f64,
    /// Angle from snug to the clamp load aimed at.
    pub angle: Degrees,
    /// How much longer the bolt becomes, in mm.
    pub elongation_mm: f64,
    /// How much thinner the layers become, in mm.
    pub compression_mm: f64,
    /// How much the faces settle, in mm.
    pub settling_mm: f64,
    /// Clamp load that settling costs.
    pub settling_loss: Newtons,
    /// Findings, assumptions, cautions, sources.
    pub remarks: Remarks<'c>,
}

impl Catalogue {
    /// Looks up a question about stretch.
    ///
    /// # Errors
    /// All faults; those of the torque question kept apart.
    pub fn resolve_stretch<'c>(
        &'c self,
        ask: &StretchAsk<'_>,
    ) -> Result<StretchQuestion<'c>, JointFaults> {
        let torque = self.resolve(&ask.torque);
        let thread = self.thread(ask.torque.thread).ok();
        let mut faults = Vec::new();
        let stack = Stack::resolve(ask.stack, thread, &mut faults);
        if ask.stack.bolt_length_mm.is_none() {
            faults.push(Fault::new("stack.bolt_length_mm", FaultReason::Missing));
        }
        if let Some(stack) = &stack
            && stack.bolt_length.is_some_and(|l| l.get() <= stack.grip())
        {
            let why = "the bolt ends inside the stack: nothing is stretched";
            faults.push(Fault::new(
                "stack.bolt_length_mm",
                FaultReason::Contradicts { why },
            ));
        }
        // Magnesium to tungsten. Common practice.
        let modulus = within(
            "modulus of elasticity",
            ask.bolt_modulus_mpa.unwrap_or(STEEL_MODULUS_MPA),
            (40_000.0, 420_000.0),
            "MPa",
        );
        let modulus = Fault::keep(&mut faults, "bolt_modulus_mpa", modulus);
        let plane = within(
            "loading plane factor",
            ask.loading_plane.unwrap_or(1.0),
            (0.0, 1.0),
            "",
        );
        let plane = Fault::keep(&mut faults, "loading_plane", plane);
        match (torque, stack, modulus, plane) {
            (Ok(torque), Some(stack), Some(bolt_modulus), Some(loading_plane))
                if faults.is_empty() =>
            {
                Ok(StretchQuestion {
                    torque,
                    stack,
                    bolt_modulus,
                    loading_plane,
                    roughness: ask.roughness,
                })
            }
            (torque, ..) => Err(JointFaults {
                torque: torque.err().unwrap_or_default(),
                stack: faults,
            }),
        }
    }
}

/// Answers a question about stretch; it always succeeds.
#[must_use]
pub fn stretch<'c>(question: &StretchQuestion<'c>) -> Stretch<'c> {
    let answer = compute(&question.torque);
    let (thread, stack) = (question.torque.thread(), &question.stack);
    let p = thread.pitch();
    let grip = stack.grip();
    // Resolving saw to the length, and the thread's length follows from it.
    let body = stack
        .bolt_length
        .zip(stack.thread_length)
        .map_or(0.0, |(length, thread)| body_and_grip(length, thread, p).1);
    let body = lesser(body, grip);
    let bolt = bolt(&Bolt {
        d: thread.diameter(),
        d3: thread.geometry().external_minor_diameter,
        body_mm: body,
        free_thread_mm: grip - body,
        modulus_mpa: question.bolt_modulus,
        far_end: stack.far_end(),
    });
    let springs = stack.springs(thread);
    let members = members(&springs, thread.diameter(), stack.bearing);
    let f = answer.clamp_load;
    let settling_mm = settling(question.roughness, springs.len() - 1);
    let loss = settling_loss(settling_mm, bolt, members);
    let mut remarks = remarks(question, &answer);
    let share = loss.get() / f.get();
    if share > SETTLING_CAUTION {
        remarks.find(
            "settling",
            if share >= 1.0 { Severity::Stop } else { Severity::Caution },
            share,
            format!(
                "Settling of {:.0} µm takes {:.0} % of the clamp load from so short a joint: tighten again after settling, \
                 fewer faces, or a longer bolt with a sleeve.",
                settling_mm * 1000.0,
                share * 100.0
            ),
        );
    }
    Stretch {
        bolt,
        members,
        load_share: load_share(bolt, members, question.loading_plane),
        angle: elastic_angle(f, bolt, members, p),
        elongation_mm: f.get() / bolt.get(),
        compression_mm: f.get() / members.get(),
        settling_mm,
        settling_loss: loss,
        answer,
        remarks,
    }
}

/// Share of the clamp load that settling may take without a word. Common practice.
const SETTLING_CAUTION: f64 = 0.10;

fn remarks<'c>(question: &StretchQuestion<'c>, answer: &Answer<'c>) -> Remarks<'c> {
    let mut list = Remarks::default();
    for finding in answer.findings.iter() {
        list.found(finding.id, finding.severity, finding.share);
    }
    list.assume("Everything elastic; the angle counts from snug, all faces closed. A yield angle is never derived from it.");
    list.assume("Head, engaged thread and nut count as 0.5 d, 0.5 d and 0.4 d of bolt (a tapped hole 0.33 d).");
    list.assume("Layers are pressed in 30 degree cones and are wider than these.");
    if !question.stack.thread_length_was_given {
        list.assume("Thread length of the standard's bolt; measure yours where it matters.");
    }
    for assumption in answer.assumptions.iter() {
        list.assume(assumption.text());
    }
    for caution in answer.cautions.iter() {
        list.mind(caution.text());
    }
    list.cite(&[cite::SHIGLEY_8_26], UsedFor::Method, Basis::Found);
    list.cite(&[cite::VDI_2230], UsedFor::Method, Basis::Memory);
    list.cite(&[cite::VDI_2230_A9], UsedFor::Rule, Basis::Memory);
    question.stack.cite(&mut list);
    for cited in answer.sources.iter() {
        list.cite(&[cited.source], cited.used_for, cited.basis);
    }
    list
}
