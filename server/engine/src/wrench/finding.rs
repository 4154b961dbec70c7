//! What may speak against a wrench, by id.

use crate::answer::Severity;

/// What speaks against a wrench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WrenchFinding {
    /// Found wrong.
    KnownBad,
    /// Calibration overdue.
    Overdue,
    /// Calibration not known.
    NotKnownWhetherCalibrated,
    /// Setting above full scale.
    AboveFullScale,
    /// Setting below a fifth of full scale.
    BelowAFifth,
    /// Setting below the lowest marked torque.
    BelowLowestMark,
    /// Graduation too coarse for the setting.
    CoarseGraduation,
    /// Outside 30 to 80 % of full scale.
    OutsideBestRange,
}

impl WrenchFinding {
    /// All findings.
    pub const ALL: [Self; 8] = [
        Self::KnownBad,
        Self::Overdue,
        Self::NotKnownWhetherCalibrated,
        Self::AboveFullScale,
        Self::BelowAFifth,
        Self::BelowLowestMark,
        Self::CoarseGraduation,
        Self::OutsideBestRange,
    ];

    /// Stable id.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::KnownBad => "wrench-known-bad",
            Self::Overdue => "wrench-overdue",
            Self::NotKnownWhetherCalibrated => "wrench-calibration-unknown",
            Self::AboveFullScale => "wrench-above-full-scale",
            Self::BelowAFifth => "wrench-below-a-fifth",
            Self::BelowLowestMark => "wrench-below-lowest-mark",
            Self::CoarseGraduation => "wrench-coarse-graduation",
            Self::OutsideBestRange => "wrench-outside-best-range",
        }
    }

    /// How serious it is.
    #[must_use]
    pub const fn severity(self) -> Severity {
        match self {
            Self::KnownBad | Self::AboveFullScale | Self::BelowAFifth | Self::BelowLowestMark => {
                Severity::Stop
            }
            Self::Overdue | Self::NotKnownWhetherCalibrated | Self::CoarseGraduation => {
                Severity::Caution
            }
            Self::OutsideBestRange => Severity::Note,
        }
    }

    /// The sentence for people.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::KnownBad => {
                "The wrench was found wrong: do not use it until it is repaired and checked."
            }
            Self::Overdue => "Its calibration is overdue: check it on the bench first.",
            Self::NotKnownWhetherCalibrated => {
                "It is not known whether it is calibrated: check it on the bench first."
            }
            Self::AboveFullScale => "The setting is above full scale: take a larger wrench.",
            Self::BelowAFifth => {
                "The setting is below 20 % of full scale, where no accuracy is claimed: take a smaller wrench."
            }
            Self::BelowLowestMark => {
                "The setting is below the lowest mark of the scale: take a smaller wrench."
            }
            Self::CoarseGraduation => {
                "One step of the scale is more than 10 % of the setting: it can hardly be set."
            }
            Self::OutsideBestRange => "It works best from 30 to 80 % of full scale.",
        }
    }
}
