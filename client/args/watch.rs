//! `watch` and `entries`: the journal.

use clap::Args;

/// Follow entries as they are written.
///
/// Runs until you interrupt it; after a broken connection it continues where it left off.
#[derive(Debug, Args)]
#[command(before_help = WATCH)]
pub(crate) struct WatchArgs {
    /// Id of the job; everything when not given.
    pub(crate) job: Option<String>,
    /// Only entries about the shop: lubrications and specifications.
    #[arg(long, conflicts_with = "job")]
    pub(crate) shop: bool,
    /// Begin after the entry with this number in the journal, as `watch --json` shows it; with the first by default.
    #[arg(
        long,
        value_name = "N",
        default_value_t = 0,
        allow_negative_numbers = true
    )]
    pub(crate) after: i64,
}

/// List the entries of a job or of the shop, in the order in which they were written.
#[derive(Debug, Args)]
#[command(before_help = ENTRIES)]
pub(crate) struct EntriesArgs {
    /// Id of the job.
    #[arg(required_unless_present = "shop")]
    pub(crate) job: Option<String>,
    /// Entries about the shop: lubrications and specifications.
    #[arg(long, conflicts_with = "job")]
    pub(crate) shop: bool,
}

const ENTRIES: &str = "\
Examples:
  clampbook entries orchard-tractor
  clampbook entries --shop";

const WATCH: &str = "\
Examples:
  clampbook watch orchard-tractor
  clampbook watch --after 1200 --json";
