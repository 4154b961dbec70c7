//! What is wrong, as a sentence for people: what was said, and what to say instead.

use super::{Fault, FaultReason};
use std::{borrow::Cow, fmt};

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.field, self.reason)
    }
}

impl fmt::Display for FaultReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing => f.write_str("is required"),
            Self::TooLong { most } => write!(f, "longer than {most} bytes; no name is that long"),
            Self::UnknownThread { given, known } => write!(
                f,
                "no thread \"{given}\" in the catalogue; {}",
                listed("try", known)
            ),
            Self::AmbiguousThread { given, choices } => {
                write!(
                    f,
                    "\"{given}\" may be several threads; {}",
                    listed("say", choices)
                )
            }
            Self::UnknownGrade { given } => write!(
                f,
                "no bolt grade \"{given}\" in the catalogue; write it like SAE J429 5, 8.8, A2-70 or F593 CW1"
            ),
            Self::AmbiguousGrade { given, choices } => {
                write!(
                    f,
                    "\"{given}\" may be several grades; {}",
                    listed("say", choices)
                )
            }
            Self::NoGradeAtThisSize {
                grade,
                thread,
                sizes,
            } => write!(
                f,
                "no grade by this standard at this size: {grade} covers {sizes}, not {thread}"
            ),
            Self::GradeRefused {
                grade,
                why,
                instead,
            } => write!(f, "no torque is computed with {grade}: {why}. {instead}"),
            Self::UnknownLubrication { given } => write!(
                f,
                "no lubrication \"{given}\" in the catalogue; write it like dry, oiled or zinc plated, or give a nut factor"
            ),
            Self::WithdrawnLubrication { given, how } => write!(
                f,
                "\"{given}\" was withdrawn {how}; choose another one, or give a nut factor"
            ),
            Self::LubricationRefused { given } => write!(
                f,
                "nothing is tightened with \"{given}\" threads: clean and oil them first, then give oiled"
            ),
            Self::NameTaken { given, by } => write!(
                f,
                "\"{given}\" is taken: it already means {by}; choose another name"
            ),
            Self::UnknownNutGrade { given } => write!(
                f,
                "no nut grade \"{given}\" in the catalogue; write it like SAE J995 5, ISO 898-2 8 or A563 DH"
            ),
            Self::AmbiguousNutGrade { given, choices } => {
                write!(
                    f,
                    "\"{given}\" may be several nuts; {}",
                    listed("say", choices)
                )
            }
            Self::NutDoesNotFitSize { nut, thread } => {
                write!(
                    f,
                    "the tables have no {nut} nut for {thread}; leave it out or name another"
                )
            }
            Self::UnknownMetal { given, known } => write!(
                f,
                "no metal \"{given}\" in the catalogue; {}",
                listed("say", known)
            ),
            Self::NoAcrossFlats { thread, instead } => write!(
                f,
                "the tables have no hexagon head and nut for {thread}; give {instead}"
            ),
            Self::Contradicts { why } => f.write_str(why),
            Self::UnknownProcedure { given, known } => {
                write!(f, "no procedure \"{given}\"; {}", listed("say", known))
            }
            Self::OutsideRange(range) | Self::NotFinite(range) => range.fmt(f),
            Self::Excludes { other } => write!(f, "give this or {other}, not both"),
            Self::PurposeRefused {
                purpose,
                why,
                instead,
            } => {
                write!(f, "no torque is computed for {purpose}. {why} {instead}")
            }
        }
    }
}

/// `try A, B or C`.
fn listed(verb: &str, items: &[String]) -> String {
    let list: Cow<'_, str> = match items {
        [] => "a size such as 7/16-20, #10-32 or M10x1.25".into(),
        [one] => one.into(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")).into(),
    };
    format!("{verb} {list}")
}
