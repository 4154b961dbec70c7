//! What a torque wrench is set to, and which wrench will do.
//!
//! Order of working: torque, plus prevailing torque where the published value leaves it out, then the adapter, then the
//! wrench's range, then its graduation.

mod finding;
mod reading;

pub use finding::WrenchFinding;
pub use reading::Reading;

use crate::{
    answer::Severity,
    few::Few,
    source::Source,
    units::{Millimetres, NewtonMetres, OutOfRange, exceeds, within},
};
use clampbook_data::cite;

/// Where it is said that prevailing torque is added.
pub const RUN_ON_SOURCE: &Source = cite::AC_43_13_1B_7_40;
/// Where the effective length of an adapter comes from.
pub const ADAPTER_SOURCE: &Source = cite::ARMY_TM_9_254;
/// Where range and graduation of a wrench come from.
pub const RANGE_SOURCE: &Source = cite::ARMY_TM_1_1500_204_23_9;
/// Where the permissible deviation comes from; from memory.
pub const DEVIATION_SOURCE: &Source = cite::ISO_6789_1;

/// Maximum torque of a tool up to which the wider deviation holds, in N·m. ISO 6789-1.
pub const SPLIT_NM: f64 = 10.0;
/// Permissible deviation of tools up to [`SPLIT_NM`], as a share. ISO 6789-1.
pub const SMALL_TOOL_DEVIATION: f64 = 0.06;
/// Permissible deviation of larger tools, as a share. ISO 6789-1.
pub const LARGE_TOOL_DEVIATION: f64 = 0.04;
/// Below this share of full scale no accuracy is claimed. US Army TM 1-1500-204-23-9.
pub const LEAST_SHARE_OF_SCALE: f64 = 0.20;
/// Where a wrench works best, as shares of full scale. US Army TM 1-1500-204-23-9.
pub const BEST_SHARE_OF_SCALE: (f64, f64) = (0.30, 0.80);
/// A graduation is at most this share of the setting. US Army TM 1-1500-204-23-9.
pub const MOST_GRADUATION: f64 = 0.10;

/// A tool between wrench and nut that lengthens the lever, such as a crowfoot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adapter {
    wrench: f64,
    adapter: f64,
    angle: f64,
}

impl Adapter {
    /// * `wrench`: lever L of the wrench, from the middle of the grip to the middle of the square, in mm
    /// * `adapter`: E, from the middle of the square to the middle of the nut, in mm
    /// * `angle_degrees`: between the two, 0 when the adapter lengthens the wrench in line
    ///
    /// # Errors
    /// An angle outside 0 to 180°, an adapter longer than the wrench, or one that points back so far that less than
    /// half of the lever is left.
    pub fn new(
        wrench: Millimetres,
        adapter: Millimetres,
        angle_degrees: f64,
    ) -> Result<Self, OutOfRange> {
        let (l, e) = (wrench.get(), adapter.get());
        let angle = within(
            "angle of the adapter",
            angle_degrees,
            (0.0, 180.0),
            "degrees",
        )?;
        within("length of the adapter", e, (Millimetres::LOW, l), "mm")?;
        let lever = l + e * angle.to_radians().cos();
        within("lever left by the adapter", lever, (l / 2.0, 2.0 * l), "mm")?;
        Ok(Self {
            wrench: l,
            adapter: e,
            angle,
        })
    }

    /// What the setting is multiplied by.
    ///
    /// L/(L + E·cos θ)
    ///
    /// # Sources
    /// US Army TM 9-254 (effective length at an angle); FAA AC 43.13-1B, chapter 7 (in line).
    /// # Example
    /// L 12 in, E 3 in: 100 becomes 80.0 in line, 85.0 at 45°, 100 at 90°.
    /// ```
    /// # use clampbook_engine::{wrench::Adapter, units::*};
    /// let inch = |v: f64| Millimetres::new(v * 25.4);
    /// for (angle, setting) in [(0.0, 80.0), (45.0, 85.0), (90.0, 100.0)] {
    ///     let factor = Adapter::new(inch(12.0)?, inch(3.0)?, angle)?.factor();
    ///     assert!((100.0 * factor - setting).abs() < 0.05);
    /// }
    /// # Ok::<(), OutOfRange>(())
    /// ```
    #[must_use]
    pub fn factor(&self) -> f64 {
        self.wrench / (self.wrench + self.adapter * self.angle.to_radians().cos())
    }
}

