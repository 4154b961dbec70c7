//! What the slots of a castellated nut mean in a joint.

use super::{
    check::JointFaults,
    stretching::{StretchAsk, StretchQuestion, stretch},
};
use crate::{
    answer::Severity,
    catalogue::Catalogue,
    fault::{Fault, FaultReason},
    hex::AcrossFlats,
    remarks::Remarks,
    source::{Basis, UsedFor},
    stretch::castle::{slot_step, travel, washer_change},
    units::{Degrees, Newtons, within},
};
use clampbook_data::cite;

/// What is asked about a castellated nut.
#[derive(Clone, Copy, Debug, Default)]
pub struct CastleAsk<'a> {
    /// The joint; its torque question says lubrication, its stack how it gives.
    pub stretch: StretchAsk<'a>,
    /// Slots of the nut; the standard's when absent.
    pub slots: Option<u32>,
    /// Cross holes through the bolt, 1 or 2 at 90°; 1 when absent.
    pub holes: Option<u32>,
    /// Published minimum torque, in N·m, without prevailing torque.
    pub minimum_torque_nm: f64,
    /// Published maximum torque, in N·m, without prevailing torque.
    pub maximum_torque_nm: Option<f64>,
    /// Prevailing torque, in N·m, that comes on top of both.
    pub prevailing_torque_nm: Option<f64>,
    /// Angle from the minimum torque to the next slot, in degrees, as measured.
    pub to_slot_degrees: Option<f64>,
}

/// A question about a castellated nut, looked up.
#[derive(Clone, Debug, PartialEq)]
pub struct CastleQuestion<'c> {
    /// The joint.
    pub stretch: StretchQuestion<'c>,
    step: Degrees,
    minimum_nm: f64,
    maximum_nm: Option<f64>,
    prevailing_torque_nm: f64,
    to_slot: Option<Degrees>,
}

/// What to do about the slot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// A slot comes up inside the published window.
    Advance {
        /// Torque to expect at the slot, prevailing torque included, in N·m; unknown before the angle was measured.
        torque_nm: Option<f64>,
    },
    /// Turn to the minimum torque and measure the angle to the next slot.
    Measure,
    /// The next slot lies beyond the published maximum torque: change the washers.
    ChangeWasher {
        /// Thinner by this much, from and to, in mm.
        thinner_mm: (f64, f64),
        /// Thicker by this much, from and to, in mm.
        thicker_mm: (f64, f64),
    },
    /// No answer can be given.
    Refuse {
        /// Why.
        why: &'static str,
        /// What to do instead.
        instead: &'static str,
    },
}

impl Verdict {
    /// Stable id.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        match self {
            Self::Advance { .. } => "advance",
            Self::Measure => "measure",
            Self::ChangeWasher { .. } => "change-washer",
            Self::Refuse { .. } => "refuse",
        }
    }
}

/// What the slots mean.
#[derive(Clone, Debug, PartialEq)]
pub struct CastleAnswer<'c> {
    /// Angle from slot to slot.
    pub step: Degrees,
    /// How far the nut moves from slot to slot, in mm.
    pub step_mm: f64,
    /// Clamp load that one step adds in this joint, all elastic; absent where that alone is beyond yield.
    pub load_per_step: Option<Newtons>,
    /// Angle from the published minimum torque to the maximum; absent without a published maximum.
    pub window: Option<Degrees>,
    /// What to do.
    pub verdict: Verdict,
    /// Findings, assumptions, cautions, sources.
    pub remarks: Remarks<'c>,
}

impl Catalogue {
    /// Looks up a question about a castellated nut.
    ///
    /// # Errors
    /// All faults, those of the joint kept apart.
    pub fn resolve_castle<'c>(
        &'c self,
        ask: &CastleAsk<'_>,
    ) -> Result<CastleQuestion<'c>, CastleFaults> {
        let stretch = self.resolve_stretch(&ask.stretch);
        let mut faults = Vec::new();
        let known = self
            .thread(ask.stretch.torque.thread)
            .ok()
            .and_then(AcrossFlats::of)
            .and_then(|hex| hex.castle_slots());
        let step = step(ask, known, &mut faults);
        let nm = |field, value, low, faults: &mut Vec<Fault>| {
            Fault::keep(
                faults,
                field,
                within("torque", value, (low, 100_000.0), "N.m"),
            )
        };
        let minimum = nm(
            "minimum_torque_nm",
            ask.minimum_torque_nm,
            0.01,
            &mut faults,
        );
        let low = minimum.unwrap_or(0.01);
        let maximum = ask
            .maximum_torque_nm
            .map(|value| nm("maximum_torque_nm", value, low, &mut faults));
        let prevailing_torque = nm(
            "prevailing_torque_nm",
            ask.prevailing_torque_nm.unwrap_or(0.0),
            0.0,
            &mut faults,
        );
        let high = step.map_or(360.0, Degrees::get);
        let to_slot = ask.to_slot_degrees.map(|angle| {
            let checked = within("angle to the next slot", angle, (0.0, high), "degrees");
            Fault::keep(&mut faults, "to_slot_degrees", checked)
        });
        match (stretch, step, minimum, prevailing_torque) {
            (Ok(stretch), Some(step), Some(minimum_nm), Some(prevailing_torque_nm))
                if faults.is_empty() =>
            {
                Ok(CastleQuestion {
                    stretch,
                    step,
                    minimum_nm,
                    maximum_nm: maximum.flatten(),
                    prevailing_torque_nm,
                    to_slot: to_slot.flatten().map(Degrees::computed),
                })
            }
            (stretch, ..) => Err(CastleFaults {
                joint: stretch.err().unwrap_or_default(),
                nut: faults,
            }),
        }
    }
}

