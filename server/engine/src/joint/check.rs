//! Whether anything in a joint is weaker than what the bolt is tightened to.

use super::{
    faces::{BearingFace, faces, judge_face},
    reach::{self, Lengths},
    stack::{Stack, StackAsk},
};
use crate::{
    answer::{Answer, Caution, Severity},
    ask::{Ask, Question},
    catalogue::Catalogue,
    fault::{Fault, FaultReason},
    remarks::Remarks,
    source::{Basis, UsedFor},
    strength::{
        engagement::{
            SHEAR_OVER_TENSILE, engagement_for, equal_strength_engagement, external_strip_area,
            internal_strip_area,
        },
        limits::{Fit, external_limits, internal_limits},
    },
    thread::Thread,
    torque::compute,
    units::{Megapascals, Newtons},
};
use clampbook_data::cite;

/// What is asked about a joint.
#[derive(Clone, Copy, Debug, Default)]
pub struct JointAsk<'a> {
    /// How it is tightened.
    pub torque: Ask<'a>,
    /// What is clamped.
    pub stack: StackAsk<'a>,
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
    stack: Stack,
    fit: Fit,
    shear_plane: Option<f64>,
}

/// A part of the joint and the load it bears.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Partner {
    /// Stable id, such as `tapped-thread`.
    pub id: &'static str,
    /// Load it bears.
    pub capacity: Newtons,
}

/// Engagement there is and engagement wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Engagement {
    /// Engagement there is, in mm; unknown without the bolt's length in a tapped hole.
    pub available_mm: Option<f64>,
    /// For the bolt to break before either thread strips, at minimum material, in mm.
    pub by_strength_mm: f64,
    /// By the rule of the trade, in mm; `None` for a nut.
    pub by_trade_mm: Option<f64>,
    /// For a nut of the bolt's own strength, on basic dimensions, in mm.
    pub equal_strength_mm: f64,
    /// Shear area of the bolt's thread per mm of engagement, in mm².
    pub external_area_per_mm: f64,
    /// Shear area of the internal thread per mm of engagement, in mm².
    pub internal_area_per_mm: f64,
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
        let stack = Stack::resolve(&ask.stack, thread, &mut faults);
        let shear_plane = reach::shear_plane(ask.shear_plane_mm, &mut faults);
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
    let lengths = reach::lengths(thread, stack, question.shear_plane);
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

fn engagement(question: &JointQuestion<'_>, answer: &Answer<'_>, lengths: &Lengths) -> Engagement {
    let (thread, stack) = (question.torque.thread(), &question.stack);
    let (p, d) = (thread.pitch(), thread.diameter());
    let (external_area_per_mm, internal_area_per_mm) = strip_areas(thread, question.fit);
    let at_breaking = |shear, area| engagement_for(answer.tensile_load, shear, area).get();
    let bolt = at_breaking(bolt_shear(question), external_area_per_mm);
    let by_strength_mm = match stack.tapped {
        None => bolt,
        Some(tapped) => {
            let inner = at_breaking(tapped.shear, internal_area_per_mm);
            if inner > bolt { inner } else { bolt }
        }
    };
    let available_mm = match (stack.tapped, lengths.at_hand) {
        (_, Some(at_hand)) => Some(at_hand.engagement_mm),
        (None, None) => Some(stack.nut_height.get()),
        (Some(_), None) => None,
    };
    let rule = |t: super::stack::Tapped| t.metal.trade_engagement() * d.get();
    Engagement {
        available_mm,
        by_strength_mm,
        by_trade_mm: stack.tapped.map(rule),
        equal_strength_mm: equal_strength_engagement(answer.tensile_stress_area, d, p).get(),
        external_area_per_mm,
        internal_area_per_mm,
    }
}

/// Shear areas of bolt and internal thread per mm, both at minimum material.
fn strip_areas(thread: &Thread, fit: Fit) -> (f64, f64) {
    let basic = thread.geometry();
    // Resolving refused a fit without limits; basic sizes would be the least bad answer otherwise.
    let (es, ds) = external_limits(thread, fit)
        .map_or((basic.pitch_diameter, thread.diameter()), |l| {
            (l.pitch.least, l.major.least)
        });
    let (kn, en) = internal_limits(thread, fit)
        .map_or((basic.internal_minor_diameter, basic.pitch_diameter), |l| {
            (l.minor.most, l.pitch.most)
        });
    let p = thread.pitch();
    (
        external_strip_area(p, kn, es),
        internal_strip_area(p, ds, en),
    )
}