/// What the wrench must show.
///
/// (T + prevailing torque)·L/(L + E·cos θ)
///
/// * `t`: torque wanted at the fastener, without prevailing torque, in N·m
/// * `prevailing_torque`: measured prevailing torque, only where the source says that its value leaves it out
/// * `adapter`: if there is one
///
/// Returns the setting, in N·m, not yet rounded to a graduation.
///
/// # Errors
/// A torque nobody sets.
/// # Sources
/// FAA AC 43.13-1B, paragraph 7-40 (prevailing torque is added); US Army TM 9-254 (adapter).
/// # Example
/// 30 lbf ft, L 12 in, E 3 in in line: 24 lbf ft; with 5 lbf ft of prevailing torque 28.
/// ```
/// # use clampbook_engine::{wrench::{Adapter, setting}, units::*};
/// let lbf_ft = |v: f64| NewtonMetres::new(v * NEWTON_METRES_PER_POUND_FORCE_FOOT);
/// let adapter = Adapter::new(Millimetres::new(304.8)?, Millimetres::new(76.2)?, 0.0)?;
/// let set = setting(lbf_ft(30.0)?, None, Some(&adapter))?;
/// assert!((set.get() - lbf_ft(24.0)?.get()).abs() < 1e-9);
/// let set = setting(lbf_ft(30.0)?, Some(lbf_ft(5.0)?), Some(&adapter))?;
/// assert!((set.get() - lbf_ft(28.0)?.get()).abs() < 1e-9);
/// # Ok::<(), OutOfRange>(())
/// ```
pub fn setting(
    t: NewtonMetres,
    prevailing_torque: Option<NewtonMetres>,
    adapter: Option<&Adapter>,
) -> Result<NewtonMetres, OutOfRange> {
    let at_fastener = t.get() + prevailing_torque.map_or(0.0, NewtonMetres::get);
    NewtonMetres::new(at_fastener * adapter.map_or(1.0, Adapter::factor))
}

/// Permissible deviation of a hand torque tool, as a share of the reading.
///
/// # Sources
/// ISO 6789-1: 6 % where the tool's *maximum* torque is at most 10 N·m, 4 % above.
/// ```
/// # use clampbook_engine::{wrench::permissible_deviation, units::NewtonMetres};
/// assert_eq!(permissible_deviation(NewtonMetres::new(10.0)?), 0.06);
/// assert_eq!(permissible_deviation(NewtonMetres::new(10.1)?), 0.04);
/// # Ok::<(), clampbook_engine::units::OutOfRange>(())
/// ```
#[must_use]
pub fn permissible_deviation(maximum: NewtonMetres) -> f64 {
    if maximum.get() <= SPLIT_NM {
        SMALL_TOOL_DEVIATION
    } else {
        LARGE_TOOL_DEVIATION
    }
}

/// What is known of a wrench's calibration.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Calibration {
    /// Nothing.
    Unknown,
    /// In date.
    InDate,
    /// Overdue.
    Overdue,
    /// The wrench was found wrong.
    KnownBad,
}

/// A torque wrench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wrench {
    /// Lowest marked torque, if it has one.
    pub minimum: Option<NewtonMetres>,
    /// Full scale.
    pub maximum: NewtonMetres,
    /// Step of the scale.
    pub graduation: NewtonMetres,
    /// Deviation its maker or certificate states, as a share; ISO 6789-1 otherwise.
    pub stated_deviation: Option<f64>,
    /// What is known of its calibration.
    pub calibration: Calibration,
}

/// Widest deviation that may be stated, as a share.
pub const DEVIATIONS: (f64, f64) = (0.002, 0.10);

impl Wrench {
    /// Checks what belongs together.
    ///
    /// # Errors
    /// A lowest marked torque or a graduation above full scale, a deviation nobody states.
    pub fn checked(self) -> Result<Self, (&'static str, OutOfRange)> {
        let top = self.maximum.get();
        let below = |field, quantity, value: NewtonMetres| {
            let range = (NewtonMetres::LOW, top);
            within(quantity, value.get(), range, "N.m").map_err(|e| (field, e))
        };
        if let Some(minimum) = self.minimum {
            below("minimum_torque", "lowest marked torque", minimum)?;
        }
        below("graduation", "graduation", self.graduation)?;
        if let Some(stated) = self.stated_deviation {
            within("stated deviation", stated, DEVIATIONS, "")
                .map_err(|e| ("stated_deviation_share", e))?;
        }
        Ok(self)
    }

