//! `catalog`.

use clampbook_api::v1::Purpose;
use clap::Subcommand;

use super::Word;

/// Look things up in the published tables.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum CatalogCommand {
    /// List the threads.
    Threads,
    /// Show one thread.
    #[command(before_help = THREAD)]
    Thread {
        /// Thread, for instance 7/16-20, or its name in the catalogue.
        thread: String,
    },
    /// List the strength grades and property classes.
    Grades,
    /// List the nut grades.
    Nuts,
    /// List lubrications and finishes.
    Lubrications,
    /// List threads that are easily mistaken for each other, and what then happens.
    LookAlikes,
    /// List hexagon heads, nuts and clearance holes by size.
    Hexagons,
    /// List metals that are clamped or tapped.
    Metals,
    /// List printed clamp loads and turns of the nut.
    Targets,
    /// List printed torques: fittings, plugs, wheel nuts, brass, and tables for plain clamping.
    #[command(before_help = PUBLISHED)]
    Published {
        /// Only torques for this purpose.
        #[arg(long, value_parser = Purpose::parser())]
        purpose: Option<Purpose>,
    },
}

const EXAMPLES: &str = "\
Examples:
  clampbook catalog lubrications
  clampbook catalog thread 7/16-20
  clampbook catalog grades --json";

const PUBLISHED: &str = "\
Examples:
  clampbook catalog published --purpose flare-fitting
  clampbook catalog published --purpose clamping
  clampbook catalog published --json";

const THREAD: &str = "\
Examples:
  clampbook catalog thread 7/16-20
  clampbook catalog thread \"1/2 fine\"";
