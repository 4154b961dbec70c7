//! `finding`: what is wrong with parts other than fasteners.

use clampbook_api::v1::{Criticality, FindingKind, FindingSeverity};
use clap::{Args, Subcommand};

use super::{Change, Word};

/// Record what is wrong with parts other than fasteners, and what the other side shows.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum FindingCommand {
    /// Record what is wrong with a part.
    Log(Box<FindingArgs>),
    /// Answer what a finding asks about the same part on the other side.
    Answer(AnswerArgs),
}

/// A finding to record.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct FindingArgs {
    /// Id of the job.
    pub(crate) job: String,
    #[command(flatten)]
    pub(crate) found: FoundArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What was found.
#[derive(Debug, Args)]
pub(crate) struct FoundArgs {
    /// Id of the assembly that the part belongs to.
    pub(crate) assembly: String,
    /// The part, in words; use the same words on both sides.
    pub(crate) part: String,
    /// What is wrong with it.
    #[arg(value_parser = FindingKind::parser())]
    pub(crate) kind: FindingKind,
    /// How bad it is: what that means for the part.
    #[arg(value_parser = FindingSeverity::parser())]
    pub(crate) severity: FindingSeverity,
    /// Risk class of the part; that of the joint when not given.
    #[arg(long, ignore_case = true, value_parser = Criticality::parser())]
    pub(crate) class: Option<Criticality>,
    /// Id of the joint it was found at.
    #[arg(long, value_name = "ID")]
    pub(crate) joint: Option<String>,
    /// What caused it, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) cause: String,
    /// What was measured, with its unit.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) reading: String,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

/// An answer to record.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct AnswerArgs {
    /// Id of the job.
    pub(crate) job: String,
    #[command(flatten)]
    pub(crate) answered: AnsweredArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What is answered.
#[derive(Debug, Args)]
pub(crate) struct AnsweredArgs {
    /// Number of the finding's entry, as `entries` shows it.
    pub(crate) finding: String,
    #[command(flatten)]
    pub(crate) shown: ShownArgs,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

/// What shows that somebody looked; one is required.
#[derive(Debug, Args)]
#[group(multiple = false)]
pub(crate) struct ShownArgs {
    /// What was measured on the other side, with its unit.
    #[arg(long, value_name = "TEXT")]
    pub(crate) reading: Option<String>,
    /// Where the photo of it is, if not in the job: file, number or place.
    #[arg(long, value_name = "TEXT")]
    pub(crate) photo: Option<String>,
    /// Number of the entry that added a photo of the counterpart, as
    /// `photo list` shows it.
    #[arg(long, value_name = "ENTRY")]
    pub(crate) added_photo: Option<String>,
    /// There is no such part there: the name of the person who says so.
    #[arg(long, value_name = "NAME")]
    pub(crate) none_says: Option<String>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook finding log orchard-tractor left-hub spindle wear ruined --class A \\
      --cause \"bearing ran dry\" --reading \"journal 24.61 mm\"
  clampbook finding answer orchard-tractor 12 --reading \"journal 24.98 mm\"";
