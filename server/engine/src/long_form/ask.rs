//! A question for the long form, as put and looked up.

use super::Seat;
use crate::{
    Purpose,
    ask::DEFAULT_PROOF_SHARE,
    catalogue::Catalogue,
    fault::{Fault, FaultReason},
    grade::{Grade, Strength},
    hex::AcrossFlats,
    thread::Thread,
    torque::load,
    units::{Friction, Millimetres, Newtons, Share, within},
};

/// What is asked, in the words it was asked in.
#[derive(Clone, Copy, Debug, Default)]
pub struct LongAsk<'a> {
    /// Thread as said.
    pub thread: &'a str,
    /// Grade of the bolt as said.
    pub grade: &'a str,
    /// Coefficient of friction in the thread, 0.02 to 0.80.
    pub thread_friction: f64,
    /// Coefficient of friction under the turned part, 0.02 to 0.80.
    pub bearing_friction: f64,
    /// Lowest and highest coefficient that may be met, for both.
    pub friction_low: Option<f64>,
    /// See `friction_low`.
    pub friction_high: Option<f64>,
    /// Mean diameter of the seat, in mm; of the hexagon head when absent.
    pub bearing_diameter_mm: Option<f64>,
    /// Half angle of a cone seat, in degrees; a flat seat when absent.
    pub cone_half_angle_degrees: Option<f64>,
    /// Whether thread and turned face are lubricated; decides the scatter.
    pub lubricated: bool,
    /// Share of proof to aim at; 0.75 when nothing else is said.
    pub proof_share: Option<f64>,
    /// Share of yield to aim at, tension and twist together.
    pub yield_share: Option<f64>,
    /// Clamp load to aim at, in N.
    pub clamp_load_n: Option<f64>,
    /// What the part does in its joint.
    pub purpose: Purpose,
}

/// What the clamp load is aimed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LongTarget {
    /// A share of proof, or of 0.85 yield where the standard has no proof.
    ShareOfProof(Share),
    /// A share of yield while tightening, von Mises.
    ShareOfYield(Share),
    /// A clamp load somebody wants.
    ClampLoad(Newtons),
}

/// A question with everything looked up; it always has an answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LongQuestion<'c> {
    pub(super) thread: &'c Thread,
    pub(super) grade: &'c Grade,
    pub(super) strength: Strength,
    pub(super) thread_friction: Friction,
    pub(super) bearing_friction: Friction,
    pub(super) friction_band: Option<(Friction, Friction)>,
    pub(super) seat: Seat,
    /// The part whose bearing face was taken, where no diameter was given.
    pub(super) hex: Option<AcrossFlats>,
    pub(super) lubricated: bool,
    pub(super) target: LongTarget,
    pub(super) share_by_default: bool,
}

impl<'c> LongQuestion<'c> {
    /// The thread.
    #[must_use]
    pub const fn thread(&self) -> &'c Thread {
        self.thread
    }

    /// The grade.
    #[must_use]
    pub const fn grade(&self) -> &'c Grade {
        self.grade
    }
}

/// Half angles of cone seats, in degrees: blunter is nearly flat, sharper locks itself.
const CONE: (f64, f64) = (10.0, 80.0);

impl Catalogue {
    /// Looks up a question for the long form.
    ///
    /// # Errors
    /// All faults, each with its field.
    pub fn resolve_long_form<'c>(
        &'c self,
        ask: &LongAsk<'_>,
    ) -> Result<LongQuestion<'c>, Vec<Fault>> {
        let mut faults = Vec::new();
        if let Some(refusal) = ask.purpose.refusal() {
            faults.push(Fault::refused(ask.purpose, refusal));
        }
        let (thread, bolt) = self.bolt(ask.thread, ask.grade, &mut faults);
        let mut friction = |field, value| Fault::keep(&mut faults, field, Friction::new(value));
        let thread_friction = friction("thread_friction", ask.thread_friction);
        let bearing_friction = friction("bearing_friction", ask.bearing_friction);
        let low = ask.friction_low.map(|v| friction("friction_low", v));
        let high = ask.friction_high.map(|v| friction("friction_high", v));
        let friction_band = band(
            low,
            high,
            (ask.thread_friction, ask.bearing_friction),
            &mut faults,
        );
        let (seat, hex) = seat(ask, thread, &mut faults);
        let tensile = thread.zip(bolt).map(|(thread, (_, strength))| {
            load(strength.tensile(), thread.geometry().tensile_stress_area)
        });
        let target = target(ask, bolt.map(|(_, s)| s), tensile, &mut faults);
        match (
            thread,
            bolt,
            thread_friction,
            bearing_friction,
            seat,
            target,
        ) {
            (
                Some(thread),
                Some((grade, strength)),
                Some(thread_friction),
                Some(bearing_friction),
                Some(seat),
                Some(target),
            ) if faults.is_empty() => Ok(LongQuestion {
                thread,
                grade,
                strength,
                thread_friction,
                bearing_friction,
                friction_band,
                seat,
                hex,
                lubricated: ask.lubricated,
                target,
                share_by_default: [ask.proof_share, ask.yield_share, ask.clamp_load_n]
                    .iter()
                    .all(Option::is_none),
            }),
            _ => Err(faults),
        }
    }
}

