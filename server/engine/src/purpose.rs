//! What a joint is for, and which purposes get no computed torque.
//!
//! T = K·D·F holds for a bolt or nut that clamps flat faces together. Where something else decides
//! (a taper, a gasket, a bearing that must turn, a bolt stretched past yield) a number from the
//! formula would be worse than none: the answer is a reason and what to do instead.

use std::fmt;

/// What a threaded part does in its joint.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Purpose {
    /// Clamps flat faces together; the only purpose with a computed torque.
    #[default]
    Clamping,
    /// Ball stud seated in a taper, such as a tie rod end.
    TaperedBallStud,
    /// Hub or pulley drawn on to a taper.
    TaperedHub,
    /// Adjusts a wheel bearing.
    WheelBearing,
    /// Sets the preload of a pinion.
    PinionNut,
    /// Flared tube fitting.
    FlareFitting,
    /// Banjo bolt with sealing washers.
    BanjoFitting,
    /// Pipe thread.
    PipeFitting,
    /// Spark plug.
    SparkPlug,
    /// Drain or filler plug.
    DrainPlug,
    /// Bolt tightened by angle past yield.
    YieldBolt,
    /// Pivot with a rubber bush.
    RubberBushedPivot,
    /// Adjusting screw with its lock nut.
    Adjuster,
    /// Grub or set screw.
    SetScrew,
    /// Bolt made to break.
    ShearBolt,
    /// Brass terminal or stud.
    BrassTerminal,
    /// Sheet metal cover on a soft gasket.
    GasketedSheetMetal,
    /// Wheel nut or wheel bolt.
    WheelNut,
}

/// Why a purpose gets no computed torque, and what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// Why the formula does not hold, one sentence.
    pub why: &'static str,
    /// What to do instead, one sentence.
    pub instead: &'static str,
}

impl Purpose {
    /// All purposes, clamping first.
    pub const ALL: [Self; 18] = [
        Self::Clamping,
        Self::TaperedBallStud,
        Self::TaperedHub,
        Self::WheelBearing,
        Self::PinionNut,
        Self::FlareFitting,
        Self::BanjoFitting,
        Self::PipeFitting,
        Self::SparkPlug,
        Self::DrainPlug,
        Self::YieldBolt,
        Self::RubberBushedPivot,
        Self::Adjuster,
        Self::SetScrew,
        Self::ShearBolt,
        Self::BrassTerminal,
        Self::GasketedSheetMetal,
        Self::WheelNut,
    ];

    /// Stable id, such as `tapered-ball-stud`.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Clamping => "clamping",
            Self::TaperedBallStud => "tapered-ball-stud",
            Self::TaperedHub => "tapered-hub",
            Self::WheelBearing => "wheel-bearing",
            Self::PinionNut => "pinion-nut",
            Self::FlareFitting => "flare-fitting",
            Self::BanjoFitting => "banjo-fitting",
            Self::PipeFitting => "pipe-fitting",
            Self::SparkPlug => "spark-plug",
            Self::DrainPlug => "drain-plug",
            Self::YieldBolt => "yield-bolt",
            Self::RubberBushedPivot => "rubber-bushed-pivot",
            Self::Adjuster => "adjuster",
            Self::SetScrew => "set-screw",
            Self::ShearBolt => "shear-bolt",
            Self::BrassTerminal => "brass-terminal",
            Self::GasketedSheetMetal => "gasketed-sheet-metal",
            Self::WheelNut => "wheel-nut",
        }
    }

    /// The purpose with this id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|p| p.id() == id)
    }

    /// Why there is no computed torque; `None` for clamping.
    #[must_use]
    pub const fn refusal(self) -> Option<&'static Refusal> {
        Some(match self {
            Self::Clamping => return None,
            Self::TaperedBallStud => &Refusal {
                why: "The taper, not the thread, takes the load, and its seat swallows an unknown share of the torque.",
                instead: "Use the maker's torque, advance to the next slot and fit a new split pin.",
            },
            Self::TaperedHub => &Refusal {
                why: "The hub must be drawn up its taper; the torque that seats it depends on taper, key and finish.",
                instead: "Use the maker's torque or draw-up distance, and check again after the first run.",
            },
            Self::WheelBearing => &Refusal {
                why: "The nut sets end play, not clamp load; published values differ a hundredfold.",
                instead: "Follow the maker's adjusting procedure and measure the end play.",
            },
            Self::PinionNut => &Refusal {
                why: "The nut sets bearing preload through a spacer; the drag to turn the pinion decides, not the torque.",
                instead: "Follow the maker's procedure and measure the turning drag.",
            },
            Self::FlareFitting => &Refusal {
                why: "Tube, fitting material and seat form decide how far a flare may be pressed.",
                instead: "Look up the value for this seat form, tube material, fitting material and thread.",
            },
            Self::BanjoFitting => &Refusal {
                why: "The bolt is hollow and the washers must crush; a solid bolt's stress area does not hold.",
                instead: "Use the maker's torque and fit both sealing washers new.",
            },
            Self::PipeFitting => &Refusal {
                why: "A pipe thread seals by wedging; it has no clamp load and no stress area for this formula.",
                instead: "Use the maker's torque or turns past hand tight, with the sealant named there.",
            },
            Self::SparkPlug => &Refusal {
                why: "Gasket or taper seat and a thin shell decide, and the head may be aluminium.",
                instead: "Use the value for this thread, seat and head material, threads dry unless told otherwise.",
            },
            Self::DrainPlug => &Refusal {
                why: "The washer and the parent thread decide; the plug is far stronger than either.",
                instead: "Use the maker's torque and a new washer.",
            },
            Self::YieldBolt => &Refusal {
                why: "A bolt tightened past yield gets its load from the angle; the formula ends where it begins.",
                instead: "Use the maker's torque, angle and reuse rule; fit new bolts when in doubt.",
            },
            Self::RubberBushedPivot => &Refusal {
                why: "The clamped sleeve is thin and the bush must be held at ride height while tightening.",
                instead: "Use the maker's torque, tightened with the machine standing on its wheels.",
            },
            Self::Adjuster => &Refusal {
                why: "The screw sets a position; load on it would move what it sets.",
                instead: "Set to the maker's measure, hold the screw and tighten its lock nut by the maker's value.",
            },
            Self::SetScrew => &Refusal {
                why: "A set screw is loaded in compression through its point; strength grades of bolts do not hold for it.",
                instead: "Use the value for this screw size, point and socket.",
            },
            Self::ShearBolt => &Refusal {
                why: "The bolt is made to break; clamp load changes when it does.",
                instead: "Fit the same part, never a stronger one, and tighten as its maker says.",
            },
            Self::BrassTerminal => &Refusal {
                why: "Brass and its insulator fail long before a steel bolt would.",
                instead: "Use the maker's torque, or just hold and nip up with a short spanner.",
            },
            Self::GasketedSheetMetal => &Refusal {
                why: "The soft gasket and thin flange decide; the bolt's own load would squeeze the gasket out and bend the cover.",
                instead: "Use the maker's value, from the centre outwards in two passes, and check after the first heat.",
            },
            Self::WheelNut => &Refusal {
                why: "Cone or ball seat, stud and wheel decide; a published torque counts on clean dry threads.",
                instead: "Use the maker's torque on clean dry threads, crosswise, and once more after 80 to 160 km.",
            },
        })
    }
}

impl fmt::Display for Purpose {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}
