//! Which threads a measured one may be.

use super::{LookAlike, Measured};
use crate::{
    catalogue::Catalogue,
    source::{Basis, Cited, UsedFor},
    strength::limits::{Fit, external_limits, internal_limits},
    thread::{System, Thread},
};
use clampbook_data::{Source, cite};

/// Error of a gauge of the flank angle, in degrees.
const ANGLE_ERROR_DEG: f64 = 2.0;
/// How many of the nearest threads are told when none agrees.
const NEAREST: usize = 3;

/// How a thread of the catalogue stands against the measurements.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Agrees with everything that was measured, and enough was measured.
    Fits,
    /// Agrees only if worn, or the pitch was not measured.
    MayFit,
    /// Contradicts a measurement.
    DoesNotFit,
}

/// A measurement that contradicts a thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misfit {
    /// The part is too thin, or the bore too narrow.
    TooSmall,
    /// The part is too thick, or the bore too wide.
    TooLarge,
    /// The pitch is another.
    Pitch,
    /// The angle between the flanks is another.
    FlankAngle,
}

impl Misfit {
    /// One plain sentence.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::TooSmall => "Measured smaller than its minimum size, even when worn.",
            Self::TooLarge => "Measured larger than its maximum size, even when worn.",
            Self::Pitch => "Its pitch is different.",
            Self::FlankAngle => "Its flank angle is different.",
        }
    }
}

/// One thread and how it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate<'c> {
    /// The thread.
    pub thread: &'c Thread,
    /// How it stands.
    pub verdict: Verdict,
    /// Whether the part must be worn for it.
    pub only_if_worn: bool,
    /// What contradicts it.
    pub misfits: Vec<Misfit>,
    /// Basic size less measured size, in mm.
    pub off_mm: f64,
}

/// What measurements lead to.
#[derive(Clone, Debug, PartialEq)]
pub struct Identified<'c> {
    /// Threads that fit, may fit, and those that are taken for them but do not; the likeliest first. The nearest ones
    /// when none agrees.
    pub candidates: Vec<Candidate<'c>>,
    /// What to try next to tell them apart.
    pub try_next: Vec<String>,
    /// Look-alikes among the candidates that fit or may fit.
    pub look_alikes: Vec<LookAlike<'c>>,
    /// Where limits and errors are from.
    pub sources: Vec<Cited<'c>>,
}

impl Catalogue {
    /// Lists what a measured thread may be.
    ///
    /// A size agrees when the measured one, give or take its error, lies inside the thread's limits:
    /// 2A/2B, 6g/6H, or for British threads the basic size less 0.12 P outside and plus 0.2 P + 0.1 mm
    /// inside. Wear makes screws thinner and bores wider.
    #[must_use]
    pub fn identify_thread(&self, measured: &Measured) -> Identified<'_> {
        let mut candidates: Vec<_> = self.threads().iter().map(|t| judge(t, measured)).collect();
        let told_apart: Vec<&str> = self
            .look_alikes()
            .filter(|pair| {
                let agrees = |t: &Thread| {
                    let found = candidates.iter().find(|c| c.thread.id() == t.id());
                    found.is_some_and(|c| c.verdict < Verdict::DoesNotFit)
                };
                agrees(pair.external()) || agrees(pair.internal())
            })
            .flat_map(|pair| [pair.external().id(), pair.internal().id()])
            .collect();
        candidates.sort_by(|a, b| {
            let apart = |c: &Candidate<'_>| {
                let pitch = measured
                    .pitch
                    .map_or(0.0, |p| (p - c.thread.pitch().get()).abs());
                pitch + c.off_mm.abs()
            };
            (a.verdict.cmp(&b.verdict)).then(apart(a).total_cmp(&apart(b)))
        });
        let none_agrees = (candidates.first()).is_none_or(|c| c.verdict == Verdict::DoesNotFit);
        if none_agrees {
            candidates.truncate(NEAREST);
        }
        candidates.retain(|c| {
            none_agrees || c.verdict < Verdict::DoesNotFit || told_apart.contains(&c.thread.id())
        });
        let agreeing: Vec<&Thread> = agreeing(&candidates);
        let look_alikes = self
            .look_alikes()
            .filter(|pair| {
                agreeing
                    .iter()
                    .any(|t| t.id() == pair.external().id() || t.id() == pair.internal().id())
            })
            .collect();
        Identified {
            sources: sources(&candidates),
            try_next: try_next(&agreeing, measured),
            look_alikes,
            candidates,
        }
    }
}

/// The standards whose limits decided, and the trade's errors of measuring.
fn sources<'c>(candidates: &[Candidate<'_>]) -> Vec<Cited<'c>> {
    let limits: [(System, &'static Source, Basis); 3] = [
        (System::Inch, cite::ASME_B1_1, Basis::Computed),
        (System::Metric, cite::ISO_965_1, Basis::Computed),
        (System::British, cite::BS_84, Basis::Memory),
    ];
    let used = |system| candidates.iter().any(|c| c.thread.system() == system);
    let cited = |(source, used_for, basis)| Cited {
        source,
        used_for,
        basis,
    };
    limits
        .into_iter()
        .filter(|(system, ..)| used(*system))
        .map(|(_, source, basis)| cited((source, UsedFor::Thread, basis)))
        .chain([cited((
            cite::GAUGE_PRACTICE,
            UsedFor::Rule,
            Basis::CommonPractice,
        ))])
        .collect()
}