/// Both ends of the friction, around what was asked.
fn band(
    low: Option<Option<Friction>>,
    high: Option<Option<Friction>>,
    (thread, bearing): (f64, f64),
    faults: &mut Vec<Fault>,
) -> Option<(Friction, Friction)> {
    let mut contradicts =
        |field, why| faults.push(Fault::new(field, FaultReason::Contradicts { why }));
    match (low, high) {
        (None, None) => None,
        (Some(_), None) => {
            contradicts("friction_high", "is required beside friction_low");
            None
        }
        (None, Some(_)) => {
            contradicts("friction_low", "is required beside friction_high");
            None
        }
        (Some(low), Some(high)) => {
            let (low, high) = (low?, high?);
            if low.get() > thread || low.get() > bearing {
                contradicts(
                    "friction_low",
                    "is above thread_friction or bearing_friction",
                );
            }
            if high.get() < thread || high.get() < bearing {
                contradicts(
                    "friction_high",
                    "is below thread_friction or bearing_friction",
                );
            }
            Some((low, high))
        }
    }
}

fn seat(
    ask: &LongAsk<'_>,
    thread: Option<&Thread>,
    faults: &mut Vec<Fault>,
) -> (Option<Seat>, Option<AcrossFlats>) {
    const FIELD: &str = "bearing_diameter_mm";
    let (diameter, hex) = match ask.bearing_diameter_mm {
        Some(given) => {
            let d = thread.map_or(Millimetres::LOW, |t| t.diameter().get());
            let checked = within("mean bearing diameter", given, (d, 10.0 * d), "mm");
            (
                Fault::keep(faults, FIELD, checked).map(Millimetres::computed),
                None,
            )
        }
        None => {
            let hex = thread.and_then(AcrossFlats::of);
            if let (Some(thread), None) = (thread, hex) {
                faults.push(Fault::new(
                    FIELD,
                    FaultReason::NoAcrossFlats {
                        thread: thread.to_string(),
                        instead: FIELD,
                    },
                ));
            }
            let mean =
                |h: AcrossFlats| (h.bearing_diameter().get() + h.clearance_hole().get()) / 2.0;
            (hex.map(mean).map(Millimetres::computed), hex)
        }
    };
    let angle = ask.cone_half_angle_degrees.map(|angle| {
        let checked = within("half angle of the cone", angle, CONE, "degrees");
        Fault::keep(faults, "cone_half_angle_degrees", checked)
    });
    let seat = match angle {
        None => diameter.map(|mean_diameter| Seat::Flat { mean_diameter }),
        Some(angle) => diameter
            .zip(angle)
            .map(|(mean_diameter, half_angle_deg)| Seat::Cone {
                mean_diameter,
                half_angle_deg,
            }),
    };
    (seat, hex)
}

fn target(
    ask: &LongAsk<'_>,
    strength: Option<Strength>,
    tensile: Option<Newtons>,
    faults: &mut Vec<Fault>,
) -> Option<LongTarget> {
    let mut said = [
        ("proof_share", ask.proof_share),
        ("yield_share", ask.yield_share),
        ("clamp_load_n", ask.clamp_load_n),
    ]
    .into_iter()
    .filter_map(|(field, value)| Some((field, value?)));
    let (first, second) = (said.next(), said.next());
    if let (Some((one, _)), Some((two, _))) = (first, second) {
        faults.push(Fault::new(one, FaultReason::Excludes { other: two }));
        faults.push(Fault::new(two, FaultReason::Excludes { other: one }));
        return None;
    }
    match first {
        Some(("clamp_load_n", wanted)) => {
            let high = tensile.map_or(Newtons::HIGH, Newtons::get);
            let what = "clamp load, which may not exceed the bolt's tensile load,";
            let checked = within(what, wanted, (Newtons::LOW, high), Newtons::UNIT);
            Fault::keep(faults, "clamp_load_n", checked)
                .map(|n| LongTarget::ClampLoad(Newtons::computed(n)))
        }
        Some((field @ "yield_share", share)) => {
            if strength.is_some_and(|s| s.yield_stress().is_none()) {
                let why = "the standard has no yield stress for this grade; use proof_share";
                faults.push(Fault::new(field, FaultReason::Contradicts { why }));
            }
            let checked = within("share of yield", share, (Share::LOW, Share::HIGH), "");
            Fault::keep(faults, field, checked)
                .map(|s| LongTarget::ShareOfYield(Share::computed(s)))
        }
        other => {
            let share = other.map_or(DEFAULT_PROOF_SHARE, |(_, share)| share);
            Fault::keep(faults, "proof_share", Share::new(share)).map(LongTarget::ShareOfProof)
        }
    }
}
