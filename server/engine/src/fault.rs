//! What can be wrong with a question: which field, why, and what would be right.

mod sentence;

use crate::{
    purpose::{Purpose, Refusal},
    units::OutOfRange,
};

/// One thing wrong with one field of a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The field of [`crate::Ask`] that is wrong.
    pub field: &'static str,
    /// Why.
    pub reason: FaultReason,
}

/// Why a field is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum FaultReason {
    /// Nothing was said where something must be.
    Missing,
    /// More text than any designation has.
    TooLong {
        /// Bytes allowed.
        most: usize,
    },
    /// No such thread in the catalogue, or no thread designation at all.
    UnknownThread {
        /// As given.
        given: String,
        /// Threads of the same diameter, or examples of how to write one.
        known: Vec<String>,
    },
    /// The designation fits several threads.
    AmbiguousThread {
        /// As given.
        given: String,
        /// What it may mean.
        choices: Vec<String>,
    },
    /// No such grade in the catalogue.
    UnknownGrade {
        /// As given.
        given: String,
    },
    /// The text fits several grades.
    AmbiguousGrade {
        /// As given.
        given: String,
        /// What it may mean.
        choices: Vec<String>,
    },
    /// The standard has no such grade at this size.
    NoGradeAtThisSize {
        /// Grade with its standard.
        grade: String,
        /// The thread asked about.
        thread: String,
        /// Sizes the standard covers.
        sizes: String,
    },
    /// The catalogue has the grade, but no torque is computed with it.
    GradeRefused {
        /// Grade with its standard.
        grade: String,
        /// Why.
        why: &'static str,
        /// What to do instead.
        instead: &'static str,
    },
    /// No such lubrication in the catalogue.
    UnknownLubrication {
        /// As given.
        given: String,
    },
    /// A lubrication of the shop's own that is not used any more.
    WithdrawnLubrication {
        /// As given.
        given: String,
        /// By whom, when and why.
        how: String,
    },
    /// A lubrication nobody should tighten in.
    LubricationRefused {
        /// As given.
        given: String,
    },
    /// Something is called this already.
    NameTaken {
        /// As given.
        given: String,
        /// What has the name.
        by: String,
    },
    /// No such grade of nuts in the catalogue.
    UnknownNutGrade {
        /// As given.
        given: String,
    },
    /// The text fits several grades of nuts.
    AmbiguousNutGrade {
        /// As given.
        given: String,
        /// What it may mean.
        choices: Vec<String>,
    },
    /// The tables have no such nut for this thread.
    NutDoesNotFitSize {
        /// Nut with its standard.
        nut: String,
        /// The thread asked about.
        thread: String,
    },
    /// No such metal in the catalogue.
    UnknownMetal {
        /// As given.
        given: String,
        /// Metals there are.
        known: Vec<String>,
    },
    /// The tables have no hexagon head and nut of this size.
    NoAcrossFlats {
        /// The thread asked about.
        thread: String,
        /// What to give instead.
        instead: &'static str,
    },
    /// The value contradicts another one.
    Contradicts {
        /// What does not fit together.
        why: &'static str,
    },
    /// No procedure has this id.
    UnknownProcedure {
        /// As given.
        given: String,
        /// All ids.
        known: Vec<String>,
    },
    /// A number outside its range.
    OutsideRange(OutOfRange),
    /// NaN or infinity.
    NotFinite(OutOfRange),
    /// Two fields that exclude each other were both given.
    Excludes {
        /// The other field.
        other: &'static str,
    },
    /// No number is computed for this purpose.
    PurposeRefused {
        /// The purpose's id.
        purpose: &'static str,
        /// Why the formula does not hold.
        why: &'static str,
        /// What to do instead.
        instead: &'static str,
    },
}

impl Fault {
    pub(crate) const fn new(field: &'static str, reason: FaultReason) -> Self {
        Self { field, reason }
    }

    /// The purpose that is refused a number.
    pub(crate) fn refused(purpose: Purpose, refusal: &Refusal) -> Self {
        Self::new(
            "purpose",
            FaultReason::PurposeRefused {
                purpose: purpose.id(),
                why: refusal.why,
                instead: refusal.instead,
            },
        )
    }

    /// Keeps a value, or notes what is wrong with it.
    pub(crate) fn keep<T>(
        faults: &mut Vec<Self>,
        field: &'static str,
        found: Result<T, impl Into<FaultReason>>,
    ) -> Option<T> {
        found
            .map_err(|reason| faults.push(Self::new(field, reason.into())))
            .ok()
    }

