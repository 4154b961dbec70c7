//! Which part of a joint bears least: threads, their engagement, proof loads.

use super::{check::JointQuestion, fit::Lengths, tapped::Tapped};
use crate::{
    answer::{Answer, Severity},
    remarks::Remarks,
    show::{Rounded, length},
    strength::{
        engagement::{
            SHEAR_OVER_TENSILE, engagement_for, equal_strength_engagement, external_strip_area,
            internal_strip_area,
        },
        limits::{Fit, external_limits, internal_limits},
    },
    thread::Thread,
    units::{Megapascals, Newtons, exceeds, greater},
};

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
    /// By rule of thumb, in mm; `None` for a nut.
    pub by_trade_mm: Option<f64>,
    /// For a nut of the bolt's own strength, on basic dimensions, in mm.
    pub equal_strength_mm: f64,
    /// Shear area of the bolt's thread per mm of engagement, in mm².
    pub external_area_per_mm: f64,
    /// Shear area of the internal thread per mm of engagement, in mm².
    pub internal_area_per_mm: f64,
}

pub(super) fn engagement(
    question: &JointQuestion<'_>,
    answer: &Answer<'_>,
    lengths: &Lengths,
) -> Engagement {
    let (thread, stack) = (question.torque.thread(), &question.stack);
    let (p, d) = (thread.pitch(), thread.diameter());
    let (external_area_per_mm, internal_area_per_mm) = strip_areas(thread, question.fit);
    let at_breaking = |shear, area| engagement_for(answer.tensile_load, shear, area).get();
    let bolt = at_breaking(bolt_shear(question), external_area_per_mm);
    let by_strength_mm = match stack.tapped {
        None => bolt,
        Some(tapped) => {
            let inner = at_breaking(tapped.shear, internal_area_per_mm);
            greater(inner, bolt)
        }
    };
    let available_mm = match (stack.tapped, lengths.at_hand) {
        (_, Some(at_hand)) => Some(at_hand.engagement_mm),
        (None, None) => Some(stack.nut_height.get()),
        (Some(_), None) => None,
    };
    let rule = |t: Tapped| t.metal.trade_engagement() * d.get();
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
            (l.pitch.minimum, l.major.minimum)
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

pub(super) fn partners(
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

pub(super) fn judge_threads(
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
        let (nominal, maximum) = (share(answer.clamp_load), share(answer.scatter.maximum));
        if nominal > 1.0 {
            remarks.find(id, Severity::Stop, nominal, format!(
                "At the target clamp load {text} strips. Fit an insert or a longer bolt, or change the specification to a lower target."
            ));
        } else if maximum > 1.0 {
            remarks.find(
                near,
                Severity::Caution,
                maximum,
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
    let family = question.torque.thread().system();
    let engaged = length(available, family, Rounded::Down);
    if question.stack.tapped.is_some() && exceeds(engagement.by_strength_mm, available) {
        remarks.find(
            "engagement-by-strength",
            Severity::Caution,
            engagement.by_strength_mm / available,
            format!(
                "{engaged} is engaged; {} is needed for the bolt to break before a thread strips.",
                length(engagement.by_strength_mm, family, Rounded::Up)
            ),
        );
    }
    if let Some(trade) = engagement.by_trade_mm
        && exceeds(trade, available)
    {
        remarks.find(
            "engagement-by-trade",
            Severity::Caution,
            trade / available,
            format!(
                "{engaged} is engaged; {} is needed by rule of thumb. In an original hole compare with what the maker had.",
                length(trade, family, Rounded::Up)
            ),
        );
    }
}