    /// Its deviation either way, as a share.
    #[must_use]
    pub fn deviation(&self) -> f64 {
        self.stated_deviation
            .unwrap_or_else(|| permissible_deviation(self.maximum))
    }

    /// What it is set to for a setting, and whether it will do.
    #[must_use]
    pub fn judge(&self, setting: NewtonMetres) -> Fit {
        let steps = (setting.get() / self.graduation.get()).round();
        let rounded = steps * self.graduation.get();
        let findings = self.findings(setting, rounded);
        let stopped = findings.iter().any(|f| f.severity() == Severity::Stop);
        let deviation = self.deviation();
        Fit {
            set: (!stopped).then(|| NewtonMetres::computed(rounded)),
            rounding: rounded / setting.get() - 1.0,
            share_of_scale: setting.get() / self.maximum.get(),
            minimum: NewtonMetres::computed(rounded * (1.0 - deviation)),
            maximum: NewtonMetres::computed(rounded * (1.0 + deviation)),
            findings,
        }
    }

    fn findings(&self, setting: NewtonMetres, rounded: f64) -> Few<WrenchFinding, 6> {
        let mut list = Few::new();
        let share = setting.get() / self.maximum.get();
        match self.calibration {
            Calibration::KnownBad => list.push(WrenchFinding::KnownBad),
            Calibration::Overdue => list.push(WrenchFinding::Overdue),
            Calibration::Unknown => list.push(WrenchFinding::NotKnownWhetherCalibrated),
            Calibration::InDate => {}
        }
        let full = self.maximum.get();
        if exceeds(share, 1.0) || exceeds(rounded, full) {
            list.push(WrenchFinding::AboveFullScale);
        }
        let below_a_fifth = exceeds(LEAST_SHARE_OF_SCALE, share);
        if below_a_fifth {
            list.push(WrenchFinding::BelowAFifth);
        }
        if self.minimum.is_some_and(|minimum| {
            exceeds(minimum.get(), setting.get()) || exceeds(minimum.get(), rounded)
        }) {
            list.push(WrenchFinding::BelowLowestMark);
        }
        if exceeds(self.graduation.get(), MOST_GRADUATION * setting.get()) {
            list.push(WrenchFinding::CoarseGraduation);
        }
        let (from, to) = BEST_SHARE_OF_SCALE;
        let is_low = !below_a_fifth && exceeds(from, share);
        let is_high = exceeds(share, to) && !exceeds(share, 1.0);
        if is_low || is_high {
            list.push(WrenchFinding::OutsideBestRange);
        }
        list
    }
}

/// How a wrench fits a setting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// What to set, rounded to the graduation; absent where the wrench must not be used.
    pub set: Option<NewtonMetres>,
    /// What the rounding changes, as a share of the setting.
    pub rounding: f64,
    /// The setting over full scale.
    pub share_of_scale: f64,
    /// Minimum torque the tool may really give at what is set.
    pub minimum: NewtonMetres,
    /// Maximum torque the tool may really give at what is set.
    pub maximum: NewtonMetres,
    /// What speaks against it.
    pub findings: Few<WrenchFinding, 6>,
}

impl Fit {
    fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|f| f.severity()).max()
    }
}

/// The wrench to take: none with a stop; fewest objections, then nearest to the middle of its best range, then the
/// finest scale.
#[must_use]
pub fn choose(wrenches: &[Wrench], setting: NewtonMetres) -> Option<usize> {
    let middle = f64::midpoint(BEST_SHARE_OF_SCALE.0, BEST_SHARE_OF_SCALE.1);
    let fits = wrenches.iter().enumerate().filter_map(|(index, wrench)| {
        let fit = wrench.judge(setting);
        fit.set?;
        let off = (fit.share_of_scale - middle).abs();
        Some((index, fit.worst(), off, wrench.graduation.get()))
    });
    fits.min_by(|a, b| {
        a.1.cmp(&b.1)
            .then(a.2.total_cmp(&b.2))
            .then(a.3.total_cmp(&b.3))
    })
    .map(|(index, ..)| index)
}
