//! Whether anything in a joint is weaker than what the bolt is tightened to.

use super::{
    faces::{BearingFace, faces, judge_face},
    fit::{self, Lengths},
    grip::GripStack,
    stack::Stack,
    weakest::{Engagement, Partner, engagement, judge_threads, partners},
};
use crate::{
    answer::{Answer, Caution},
    ask::{Ask, Question},
    catalogue::Catalogue,
    fault::{Fault, FaultReason},
    remarks::Remarks,
    source::{Basis, UsedFor},
    strength::limits::{Fit, external_limits},
    torque::compute,
};
use clampbook_data::cite;

/// What is asked about a joint.
#[derive(Clone, Copy, Debug, Default)]
pub struct JointAsk<'a> {
    /// How it is tightened.
    pub torque: Ask<'a>,
    /// What is clamped.
    pub stack: &'a GripStack,
    /// How closely the threads fit.
    pub fit: Fit,
    /// Distance of a shear plane from the head's bearing face, in mm.
    pub shear_plane_mm: Option<f64>,
}

/// A question about a joint, looked up.
#[derive(Clone, Debug, PartialEq)]
pub struct JointQuestion<'c> {
    /// How it is tightened.
    pub torque: Question<'c>,
    pub(super) stack: Stack,
    pub(super) fit: Fit,
    shear_plane: Option<f64>,
}

/// What the check says.
#[derive(Clone, Debug, PartialEq)]
pub struct JointCheck<'c> {
    /// The torque asked about, with its own findings.
    pub answer: Answer<'c>,
    /// Parts and what they bear, weakest first.
    pub partners: Vec<Partner>,
    /// Engagement.
    pub engagement: Engagement,
    /// Pressure on each face.
    pub bearing: Vec<BearingFace>,
    /// Lengths.
    pub lengths: Lengths,
    /// Findings of everything, worst first, with assumptions, cautions, sources.
    pub remarks: Remarks<'c>,
}

impl Catalogue {
    /// Looks up a question about a joint.
    ///
    /// # Errors
    /// All faults. Those of the torque question carry its own field names; [`JointFaults`] keeps
    /// them apart from those of the stack.
    pub fn resolve_joint<'c>(
        &'c self,
        ask: &JointAsk<'_>,
    ) -> Result<JointQuestion<'c>, JointFaults> {
        let torque = self.resolve(&ask.torque);
        let thread = self.thread(ask.torque.thread).ok();
        let mut faults = Vec::new();
        let stack = Stack::resolve(ask.stack, thread, &mut faults);
        let shear_plane = fit::shear_plane(ask.shear_plane_mm, &mut faults);
        if let Some(thread) = thread
            && external_limits(thread, ask.fit).is_none()
        {
            let why = if thread.is_british() {
                "British threads have no limits of size in the tables"
            } else {
                "metric threads have limits for the medium fit 6g/6H only"
            };
            faults.push(Fault::new("fit", FaultReason::Contradicts { why }));
        }
        match (torque, stack) {
            (Ok(torque), Some(stack)) if faults.is_empty() => Ok(JointQuestion {
                torque,
                stack,
                fit: ask.fit,
                shear_plane,
            }),
            (torque, _) => Err(JointFaults {
                torque: torque.err().unwrap_or_default(),
                stack: faults,
            }),
        }
    }
}

/// What is wrong with a question about a joint.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JointFaults {
    /// In the torque question.
    pub torque: Vec<Fault>,
    /// In everything else.
    pub stack: Vec<Fault>,
}

/// Answers a question about a joint; it always succeeds.
#[must_use]
pub fn check_joint<'c>(question: &JointQuestion<'c>) -> JointCheck<'c> {
    let answer = compute(&question.torque);
    let (thread, stack) = (question.torque.thread(), &question.stack);
    let lengths = fit::lengths(thread, stack, question.shear_plane);
    let mut remarks = Remarks::default();
    for finding in answer.findings.iter() {
        remarks.found(finding.id, finding.severity, finding.share);
    }
    let engagement = engagement(question, &answer, &lengths);
    let partners = partners(question, &answer, &engagement);
    judge_threads(question, &answer, &engagement, &partners, &mut remarks);
    let bearing = faces(stack, &answer);
    for face in &bearing {
        judge_face(face, &mut remarks);
    }
    gather(question, &answer, &lengths, &mut remarks);
    remarks
        .findings
        .sort_by_key(|f| std::cmp::Reverse(f.severity));
    JointCheck {
        answer,
        partners,
        engagement,
        bearing,
        lengths,
        remarks,
    }
}

/// Takes over what torque and lengths say beside their numbers.
fn gather<'c>(
    question: &JointQuestion<'c>,
    answer: &Answer<'c>,
    lengths: &Lengths,
    remarks: &mut Remarks<'c>,
) {
    for assumption in answer.assumptions.iter() {
        remarks.assume(assumption.text());
    }
    remarks.assume(
        "Threads at minimum material; a bolt's thread shears at half of its tensile strength.",
    );
    if question.stack.tapped.is_some_and(|t| t.shear_was_given) {
        remarks.assume("Shear strength of the tapped metal as given.");
    }
    if question.stack.tapped.is_some_and(|t| t.insert) {
        remarks.assume(
            "A helical insert is fitted: the tapped metal shears at the major diameter of its hole.",
        );
    }
    for caution in answer.cautions.iter() {
        // A tapped hole has no nut.
        if caution != Caution::NutNotChecked || question.stack.tapped.is_none() {
            remarks.mind(caution.text());
        }
    }
    for cited in answer.sources.iter() {
        remarks.cite(&[cited.source], cited.used_for, cited.basis);
    }
    remarks.cite(&[cite::FED_STD_H28_2], UsedFor::Method, Basis::Found);
    remarks.cite(&[cite::VDI_2230_A9], UsedFor::Method, Basis::Memory);
    let limits = match question.torque.thread().system() {
        crate::thread::System::Inch => cite::ASME_B1_1,
        crate::thread::System::British => cite::BS_84,
        crate::thread::System::Metric => cite::ISO_965_1,
    };
    remarks.cite(&[limits], UsedFor::Thread, Basis::Computed);
    if question.stack.tapped.is_some() {
        remarks.cite(&[cite::ENGAGEMENT_PRACTICE], UsedFor::Rule, Basis::Found);
    }
    remarks
        .findings
        .extend(lengths.remarks.findings.iter().cloned());
    for text in &lengths.remarks.assumptions {
        remarks.assume(text);
    }
    for text in &lengths.remarks.cautions {
        remarks.mind(text);
    }
    for cited in &lengths.remarks.sources {
        remarks.cite(&[cited.source], cited.used_for, cited.basis);
    }
}
