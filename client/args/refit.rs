//! `refit`: what went back in.

use clampbook_api::v1::{FittedPart, Tightness};

use super::{Change, FastenerArgs, Place, WithArgs, Word};

/// Record what went back into a position and how tight it is.
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

/// What went in, and how tight.
#[derive(Debug, clap::Args)]
pub(crate) struct RefittedArgs {
    /// Which part went in; a new one needs --thread, --length and --grade.
    #[arg(value_parser = FittedPart::parser())]
    pub(crate) part: FittedPart,
    /// How tight it is now.
    #[arg(long, value_parser = Tightness::parser())]
    pub(crate) tightness: Tightness,
    #[command(flatten)]
    pub(crate) new_part: FastenerArgs,
    #[command(flatten)]
    pub(crate) with: WithArgs,
    /// Reading of the wrench with its unit, for instance "60 N·m".
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) reading: String,
    /// Which wrench, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) tool: String,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

const EXAMPLES: &str = "\
Examples:
  clampbook refit orchard-tractor left-hub-bolts 1 original --tightness snug
  clampbook refit orchard-tractor left-hub-bolts 3 new --tightness final \\
      --reading \"60 N·m\" --tool \"wrench A\" \\
      --thread 7/16-20 --length \"1-3/4 in\" --grade \"SAE J429 5\" \\
      --with lock:new --as-it-came-out";
