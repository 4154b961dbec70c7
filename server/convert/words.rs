//! The closed vocabularies of the wire and of the book, paired one to one.

use super::Check;
use clampbook_api::v1 as wire;
use clampbook_book::words;
use clampbook_engine::Purpose;

/// Pairs the variants of a wire enum with those of a domain enum that are named alike.
macro_rules! pairs {
    ($wire:ident = $domain:ty { $($variant:ident),+ $(,)? }) => {
        impl Word for $domain {
            type Wire = wire::$wire;

            fn from_wire(word: wire::$wire) -> Option<Self> {
                match word {
                    wire::$wire::Unspecified => None,
                    $(wire::$wire::$variant => Some(<$domain>::$variant)),+
                }
            }

            fn to_wire(self) -> wire::$wire {
                match self { $(<$domain>::$variant => wire::$wire::$variant),+ }
            }
        }
    };
}

/// The word of a table that is spelled so, capitals, blanks and underscores aside; or why there is none.
pub(super) fn spelled<W: Copy>(
    said: &str,
    all: &[W],
    id: fn(W) -> &'static str,
) -> Result<W, String> {
    let spelled = said.to_lowercase().replace([' ', '_'], "-");
    let found = all.iter().copied().find(|word| id(*word) == spelled);
    found.ok_or_else(|| {
        let allowed: Vec<&str> = all.iter().map(|word| id(*word)).collect();
        format!(
            "\"{said}\" is not known; allowed are {}",
            allowed.join(", ")
        )
    })
}

/// A word that both sides know.
pub(super) trait Word: Copy + Sized {
    /// Its enum on the wire.
    type Wire: TryFrom<i32> + Into<i32>;

    /// The word; nothing when it was not said.
    fn from_wire(word: Self::Wire) -> Option<Self>;

    /// The word on the wire.
    fn to_wire(self) -> Self::Wire;

    /// The word's number on the wire.
    fn number(self) -> i32 {
        self.to_wire().into()
    }
}

impl Check {
    /// Takes a word that may be left unsaid.
    pub(super) fn word<W: Word>(&mut self, field: &str, number: i32) -> Option<W> {
        match W::Wire::try_from(number) {
            Ok(word) => W::from_wire(word),
            Err(_) => {
                self.wrong(field, format!("{number} is not a value of this field"));
                None
            }
        }
    }

    /// Takes a word that must be said.
    pub(super) fn required_word<W: Word>(&mut self, field: &str, number: i32) -> Option<W> {
        if number == 0 {
            self.wrong(field, "is required");
            return None;
        }
        self.word(field, number)
    }

    /// Takes a list of words, each said once.
    pub(super) fn word_list<W: Word + PartialEq>(
        &mut self,
        field: &str,
        numbers: &[i32],
    ) -> Vec<W> {
        self.distinct(field, numbers);
        numbers
            .iter()
            .enumerate()
            .filter_map(|(i, number)| self.required_word(&format!("{field}[{i}]"), *number))
            .collect()
    }
}

pairs!(
    RemovalCondition = words::Condition {
        Normal,
        LooseOnArrival,
        Stiff,
        Seized,
        Spun,
        Rounded,
        PulledThreads,
        CrossThreaded,
        BrokeNow,
        BrokenBefore,
        MissingBefore,
        CutOnPurpose,
    }
);
pairs!(
    RemovalTick = words::Tick {
        Bent,
        Necked,
        Fretted,
        Pitted,
        WrongBolt,
        LockMissing,
        LeftHand,
    }
);
pairs!(
    RemovalMeans = words::Means {
        Hand,
        LongBar,
        ImpactDriver,
        AirImpact,
        PenetrantSoak,
        Heat,
        Hammer,
        PullerOrPress,
        SplitOrCut,
        ExtractorOrWeldedNut,
        Drilled,
    }
);
pairs!(HeatColour = words::HeatColour { Warm, Blue, Red });
pairs!(
    LengthCompared = words::Compared {
        Same,
        Longer,
        Shorter
    }
);
pairs!(Criticality = words::Criticality { A, B, C });
pairs!(
    HoleKind = words::HoleKind {
        Through,
        TappedThrough,
        TappedBlind,
        Stud
    }
);
pairs!(
    Disposition = words::Disposition {
        Reuse,
        CleanAndReuse,
        Replace,
        Hold,
        Chase,
        PlateAndBake,
        Make,
        LeaveOut
    }
);
pairs!(
    HoldFor = words::WaitsFor {
        Measuring,
        Hardness,
        CrackTest,
        Part
    }
);
pairs!(
    MarkKind = words::MarkKind {
        MatchMarks,
        CapNumber,
        TieRodTurns,
        ExposedThread,
        Eccentric,
        LeftHand
    }
);
pairs!(
    PieceKind = words::Piece {
        Washer,
        SpringWasher,
        Shim,
        Spacer,
        Bracket,
        Clip,
        Strap,
        Other
    }
);
pairs!(
    SmallPartKind = words::SmallPart {
        Nut,
        Lock,
        Washer,
        Pin
    }
);
pairs!(
    SmallPartState = words::Presence {
        Present,
        Missing,
        Unfit
    }
);
pairs!(
    HoleCheck = words::HoleCheck {
        RunsInByHand,
        Chased,
        Repaired,
        Measured
    }
);
pairs!(
    FindingKind = words::Fault {
        Wear,
        Heat,
        Crack,
        Corrosion,
        Bent,
        Stripped,
        Leak,
        Other
    }
);
pairs!(
    FindingSeverity = words::Verdict {
        Usable,
        Doubtful,
        Ruined,
        Repaired,
        Replaced
    }
);
pairs!(
    DemandKind = clampbook_book::orders::By {
        Decision,
        Removal,
        SmallPart,
        UsedOnce,
        Finding,
        Hand,
        Making,
        Plating
    }
);
pairs!(
    PieceFate = words::WhatBecame {
        Found,
        WrittenOff,
        Explained
    }
);
pairs!(
    Tightness = words::Tightness {
        Started,
        Snug,
        Final
    }
);
pairs!(
    TorqueUnit = clampbook_engine::quantity::TorqueUnit {
        NewtonMetre,
        PoundForceFoot,
        PoundForceInch,
        KilogramForceMetre,
    }
);
pairs!(
    TorqueUnit = words::TorqueUnit {
        NewtonMetre,
        PoundForceFoot,
        PoundForceInch,
        KilogramForceMetre,
    }
);
pairs!(
    Severity = words::Severity {
        Note,
        Caution,
        Stop
    }
);
pairs!(
    Purpose = Purpose {
        Clamping,
        TaperedBallStud,
        TaperedHub,
        WheelBearing,
        PinionNut,
        FlareFitting,
        BanjoFitting,
        PipeFitting,
        SparkPlug,
        DrainPlug,
        YieldBolt,
        RubberBushedPivot,
        Adjuster,
        SetScrew,
        ShearBolt,
        BrassTerminal,
        GasketedSheetMetal,
        WheelNut,
    }
);

/// The engine's severity in the book's words.
pub(super) const fn severity(found: clampbook_engine::Severity) -> words::Severity {
    match found {
        clampbook_engine::Severity::Note => words::Severity::Note,
        clampbook_engine::Severity::Caution => words::Severity::Caution,
        clampbook_engine::Severity::Stop => words::Severity::Stop,
    }
}
