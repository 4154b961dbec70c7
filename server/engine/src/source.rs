//! Where a value comes from, as an answer tells it.

pub use clampbook_data::{Basis, Origin, Source};

/// What a source was used for in an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum UsedFor {
    /// The formula.
    Method,
    /// Dimensions of the thread.
    Thread,
    /// Strength of the grade.
    Strength,
    /// The nut factor and its spread.
    NutFactor,
    /// The scatter of the clamp load.
    Scatter,
    /// Proof stress of the nut.
    Nut,
    /// The check of combined stress.
    CombinedStress,
    /// Dimensions of head, nut, hole or bolt.
    Dimensions,
    /// Strength or stiffness of a metal that is clamped or tapped.
    Metal,
    /// A rule that judges the numbers.
    Rule,
    /// Choice and setting of a tool.
    Tool,
    /// Steps of a procedure.
    Procedure,
}

/// A source, what it was used for, and how the value came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cited<'c> {
    /// The source.
    pub source: &'c Source,
    /// What it was used for.
    pub used_for: UsedFor,
    /// How the value came about.
    pub basis: Basis,
}

/// What a row of the tables cites, for one use.
pub fn cited(origin: &'static Origin, used_for: UsedFor) -> impl Iterator<Item = Cited<'static>> {
    origin.sources.iter().map(move |source| Cited {
        source,
        used_for,
        basis: origin.basis,
    })
}

impl UsedFor {
    /// One or two words for people.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Method => "method",
            Self::Thread => "thread",
            Self::Strength => "grade",
            Self::NutFactor => "nut factor",
            Self::Scatter => "scatter",
            Self::Nut => "nut",
            Self::CombinedStress => "combined stress",
            Self::Dimensions => "dimensions",
            Self::Metal => "metal",
            Self::Rule => "rule",
            Self::Tool => "tool",
            Self::Procedure => "procedure",
        }
    }
}

/// The basis in words, as the tables write it.
#[must_use]
pub const fn basis_text(basis: Basis) -> &'static str {
    match basis {
        Basis::Found => "found",
        Basis::Computed => "computed",
        Basis::FoundAndComputed => "found and computed",
        Basis::Memory => "from memory",
        Basis::CommonPractice => "common practice",
        Basis::Shop => "shop",
    }
}
