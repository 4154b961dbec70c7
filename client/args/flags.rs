//! `flags`.

use clap::Subcommand;

/// See what the rules conclude from the record.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum FlagsCommand {
    /// List the open flags of a job, stops first.
    List {
        /// Id of the job.
        job: String,
    },
    /// Explain one rule: when it is raised and what clears it.
    #[command(before_help = "Examples:\n  clampbook flags explain odd-length")]
    Explain {
        /// Id of the rule, as the flag shows it.
        rule: String,
    },
    /// List the rules.
    Rules,
}

const EXAMPLES: &str = "\
Examples:
  clampbook flags list orchard-tractor
  clampbook flags explain odd-length";
