//! Words for the contract's enums, made from the contract itself so that the two cannot drift apart.

use clampbook_api::v1::{
    Basis, Calibration, Criticality, DecisionKind, FaceRoughness, FindingKind, FindingSeverity,
    FittedPart, HeatColour, HoldReason, HoleCheck, HoleKind, Layout, LengthCompared, LockNutKind,
    MarkKind, PersonRole, PieceFate, PieceKind, PositionState, Purpose, RemovalMethod,
    RemovalOutcome, RemovalTick, Severity, SmallPartCondition, SmallPartKind, ThreadFit,
    TighteningStep, TorqueUnit,
};
use clap::builder::{PossibleValuesParser, TypedValueParser};

/// An enum of the contract that people type and read in words.
pub(crate) trait Word: Copy + Send + Sync + TryFrom<i32> + 'static {
    /// What every value's name in the contract begins with, for instance `LAYOUT_`.
    const PREFIX: &'static str;

    /// The value's name in the contract, for instance `LAYOUT_RING`.
    fn wire_name(self) -> &'static str;

    /// The value as typed, for instance `tapped-blind`.
    fn word(self) -> String {
        let name = self.wire_name();
        let name = name.strip_prefix(Self::PREFIX).unwrap_or(name);
        name.to_ascii_lowercase().replace('_', "-")
    }

    /// The value as read, for instance `tapped blind`.
    fn said(self) -> String {
        self.word().replace('-', " ")
    }

    /// A value from the wire as read; one that a newer server sent is shown by its number.
    fn said_of(number: i32) -> String {
        Self::try_from(number).map_or_else(|_| format!("value {number}"), Self::said)
    }

    /// Every value but the unspecified one.
    fn every() -> impl Iterator<Item = Self> {
        all()
    }

    /// The value typed with this word; none for the unspecified one.
    fn from_word(typed: &str) -> Option<Self> {
        all::<Self>().find(|value| value.word() == typed)
    }

    /// Parser for the command line: every value but the unspecified one.
    fn parser() -> impl TypedValueParser<Value = Self> {
        PossibleValuesParser::new(all::<Self>().map(Self::word)).try_map(|typed| {
            // An argument may have been told to ignore case.
            all::<Self>()
                .find(|value| value.word().eq_ignore_ascii_case(&typed))
                .ok_or("not one of the words listed")
        })
    }
}

/// Every value but the unspecified one. The contract counts from 1 and has no enum with 100 values.
fn all<W: Word>() -> impl Iterator<Item = W> {
    (1..100).filter_map(|number| W::try_from(number).ok())
}

macro_rules! words {
    ($($enum:ident $prefix:literal;)+) => {
        $(impl Word for $enum {
            const PREFIX: &'static str = $prefix;

            fn wire_name(self) -> &'static str {
                self.as_str_name()
            }
        })+
    };
}

words! {
    Basis "BASIS_";
    Calibration "CALIBRATION_";
    DecisionKind "DECISION_KIND_";
    FaceRoughness "FACE_ROUGHNESS_";
    FindingKind "FINDING_KIND_";
    FindingSeverity "FINDING_SEVERITY_";
    FittedPart "FITTED_PART_";
    HeatColour "HEAT_COLOUR_";
    HoldReason "HOLD_REASON_";
    HoleCheck "HOLE_CHECK_";
    HoleKind "HOLE_KIND_";
    Layout "LAYOUT_";
    LengthCompared "LENGTH_COMPARED_";
    LockNutKind "LOCK_NUT_KIND_";
    MarkKind "MARK_KIND_";
    PersonRole "PERSON_ROLE_";
    PieceFate "PIECE_FATE_";
    PieceKind "PIECE_KIND_";
    PositionState "POSITION_STATE_";
    Purpose "PURPOSE_";
    RemovalOutcome "REMOVAL_OUTCOME_";
    RemovalMethod "REMOVAL_METHOD_";
    RemovalTick "REMOVAL_TICK_";
    Severity "SEVERITY_";
    SmallPartKind "SMALL_PART_KIND_";
    SmallPartCondition "SMALL_PART_CONDITION_";
    ThreadFit "THREAD_FIT_";
    TighteningStep "TIGHTENING_STEP_";
}

impl Word for Criticality {
    const PREFIX: &'static str = "CRITICALITY_";

    fn wire_name(self) -> &'static str {
        self.as_str_name()
    }

    /// Risk classes are capital letters.
    fn word(self) -> String {
        let name = self.as_str_name();
        name.strip_prefix(Self::PREFIX).unwrap_or(name).to_owned()
    }
}

impl Word for TorqueUnit {
    const PREFIX: &'static str = "TORQUE_UNIT_";

    fn wire_name(self) -> &'static str {
        self.as_str_name()
    }

    /// Units are typed by their symbols.
    fn word(self) -> String {
        match self {
            Self::Unspecified => "unspecified",
            Self::NewtonMetre => "nm",
            Self::PoundForceFoot => "lbf-ft",
            Self::PoundForceInch => "lbf-in",
            Self::KilogramForceMetre => "kgf-m",
        }
        .to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words<W: Word>() -> Vec<String> {
        all::<W>().map(Word::word).collect()
    }

    #[test]
    fn words_are_what_people_type() {
        assert_eq!(words::<Layout>(), ["ring", "grid", "line", "single"]);
        assert_eq!(words::<Criticality>(), ["A", "B", "C"]);
        assert_eq!(
            words::<HoleKind>(),
            ["through", "tapped-through", "tapped-blind", "stud"]
        );
        assert_eq!(words::<TorqueUnit>(), ["nm", "lbf-ft", "lbf-in", "kgf-m"]);
        assert_eq!(
            words::<DecisionKind>(),
            [
                "reuse",
                "clean-and-reuse",
                "replace",
                "hold",
                "chase",
                "plate-and-bake",
                "make",
                "leave-out"
            ]
        );
        assert_eq!(words::<RemovalOutcome>().len(), 12);
    }

    #[test]
    fn every_prefix_is_the_contracts_own() {
        fn holds<W: Word>() {
            for value in all::<W>() {
                assert!(
                    value.wire_name().starts_with(W::PREFIX),
                    "{}",
                    value.wire_name()
                );
            }
        }
        holds::<Basis>();
        holds::<Calibration>();
        holds::<Criticality>();
        holds::<DecisionKind>();
        holds::<FaceRoughness>();
        holds::<FindingKind>();
        holds::<FindingSeverity>();
        holds::<FittedPart>();
        holds::<HeatColour>();
        holds::<HoldReason>();
        holds::<HoleCheck>();
        holds::<HoleKind>();
        holds::<Layout>();
        holds::<LengthCompared>();
        holds::<LockNutKind>();
        holds::<MarkKind>();
        holds::<PieceFate>();
        holds::<PieceKind>();
        holds::<PositionState>();
        holds::<Purpose>();
        holds::<RemovalOutcome>();
        holds::<RemovalMethod>();
        holds::<RemovalTick>();
        holds::<Severity>();
        holds::<SmallPartKind>();
        holds::<SmallPartCondition>();
        holds::<ThreadFit>();
        holds::<TighteningStep>();
        holds::<TorqueUnit>();
    }

    #[test]
    fn a_value_from_a_newer_server_keeps_its_number() {
        assert_eq!(HoleKind::said_of(3), "tapped blind");
        assert_eq!(HoleKind::said_of(77), "value 77");
    }
}