/// What is wrong with a question about a castellated nut.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CastleFaults {
    /// In the joint.
    pub joint: JointFaults,
    /// In what is said of the nut.
    pub nut: Vec<Fault>,
}

fn step(ask: &CastleAsk<'_>, known: Option<u32>, faults: &mut Vec<Fault>) -> Option<Degrees> {
    let mut contradicts =
        |field, why| faults.push(Fault::new(field, FaultReason::Contradicts { why }));
    let slots = ask.slots.or(known);
    match slots {
        None => contradicts(
            "slots",
            "the tables have no castellated nut of this size; count the slots",
        ),
        Some(slots) if !matches!(slots, 4 | 6 | 8 | 10 | 12) => {
            contradicts("slots", "allowed are 4, 6, 8, 10 and 12");
        }
        Some(_) => {}
    }
    let holes = ask.holes.unwrap_or(1);
    if !matches!(holes, 1 | 2) {
        contradicts("holes", "allowed are 1, or 2 at 90 degrees");
    }
    faults.is_empty().then_some(())?;
    slots.map(|slots| slot_step(slots, holes))
}

/// Answers a question about a castellated nut; it always succeeds.
#[must_use]
pub fn align<'c>(question: &CastleQuestion<'c>) -> CastleAnswer<'c> {
    let joint = stretch(&question.stretch);
    let torque = &question.stretch.torque;
    let thread = torque.thread();
    let p = thread.pitch();
    let step_mm = travel(p, question.step);
    let together = 1.0 / (1.0 / joint.bolt.get() + 1.0 / joint.members.get());
    // N·m on the wrench for each newton of clamp load.
    let per_newton = joint.answer.torque.get() / joint.answer.clamp_load.get();
    let nm_per_degree = per_newton * together * p.get() / 360.0;
    let window = question
        .maximum_nm
        .map(|most| Degrees::computed((most - question.minimum_nm) / nm_per_degree));
    let mut remarks = joint.remarks;
    // What the torque question aims at is not what this nut is tightened to.
    remarks.findings.clear();
    let yields = joint.answer.yield_load.unwrap_or(joint.answer.tensile_load);
    let beyond = |nm: f64| nm / per_newton > yields.get();
    let verdict = verdict(question, window, nm_per_degree, beyond);
    match verdict {
        Verdict::ChangeWasher { .. } => remarks.find(
            "slot-beyond-maximum",
            Severity::Stop,
            // Measured here, since only a measured angle leads to this verdict.
            question
                .to_slot
                .zip(window)
                .map_or(1.0, |(slot, window)| slot.get() / window.get().clamp(f64::MIN_POSITIVE, 3600.0)),
            "The next slot lies beyond the published maximum torque: change the washers, do not tighten further, and never back off to a slot.".to_owned(),
        ),
        Verdict::Refuse { why, .. } => remarks.find("refused", Severity::Stop, 1.0, why.to_owned()),
        Verdict::Advance { .. } | Verdict::Measure => {}
    }
    remarks.mind("Never back off to a slot; a new split pin every time.");
    remarks.assume(
        "Torque grows by the elastic stiffness of the joint and the nut factor of its lubrication.",
    );
    remarks.cite(&[cite::AC_43_13_1B_7_40], UsedFor::Rule, Basis::Found);
    remarks.cite(&[cite::DIN_935], UsedFor::Dimensions, Basis::Memory);
    CastleAnswer {
        step: question.step,
        step_mm,
        load_per_step: Some(Newtons::computed(together * step_mm)).filter(|load| *load <= yields),
        window,
        verdict,
        remarks,
    }
}

fn verdict(
    question: &CastleQuestion<'_>,
    window: Option<Degrees>,
    nm_per_degree: f64,
    beyond_yield: impl Fn(f64) -> bool,
) -> Verdict {
    let Some(window) = window else {
        return Verdict::Refuse {
            why: "Without a published maximum torque there is no range to find a slot in.",
            instead: "Look up the range; a single published torque is the minimum, and washers bring the slot to it.",
        };
    };
    // The published minimum torque in the lubrication asked about, prevailing torque aside.
    if beyond_yield(question.minimum_nm) {
        return Verdict::Refuse {
            why: "In this lubrication the published minimum torque already takes the bolt beyond yield.",
            instead: "Check grade, thread and lubrication: the torque was published for others.",
        };
    }
    let at_slot = |slot: Degrees| question.minimum_nm + nm_per_degree * slot.get();
    match question.to_slot {
        Some(slot) if slot <= window && beyond_yield(at_slot(slot)) => Verdict::Refuse {
            why: "The next slot is inside the published range, but in this lubrication beyond the bolt's yield.",
            instead: "Check which lubrication the range was published for, or change the washers.",
        },
        Some(slot) if slot <= window => Verdict::Advance {
            torque_nm: Some(at_slot(slot) + question.prevailing_torque_nm),
        },
        Some(slot) => {
            let p = question.stretch.torque.thread().pitch();
            let (thinner_mm, thicker_mm) = washer_change(slot, window, question.step, p);
            Verdict::ChangeWasher {
                thinner_mm,
                thicker_mm,
            }
        }
        None if window >= question.step && !beyond_yield(at_slot(question.step)) => {
            Verdict::Advance { torque_nm: None }
        }
        None => Verdict::Measure,
    }
}
