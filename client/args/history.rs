//! `history`: everything about one hole.

use super::Place;

/// Show everything that was recorded about one position, oldest first.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct HistoryArgs {
    #[command(flatten)]
    pub(crate) place: Place,
}

const EXAMPLES: &str = "\
Examples:
  clampbook history orchard-tractor left-hub-bolts 3";