fn bolt_shear(question: &JointQuestion<'_>) -> Megapascals {
    Megapascals::computed(SHEAR_OVER_TENSILE * question.torque.strength().tensile().get())
}

fn partners(
    question: &JointQuestion<'_>,
    answer: &Answer<'_>,
    engagement: &Engagement,
) -> Vec<Partner> {
    let mut list = vec![Partner {
        id: "bolt-proof",
        capacity: answer.working_load,
    }];
    if let Some(capacity) = answer.nut_proof_load {
        list.push(Partner {
            id: "nut-proof",
            capacity,
        });
    }
    if let Some(available) = engagement.available_mm {
        let bears =
            |shear: Megapascals, area: f64| Newtons::computed(shear.get() * area * available);
        list.push(Partner {
            id: "bolt-thread",
            capacity: bears(bolt_shear(question), engagement.external_area_per_mm),
        });
        if let Some(tapped) = question.stack.tapped {
            list.push(Partner {
                id: "tapped-thread",
                capacity: bears(tapped.shear, engagement.internal_area_per_mm),
            });
        }
    }
    list.sort_by(|a, b| a.capacity.get().total_cmp(&b.capacity.get()));
    list
}

fn judge_threads(
    question: &JointQuestion<'_>,
    answer: &Answer<'_>,
    engagement: &Engagement,
    partners: &[Partner],
    remarks: &mut Remarks<'_>,
) {
    for partner in partners {
        let (id, near, text) = match partner.id {
            "bolt-thread" => (
                "bolt-thread-strips",
                "bolt-thread-may-strip",
                "the bolt's own thread",
            ),
            "tapped-thread" => (
                "tapped-thread-strips",
                "tapped-thread-may-strip",
                "the tapped thread",
            ),
            _ => continue,
        };
        let bears = partner.capacity.get();
        // No engagement bears nothing; any load is too much then.
        let share = |load: Newtons| if bears > 0.0 { load.get() / bears } else { 2.0 };
        let (nominal, greatest) = (share(answer.clamp_load), share(answer.scatter.greatest));
        if nominal > 1.0 {
            remarks.find(id, Severity::Stop, nominal, format!(
                "At the clamp load aimed at {text} strips. Fit an insert, a longer bolt or aim lower with the specification changed."
            ));
        } else if greatest > 1.0 {
            remarks.find(
                near,
                Severity::Caution,
                greatest,
                format!("With the scatter of tool and friction {text} may strip."),
            );
        }
    }
    let Some(available) = engagement.available_mm.filter(|mm| *mm > 0.0) else {
        if engagement.available_mm.is_none() {
            remarks.mind("Engagement is not checked: the bolt's length was not given.");
        }
        return;
    };
    if question.stack.tapped.is_some() && available < engagement.by_strength_mm {
        remarks.find(
            "engagement-by-strength",
            Severity::Caution,
            engagement.by_strength_mm / available,
            format!(
                "{available:.2} mm are engaged; for the bolt to break before a thread strips it takes {:.2} mm.",
                engagement.by_strength_mm
            ),
        );
    }
    if let Some(trade) = engagement.by_trade_mm
        && available < trade
    {
        remarks.find(
            "engagement-by-trade",
            Severity::Caution,
            trade / available,
            format!(
                "{available:.2} mm are engaged; the rule of the trade wants {trade:.2} mm. In an original hole compare with \
                 what the maker had."
            ),
        );
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
    for caution in answer.cautions.iter() {
        // A tapped hole has no nut.
        if caution != Caution::NutNotChecked || question.stack.tapped.is_none() {
            remarks.mind(caution.text());
        }
    }
    for cited in answer.sources.iter() {
        remarks.cite(&[cited.source], cited.used_for, cited.basis);
    }
    remarks.cite(
        &[cite::FED_STD_H28_2, cite::VDI_2230_A9],
        UsedFor::Method,
        Basis::Found,
    );
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