    /// The variables of the sentence, for machines.
    #[must_use]
    pub fn metadata(&self) -> Vec<(&'static str, String)> {
        let mut pairs = vec![("field", self.field.to_owned())];
        pairs.extend(self.reason.metadata());
        pairs
    }
}

impl From<OutOfRange> for FaultReason {
    fn from(error: OutOfRange) -> Self {
        if error.given.is_finite() {
            Self::OutsideRange(error)
        } else {
            Self::NotFinite(error)
        }
    }
}

impl FaultReason {
    /// Stable id of the reason, such as `unknown-thread`.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        match self {
            Self::Missing => "missing",
            Self::TooLong { .. } => "too-long",
            Self::UnknownThread { .. } => "unknown-thread",
            Self::AmbiguousThread { .. } => "ambiguous-thread",
            Self::UnknownGrade { .. } => "unknown-grade",
            Self::AmbiguousGrade { .. } => "ambiguous-grade",
            Self::NoGradeAtThisSize { .. } => "no-grade-at-this-size",
            Self::GradeRefused { .. } => "grade-refused",
            Self::UnknownLubrication { .. } => "unknown-lubrication",
            Self::WithdrawnLubrication { .. } => "withdrawn-lubrication",
            Self::LubricationRefused { .. } => "lubrication-refused",
            Self::NameTaken { .. } => "name-taken",
            Self::UnknownNutGrade { .. } => "unknown-nut-grade",
            Self::AmbiguousNutGrade { .. } => "ambiguous-nut-grade",
            Self::NutDoesNotFitSize { .. } => "nut-does-not-fit-size",
            Self::UnknownMetal { .. } => "unknown-metal",
            Self::NoAcrossFlats { .. } => "no-hex-part",
            Self::Contradicts { .. } => "contradicts",
            Self::UnknownProcedure { .. } => "unknown-procedure",
            Self::OutsideRange(_) => "outside-range",
            Self::NotFinite(_) => "not-finite",
            Self::Excludes { .. } => "excludes",
            Self::PurposeRefused { .. } => "purpose-refused",
        }
    }

    fn metadata(&self) -> Vec<(&'static str, String)> {
        match self {
            Self::Missing => Vec::new(),
            Self::TooLong { most } => vec![("most", most.to_string())],
            Self::UnknownThread { given, known }
            | Self::UnknownMetal { given, known }
            | Self::UnknownProcedure { given, known } => {
                vec![("given", given.clone()), ("known", known.join(", "))]
            }
            Self::AmbiguousThread { given, choices }
            | Self::AmbiguousGrade { given, choices }
            | Self::AmbiguousNutGrade { given, choices } => {
                vec![("given", given.clone()), ("choices", choices.join(", "))]
            }
            Self::UnknownGrade { given }
            | Self::UnknownLubrication { given }
            | Self::LubricationRefused { given }
            | Self::UnknownNutGrade { given } => vec![("given", given.clone())],
            Self::WithdrawnLubrication { given, how } => {
                vec![("given", given.clone()), ("how", how.clone())]
            }
            Self::NameTaken { given, by } => vec![("given", given.clone()), ("by", by.clone())],
            Self::NoGradeAtThisSize {
                grade,
                thread,
                sizes,
            } => vec![
                ("grade", grade.clone()),
                ("thread", thread.clone()),
                ("sizes", sizes.clone()),
            ],
            Self::GradeRefused {
                grade,
                why,
                instead,
            } => vec![
                ("grade", grade.clone()),
                ("why", (*why).to_owned()),
                ("instead", (*instead).to_owned()),
            ],
            Self::NutDoesNotFitSize { nut, thread } => {
                vec![("nut", nut.clone()), ("thread", thread.clone())]
            }
            Self::OutsideRange(range) | Self::NotFinite(range) => vec![
                ("quantity", range.quantity.to_owned()),
                ("given", range.given.to_string()),
                ("low", range.low.to_string()),
                ("high", range.high.to_string()),
                ("unit", range.unit.to_owned()),
            ],
            Self::NoAcrossFlats { thread, instead } => vec![
                ("thread", thread.clone()),
                ("instead", (*instead).to_owned()),
            ],
            Self::Contradicts { why } => vec![("why", (*why).to_owned())],
            Self::Excludes { other } => vec![("other", (*other).to_owned())],
            Self::PurposeRefused {
                purpose,
                why,
                instead,
            } => vec![
                ("purpose", (*purpose).to_owned()),
                ("why", (*why).to_owned()),
                ("instead", (*instead).to_owned()),
            ],
        }
    }
}

impl std::error::Error for Fault {}
