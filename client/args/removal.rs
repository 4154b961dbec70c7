//! `removal`: how fasteners came out.

use std::path::PathBuf;

use clampbook_api::v1::{HeatColour, LengthCompared, RemovalMethod, RemovalOutcome, RemovalTick};
use clap::{Args, Subcommand};

use super::{AssembledArgs, Change, Word};

/// Record how fasteners came out.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum RemovalCommand {
    /// Record how one fastener came out.
    Log(Box<LogArgs>),
    /// Record that several came out in the same way; length and marking are never copied.
    Alike(AlikeArgs),
    /// Record a whole strip-down from a table.
    Import(ImportArgs),
}

/// A hole of a joint.
#[derive(Debug, Args)]
pub(crate) struct Place {
    /// Id of the job.
    pub(crate) job: String,
    /// Id of the joint.
    pub(crate) joint: String,
    /// Number of the position in the joint, from 1.
    #[arg(allow_negative_numbers = true)]
    pub(crate) position: i32,
}

/// A removal to record.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct LogArgs {
    #[command(flatten)]
    pub(crate) place: Place,
    #[command(flatten)]
    pub(crate) seen: SeenArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What was seen when it came out.
#[derive(Debug, Args)]
pub(crate) struct SeenArgs {
    /// How it came out.
    #[arg(value_parser = RemovalOutcome::parser())]
    pub(crate) outcome: RemovalOutcome,
    /// What was needed to get it out; separate several with commas.
    #[arg(long, value_delimiter = ',', value_parser = RemovalMethod::parser())]
    pub(crate) methods: Vec<RemovalMethod>,
    /// What else was seen on it; separate several with commas.
    #[arg(long, value_delimiter = ',', value_parser = RemovalTick::parser())]
    pub(crate) tick: Vec<RemovalTick>,
    /// How hot it got; required when --methods says heat.
    #[arg(long, value_name = "COLOUR", value_parser = HeatColour::parser())]
    pub(crate) heat: Option<HeatColour>,
    /// Where heat was applied, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) heated_place: String,
    /// Thread as found.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) thread: String,
    /// Length measured under the head, for instance "1-3/4 in".
    #[arg(long, value_name = "TEXT", conflicts_with = "compared")]
    pub(crate) length: Option<String>,
    /// Length compared with its neighbours, without measuring.
    #[arg(long, value_parser = LengthCompared::parser())]
    pub(crate) compared: Option<LengthCompared>,
    /// Marking on the head as seen.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) head_marking: String,
    /// Grade as shown by marking or papers.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) grade: String,
    /// Torque at which it broke loose, with its unit, for instance "60 lbf·ft".
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) breakaway: String,
    /// Bag, tray or place it is kept in.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) kept_in: String,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
    #[command(flatten)]
    pub(crate) assembled: AssembledArgs,
}

/// Removals that went the same way.
#[derive(Debug, Args)]
#[command(before_help = ALIKE)]
pub(crate) struct AlikeArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Id of the joint.
    pub(crate) joint: String,
    /// How they came out.
    #[arg(value_parser = RemovalOutcome::parser())]
    pub(crate) outcome: RemovalOutcome,
    /// Position numbers, separated by commas; all still in place when not given.
    #[arg(
        long,
        value_name = "N",
        value_delimiter = ',',
        allow_negative_numbers = true
    )]
    pub(crate) positions: Vec<i32>,
    /// What was needed to get it out; separate several with commas.
    #[arg(long, value_delimiter = ',', value_parser = RemovalMethod::parser())]
    pub(crate) methods: Vec<RemovalMethod>,
    /// How hot they got; required when --methods says heat.
    #[arg(long, value_name = "COLOUR", value_parser = HeatColour::parser())]
    pub(crate) heat: Option<HeatColour>,
    /// Bag, tray or place they are kept in.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) kept_in: String,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// A strip-down to import.
#[derive(Debug, Args)]
#[command(before_help = IMPORT)]
pub(crate) struct ImportArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// File of comma-separated values; - for standard input.
    pub(crate) file: PathBuf,
    /// Check everything and write nothing.
    #[arg(short = 'n', long)]
    pub(crate) dry_run: bool,
    #[command(flatten)]
    pub(crate) change: Change,
}

const EXAMPLES: &str = "\
Examples:
  clampbook removal log orchard-tractor left-hub-bolts 1 normal --methods hand
  clampbook removal log orchard-tractor left-hub-bolts 3 seized \\
      --methods heat,hammer --heat red --compared longer --breakaway \"60 lbf·ft\"
  clampbook removal log orchard-tractor plate 4 normal --length \"57 mm\" \\
      --stack \"bracket:1:12 mm:hose bracket\" --part lock:missing
  clampbook removal import orchard-tractor strip-down.csv --dry-run";

const ALIKE: &str = "\
Examples:
  clampbook removal alike orchard-tractor left-hub-bolts normal --methods hand
  clampbook removal alike orchard-tractor left-hub-bolts stiff \\
      --positions 1,2,4 --methods long-bar";

const IMPORT: &str = "\
Examples:
  clampbook removal import orchard-tractor strip-down.csv --dry-run
  clampbook removal import orchard-tractor - < strip-down.csv

The file, in UTF-8, begins with a header line that names its columns, in any
order:
  joint, position, outcome             needed
  methods, ticks                       several are separated by semicolons
  heat_colour, heated_place            warm, blue or red; when methods has heat
  thread, length, head_marking, grade  as found, as said; length takes its unit
  breakaway_torque                     with its unit, for instance 60 lbf·ft
  kept_in, note                        in your own words
  marks, stack, small_parts            several, separated by semicolons; what
                                       is said of each by colons, as for --mark,
                                       --stack, --part; the stack from the head
For instance in the column stack: bracket:1:12 mm:hose bracket; washer
Outcomes, methods and ticks are the words that `removal log` takes.
A wrong line is named with its number and column, and nothing of the file is
kept.";
