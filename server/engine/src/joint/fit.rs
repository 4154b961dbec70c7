//! What length a stack needs, and whether the bolt at hand fits it.

use super::{
    grip::GripStack,
    reach::{body_and_grip, next_standard_length},
    stack::Stack,
};
use crate::{
    answer::Severity,
    catalogue::Catalogue,
    fault::Fault,
    remarks::Remarks,
    show::{Rounded, length},
    source::{Basis, UsedFor},
    thread::{System, Thread},
    units::{Millimetres, exceeds, within},
};
use clampbook_data::cite;

/// A question about lengths.
#[derive(Clone, Copy, Debug, Default)]
pub struct LengthAsk<'a> {
    /// Thread as said.
    pub thread: &'a str,
    /// What is clamped.
    pub stack: &'a GripStack,
    /// Distance of a shear plane from the head's bearing face, in mm.
    pub shear_plane_mm: Option<f64>,
}

/// A question about lengths, looked up.
#[derive(Clone, Debug, PartialEq)]
pub struct LengthQuestion<'c> {
    pub(super) thread: &'c Thread,
    pub(super) stack: Stack,
    pub(super) shear_plane: Option<f64>,
}

impl LengthQuestion<'_> {
    /// The thread.
    #[must_use]
    pub const fn thread(&self) -> &Thread {
        self.thread
    }
}

/// What the lengths say.
#[derive(Clone, Debug, PartialEq)]
pub struct Lengths {
    /// Thickness of everything clamped, in mm.
    pub grip_mm: f64,
    /// Minimum length that does, in mm.
    pub needed_mm: f64,
    /// Longest that does not bottom, in mm; only in a blind hole.
    pub longest_mm: Option<f64>,
    /// The next length that can be bought, in mm; `None` where there is none, or it would bottom.
    pub standard_mm: Option<f64>,
    /// Of the bolt at hand.
    pub at_hand: Option<AtHand>,
    /// Findings, assumptions, cautions, sources.
    pub remarks: Remarks<'static>,
}

/// What the bolt at hand does in this stack, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtHand {
    /// Thread engaged.
    pub engagement_mm: f64,
    /// How far it reaches into the tapped part, or past the stack.
    pub reach_mm: f64,
    /// How far it stands out of the nut; negative where it does not come through.
    pub protrusion_mm: Option<f64>,
    /// Length of full body.
    pub body_mm: f64,
    /// From the head to the first full thread.
    pub grip_length_mm: f64,
    /// Whether thread lies in the shear plane, where one was named.
    pub thread_in_shear_plane: Option<bool>,
}

impl Catalogue {
    /// Looks up a question about lengths.
    ///
    /// # Errors
    /// All faults, each with its field.
    pub fn resolve_length<'c>(
        &'c self,
        ask: &LengthAsk<'_>,
    ) -> Result<LengthQuestion<'c>, Vec<Fault>> {
        let mut faults = Vec::new();
        let thread = Fault::keep(&mut faults, "thread", self.thread(ask.thread));
        let stack = Stack::resolve(ask.stack, thread, &mut faults);
        let shear_plane = shear_plane(ask.shear_plane_mm, &mut faults);
        match (thread, stack) {
            (Some(thread), Some(stack)) if faults.is_empty() => Ok(LengthQuestion {
                thread,
                stack,
                shear_plane,
            }),
            _ => Err(faults),
        }
    }
}

pub(super) fn shear_plane(asked: Option<f64>, faults: &mut Vec<Fault>) -> Option<f64> {
    let checked = within("distance of the shear plane", asked?, (0.01, 3000.0), "mm");
    Fault::keep(faults, "shear_plane_mm", checked)
}

/// Answers a question about lengths; it always succeeds.
#[must_use]
pub fn fit_length(question: &LengthQuestion<'_>) -> Lengths {
    lengths(question.thread, &question.stack, question.shear_plane)
}

/// Lengths of a stack that was looked up.
pub(super) fn lengths(thread: &Thread, stack: &Stack, shear_plane: Option<f64>) -> Lengths {
    let mut remarks = Remarks::default();
    let (grip, p) = (stack.grip(), thread.pitch().get());
    let (needed, longest) = match stack.tapped {
        None => {
            remarks.assume("At least one full thread past the nut.");
            remarks.cite(&[cite::AC_43_13_1B_7_37], UsedFor::Rule, Basis::Found);
            (grip + stack.nut_height.get() + p, None)
        }
        Some(tapped) => {
            remarks.assume("Engagement by rule of thumb for the tapped metal.");
            let engaged = tapped.metal.trade_engagement() * thread.diameter().get();
            let longest = tapped.blind.then(|| grip + tapped.full_thread.get() - p);
            (grip + engaged, longest)
        }
    };
    let source = match thread.system() {
        System::Metric => (cite::ISO_888, Basis::Memory),
        System::Inch | System::British => (cite::LENGTH_PRACTICE, Basis::CommonPractice),
    };
    remarks.cite(&[source.0], UsedFor::Dimensions, source.1);
    stack.cite(&mut remarks);
    if let Some(head) = stack.head {
        head.judge(thread.system(), &mut remarks);
    }
    let standard_mm = next_standard_length(thread.system(), needed)
        .filter(|l| longest.is_none_or(|longest| !exceeds(*l, longest)));
    if standard_mm.is_none() {
        remarks.mind("No standard length fits: change washers, thread deeper, or have one made.");
    }
    let at_hand = stack
        .bolt_length
        .zip(stack.thread_length)
        .map(|(length, thread_length)| {
            at_hand(
                thread,
                stack,
                (length, thread_length),
                shear_plane,
                &mut remarks,
            )
        });
    Lengths {
        grip_mm: grip,
        needed_mm: needed,
        longest_mm: longest,
        standard_mm,
        at_hand,
        remarks,
    }
}

