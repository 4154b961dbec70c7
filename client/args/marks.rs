//! `marks`: what must be known to put back together as it was.

use clap::{Args, Subcommand};

use super::{Change, assembled::MarkArgs};

/// Record what was marked or measured before the parts were separated.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum MarksCommand {
    /// Record marks on a position, or on a joint as a whole.
    Log(MarksArgs),
}

/// Marks to record.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct MarksArgs {
    /// Id of the job.
    pub(crate) job: String,
    #[command(flatten)]
    pub(crate) seen: MarkedArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What was marked, and where.
#[derive(Debug, Args)]
pub(crate) struct MarkedArgs {
    /// Id of the joint.
    pub(crate) joint: String,
    /// Number of the position in the joint, from 1; the joint as a whole when
    /// not given.
    #[arg(allow_negative_numbers = true)]
    pub(crate) position: Option<i32>,
    #[command(flatten)]
    pub(crate) marks: MarkArgs,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

const EXAMPLES: &str = "\
Examples:
  clampbook marks log orchard-tractor tie-rod 1 --mark tie-rod-turns:14.5 \\
      --mark \"exposed-thread:22 mm\" --mark left-hand
  clampbook marks log orchard-tractor main-caps \\
      --mark \"cap-number:2, arrow to the fan\"";
