//! `search`: across all jobs.

/// Find holes and parts across all jobs; all that is given must match.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct SearchArgs {
    /// Words in the name of the job or of its machine.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) machine: String,
    /// Thread of the fastener, for instance 7/16-20.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) thread: String,
    /// Rule whose flag is open there, as `flags rules` lists it.
    #[arg(long, value_name = "ID", default_value = "")]
    pub(crate) rule: String,
    /// Words in the name of a part that something was found on.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) part: String,
    /// Words in the bag, tray or place that a fastener is kept in.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) kept_in: String,
}

const EXAMPLES: &str = "\
Examples:
  clampbook search --thread 7/16-20 --kept-in \"bag 2\"
  clampbook search --rule forced-out --machine tractor
  clampbook search --part spindle";