fn at_hand(
    thread: &Thread,
    stack: &Stack,
    (length, thread_length): (Millimetres, Millimetres),
    shear_plane: Option<f64>,
    remarks: &mut Remarks<'_>,
) -> AtHand {
    let (grip, p) = (stack.grip(), thread.pitch());
    let reach = length.get() - grip;
    let (body_mm, grip_length_mm) = body_and_grip(length, thread_length, p);
    let protrusion = stack
        .tapped
        .is_none()
        .then(|| reach - stack.nut_height.get());
    let room = match stack.tapped {
        Some(tapped) => tapped.full_thread.get(),
        None => stack.nut_height.get(),
    };
    let engaged = reach.clamp(0.0, room);
    let thread_in_shear_plane = shear_plane.map(|plane| exceeds(plane, body_mm));
    if !stack.thread_length_was_given {
        remarks.assume("Thread length of the standard's bolt; measure yours where it matters.");
        let source = match thread.system() {
            System::Metric => cite::ISO_4014,
            System::Inch | System::British => cite::ASME_B18_2_1,
        };
        remarks.cite(&[source], UsedFor::Dimensions, Basis::Memory);
    }
    judge(
        &Judged {
            reach,
            protrusion,
            grip,
            grip_length: grip_length_mm,
            p: p.get(),
            thread_in_shear_plane,
            shear_plane_over_body: shear_plane
                .map_or(0.0, |plane| plane / body_mm.clamp(p.get(), f64::MAX)),
        },
        stack,
        thread.system(),
        remarks,
    );
    AtHand {
        engagement_mm: engaged,
        reach_mm: reach,
        protrusion_mm: protrusion,
        body_mm,
        grip_length_mm,
        thread_in_shear_plane,
    }
}

/// Lengths that are judged, in mm.
struct Judged {
    reach: f64,
    protrusion: Option<f64>,
    grip: f64,
    grip_length: f64,
    p: f64,
    thread_in_shear_plane: Option<bool>,
    shear_plane_over_body: f64,
}

fn judge(lengths: &Judged, stack: &Stack, family: System, remarks: &mut Remarks<'_>) {
    let Judged { reach, p, grip, .. } = *lengths;
    if reach <= 0.0 {
        remarks.find(
            "too-short",
            Severity::Stop,
            grip / (grip + reach),
            format!(
                "The bolt ends inside the stack: {} is clamped.",
                length(grip, family, Rounded::Up)
            ),
        );
        return;
    }
    if let Some(tapped) = stack.tapped.filter(|tapped| tapped.blind) {
        let usable = tapped.full_thread.get() - p;
        if exceeds(reach, usable) {
            remarks.find(
                "bottoming",
                Severity::Stop,
                // A hole without even one pitch of thread has nothing to compare with.
                if usable > 0.0 { reach / usable } else { 2.0 },
                format!(
                    "The bolt reaches {} into full thread of {}, of which the last pitch does not count: \
                     it bottoms, and the wrench clicks with nothing clamped.",
                    length(reach, family, Rounded::Up),
                    length(tapped.full_thread.get(), family, Rounded::Down)
                ),
            );
        }
    }
    if exceeds(lengths.grip_length, grip) {
        remarks.find(
            "run-out",
            Severity::Stop,
            lengths.grip_length / grip,
            format!(
                "Full thread begins {} under the head, but only {} are clamped: the thread runs out before it clamps. \
                 Take a shorter bolt, or at most two washers more.",
                length(lengths.grip_length, family, Rounded::Up),
                length(grip, family, Rounded::Down)
            ),
        );
    }
    match lengths.protrusion {
        Some(out) if exceeds(stack.nut_height.get(), reach) => remarks.find(
            "nut-not-filled",
            Severity::Stop,
            (grip + reach - out) / (grip + reach),
            format!(
                "The bolt ends {} inside the nut.",
                length(-out, family, Rounded::Up)
            ),
        ),
        Some(out) if exceeds(p, out) => remarks.find(
            "protrusion",
            Severity::Caution,
            (grip + reach - out + p) / (grip + reach),
            format!(
                "{} sticks out of the nut; at least one full thread, {}, is needed.",
                length(out, family, Rounded::Down),
                length(p, family, Rounded::Up)
            ),
        ),
        _ => {}
    }
    if lengths.thread_in_shear_plane == Some(true) {
        remarks.find(
            "thread-in-shear-plane",
            Severity::Caution,
            lengths.shear_plane_over_body,
            "Thread lies in the shear plane: the bolt carries less there and wears the hole."
                .to_owned(),
        );
    }
}
