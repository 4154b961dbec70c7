//! `catalog`.

use clap::Subcommand;

/// Look things up in the published tables.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum CatalogCommand {
    /// List the threads.
    Threads,
    /// Show one thread.
    #[command(before_help = THREAD)]
    Thread {
        /// Thread as said, or its name in the catalogue.
        thread: String,
    },
    /// List the strength grades and property classes.
    Grades,
    /// List the nut grades.
    Nuts,
    /// List the lubrication and finish conditions.
    Conditions,
}

const EXAMPLES: &str = "\
Examples:
  clampbook catalog conditions
  clampbook catalog thread 7/16-20
  clampbook catalog grades --json";

const THREAD: &str = "\
Examples:
  clampbook catalog thread 7/16-20
  clampbook catalog thread \"1/2 fine\"";
