//! `parts`: what is to be ordered, what is wanted by hand, what arrived.

use clap::{Args, Subcommand};

use super::Change;

/// See which parts to order and what waits for parts; record wanted parts and arrivals.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum PartsCommand {
    /// List the parts to order, by assembly.
    List {
        #[command(flatten)]
        of: OfArgs,
        /// Print comma-separated values for spreadsheets.
        #[arg(long, conflicts_with = "json")]
        csv: bool,
    },
    /// List what waits and for what: positions on hold first, then places whose parts have not arrived.
    #[command(before_help = "Examples:\n  clampbook parts waits orchard-tractor")]
    Waits {
        #[command(flatten)]
        of: OfArgs,
    },
    /// Add a part that no position and no finding asks for.
    #[command(before_help = EXAMPLES)]
    Want {
        /// Id of the job.
        job: String,
        #[command(flatten)]
        wanted: WantedArgs,
        #[command(flatten)]
        change: Change,
    },
    /// Record that a part on the list arrived.
    #[command(before_help = EXAMPLES)]
    Arrive {
        /// Id of the job.
        job: String,
        #[command(flatten)]
        arrived: ArrivedArgs,
        #[command(flatten)]
        change: Change,
    },
}

/// A job or one of its assemblies.
#[derive(Debug, Args)]
pub(crate) struct OfArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Only this assembly.
    #[arg(long, value_name = "ID")]
    pub(crate) assembly: Option<String>,
}

/// A part that is wanted.
#[derive(Debug, Args)]
pub(crate) struct WantedArgs {
    /// Id of the assembly it is for.
    pub(crate) assembly: String,
    /// The part, in words.
    pub(crate) what: String,
    /// How many.
    #[arg(allow_negative_numbers = true)]
    pub(crate) quantity: i32,
    /// Why, in words.
    #[arg(long, value_name = "TEXT")]
    pub(crate) why: String,
    /// Id of the joint that cannot be closed without it; the whole assembly when not given.
    #[arg(long, value_name = "ID")]
    pub(crate) joint: Option<String>,
    /// Its part number with the maker or dealer.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) number: String,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

/// A part that arrived.
#[derive(Debug, Args)]
pub(crate) struct ArrivedArgs {
    /// Id of the assembly it is for.
    pub(crate) assembly: String,
    /// The part, as `parts list` calls it.
    pub(crate) what: String,
    /// How many.
    #[arg(allow_negative_numbers = true)]
    pub(crate) quantity: i32,
    /// Invoice, delivery note or shelf.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) reference: String,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

const EXAMPLES: &str = "\
Examples:
  clampbook parts list orchard-tractor
  clampbook parts list orchard-tractor --assembly left-hub --csv > order.csv
  clampbook parts want orchard-tractor left-hub \"gasket, hub cover\" 1 \\
      --why torn --joint left-hub-cover --number \"K 112\"
  clampbook parts arrive orchard-tractor left-hub \"gasket, hub cover\" 1 \\
      --reference \"delivery note 44\"";