/// Those that fit; those that may fit when none does.
fn agreeing<'c>(candidates: &[Candidate<'c>]) -> Vec<&'c Thread> {
    let best = candidates.first().map(|c| c.verdict);
    let best = best.filter(|v| *v < Verdict::DoesNotFit);
    candidates
        .iter()
        .filter(|c| Some(c.verdict) == best)
        .map(|c| c.thread)
        .collect()
}

fn judge<'c>(thread: &'c Thread, measured: &Measured) -> Candidate<'c> {
    let (minimum, most) = sizes(thread, measured.internal);
    let (low, high) = (
        measured.diameter - measured.diameter_error,
        measured.diameter + measured.diameter_error,
    );
    // Wear lets a screw be thinner and a bore wider than new.
    let (worn_least, worn_most) = match measured.internal {
        false => (minimum - measured.wear, most),
        true => (minimum, most + measured.wear),
    };
    let mut misfits = Vec::new();
    if high < worn_least {
        misfits.push(Misfit::TooSmall);
    }
    if low > worn_most {
        misfits.push(Misfit::TooLarge);
    }
    // With a hair of slack for decimals.
    let is_off = |value: Option<f64>, basic: f64, error: f64| {
        value.is_some_and(|v| !(0.0..=error + 1e-9).contains(&(v - basic).abs()))
    };
    if is_off(measured.pitch, thread.pitch().get(), measured.pitch_error) {
        misfits.push(Misfit::Pitch);
    }
    if is_off(
        measured.flank_angle,
        thread.flank_angle_deg(),
        ANGLE_ERROR_DEG,
    ) {
        misfits.push(Misfit::FlankAngle);
    }
    let only_if_worn = misfits.is_empty() && (high < minimum || low > most);
    let verdict = if !misfits.is_empty() {
        Verdict::DoesNotFit
    } else if only_if_worn || measured.pitch.is_none() {
        Verdict::MayFit
    } else {
        Verdict::Fits
    };
    let basic = match measured.internal {
        false => thread.diameter(),
        true => thread.geometry().internal_minor_diameter,
    };
    Candidate {
        thread,
        verdict,
        only_if_worn,
        misfits,
        off_mm: basic.get() - measured.diameter,
    }
}

/// Minimum and maximum size of a new part, in mm.
fn sizes(thread: &Thread, internal: bool) -> (f64, f64) {
    let p = thread.pitch().get();
    let (d, core) = (
        thread.diameter().get(),
        thread.geometry().internal_minor_diameter.get(),
    );
    let limits = match internal {
        false => external_limits(thread, Fit::Medium).map(|l| l.major),
        true => internal_limits(thread, Fit::Medium).map(|l| l.minor),
    };
    match (limits, internal) {
        (Some(limits), _) => (limits.minimum.get(), limits.most.get()),
        (None, false) => (d - 0.12 * p, d),
        (None, true) => (core, core + 0.2 * p + 0.1),
    }
}

/// Gauges that tell the remaining threads apart.
fn try_next(agreeing: &[&Thread], measured: &Measured) -> Vec<String> {
    if agreeing.is_empty() {
        return vec![
            "Nothing in the tables agrees: measure at an unworn place, count the threads over 25 mm, and check whether it is tapered.".to_owned(),
        ];
    }
    let mut tries = Vec::new();
    let mut pitches: Vec<f64> = agreeing.iter().map(|t| t.pitch().get()).collect();
    pitches.sort_by(f64::total_cmp);
    pitches.dedup();
    if measured.pitch.is_none() {
        let gauges: Vec<String> = pitches.iter().map(|p| gauge(*p, agreeing)).collect();
        tries.push(format!("Pitch gauge: {}.", gauges.join(", ")));
    }
    for pair in pitches.windows(2) {
        if let [fine, coarse] = *pair
            && measured.pitch.is_some()
        {
            // Over this many threads the two are half a thread apart.
            // A hair of slack, so that a whole number of inch threads stays whole in millimetres.
            let threads = (0.5 * coarse / (coarse - fine) - 1e-9).ceil();
            tries.push(format!(
                "Pitch gauges {} and {}: over {threads} threads they are half a thread apart.",
                gauge(fine, agreeing),
                gauge(coarse, agreeing)
            ));
        }
    }
    let mut angles: Vec<f64> = agreeing.iter().map(|t| t.flank_angle_deg()).collect();
    angles.sort_by(f64::total_cmp);
    angles.dedup();
    if let [first, .., last] = angles[..] {
        tries.push(format!(
            "Gauge of the flank angle: {first} against {last} degrees; round crests suggest Whitworth form."
        ));
    }
    tries
}

/// A pitch as its gauge is stamped.
fn gauge(pitch: f64, agreeing: &[&Thread]) -> String {
    let of_pitch = agreeing.iter().find(|t| t.pitch().get() == pitch);
    match of_pitch.and_then(|t| t.threads_per_inch()) {
        Some(tpi) => format!("{tpi} threads per inch"),
        None => format!("{pitch} mm"),
    }
}
