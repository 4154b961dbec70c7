//! The closed vocabularies of the wire and of the book, paired one to one.

use super::Validator;
use clampbook_api::v1 as wire;
use clampbook_book::words;
use clampbook_engine::Purpose;

/// Pairs the variants of wire enums with those of domain enums that are named alike.
macro_rules! pairs {
    ($($wire:ident = $domain:ty: $($variant:ident)+;)+) => {$(
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
    )+};
}

/// A word that both sides know.
pub(crate) trait Word: Copy + Sized {
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

impl Validator {
    /// Takes a word that may be left unsaid.
    pub(crate) fn word<W: Word>(&mut self, field: &str, number: i32) -> Option<W> {
        match W::Wire::try_from(number) {
            Ok(word) => W::from_wire(word),
            Err(_) => {
                self.wrong(field, format!("{number} is not a value of this field"));
                None
            }
        }
    }

    /// Takes a word that must be said.
    pub(crate) fn required_word<W: Word>(&mut self, field: &str, number: i32) -> Option<W> {
        if number == 0 {
            self.wrong(field, "is required");
            return None;
        }
        self.word(field, number)
    }

    /// Takes the items of a list that is not too long.
    pub(crate) fn each<M, T>(
        &mut self,
        field: &str,
        items: &[M],
        take: impl Fn(&mut Self, &str, &M) -> Option<T>,
    ) -> Vec<T> {
        if !self.is_few(field, items.len()) {
            return Vec::new();
        }
        items
            .iter()
            .enumerate()
            .filter_map(|(i, item)| take(self, &format!("{field}[{i}]"), item))
            .collect()
    }

    /// Takes a list of words, each said once.
    pub(crate) fn word_list<W: Word + PartialEq>(
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

pairs! {
    RemovalOutcome = words::Outcome:
        Normal LooseOnArrival Stiff Seized Spun Rounded PulledThreads CrossThreaded BrokeNow BrokenBefore
        MissingBefore CutOnPurpose;
    RemovalTick = words::Tick: Bent Necked Fretted Pitted WrongBolt LockMissing LeftHand;
    RemovalMethod = words::Method:
        Hand LongBar ImpactDriver AirImpact PenetrantSoak Heat Hammer PullerOrPress SplitOrCut ExtractorOrWeldedNut
        Drilled;
    HeatColour = words::HeatColour: Warm Blue Red;
    LengthCompared = words::Compared: Same Longer Shorter;
    Criticality = words::Criticality: A B C;
    HoleKind = words::HoleKind: Through TappedThrough TappedBlind Stud;
    DecisionKind = words::DecisionKind: Reuse CleanAndReuse Replace Hold Chase PlateAndBake Make LeaveOut;
    HoldReason = words::HoldReason: Measuring Hardness CrackTest Part;
    MarkKind = words::MarkKind: MatchMarks CapNumber TieRodTurns ExposedThread Eccentric LeftHand;
    PieceKind = words::Piece: Washer SpringWasher Shim Spacer Bracket Clip Strap Other;
    SmallPartKind = words::SmallPart: Nut Lock Washer Pin;
    SmallPartCondition = words::SmallPartCondition: Present Missing Unfit;
    HoleCheck = words::HoleCheck: RunsInByHand Chased Repaired Measured;
    FindingKind = words::FindingKind: Wear Heat Crack Corrosion Bent Stripped Leak Other;
    FindingSeverity = words::FindingSeverity: Usable Doubtful Ruined Repaired Replaced;
    DemandKind = clampbook_book::orders::By: Decision Removal SmallPart UsedOnce Finding Hand Making Plating;
    PersonRole = words::PersonRole: Mechanic Inspector Lead;
    PieceFate = words::PieceFate: Found WrittenOff Explained;
    TighteningStep = words::Step: Snug Final;
    TorqueUnit = clampbook_engine::quantity::TorqueUnit: NewtonMetre PoundForceFoot PoundForceInch KilogramForceMetre;
    TorqueUnit = words::TorqueUnit: NewtonMetre PoundForceFoot PoundForceInch KilogramForceMetre;
    Severity = words::Severity: Note Caution Stop;
    Purpose = Purpose:
        Clamping TaperedBallStud TaperedHub WheelBearing PinionNut FlareFitting BanjoFitting PipeFitting SparkPlug
        DrainPlug YieldBolt RubberBushedPivot Adjuster SetScrew ShearBolt BrassTerminal GasketedSheetMetal WheelNut;
}

/// The engine's severity in the book's words.
pub(crate) const fn severity(found: clampbook_engine::Severity) -> words::Severity {
    match found {
        clampbook_engine::Severity::Note => words::Severity::Note,
        clampbook_engine::Severity::Caution => words::Severity::Caution,
        clampbook_engine::Severity::Stop => words::Severity::Stop,
    }
}
