//! `refit`: what went back in.

use clampbook_api::v1::FittedPart;

use super::{Change, FastenerArgs, Place, WithArgs, Word};

/// Record what went back into a position; `tighten` then says how tight it is.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct RefitArgs {
    #[command(flatten)]
    pub(crate) place: Place,
    #[command(flatten)]
    pub(crate) refitted: RefittedArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What went in.
#[derive(Debug, clap::Args)]
pub(crate) struct RefittedArgs {
    /// Which part went in; a new one needs --thread, --length and --grade.
    /// in-already: none, only what --with says went in beside it, such as
    /// a split pin after the final torque.
    #[arg(value_parser = FittedPart::parser())]
    pub(crate) part: FittedPart,
    #[command(flatten)]
    pub(crate) new_part: FastenerArgs,
    #[command(flatten)]
    pub(crate) with: WithArgs,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

const EXAMPLES: &str = "\
Examples:
  clampbook refit orchard-tractor left-hub-bolts 1 original
  clampbook refit orchard-tractor left-hub-bolts 3 new \\
      --thread 7/16-20 --length \"1-3/4 in\" --grade \"SAE J429 5\" \\
      --with washer:new --as-it-came-out
  clampbook refit orchard-tractor left-hub-bolts 3 in-already --with lock:new";
