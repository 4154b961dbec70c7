//! `decide`: what to do with a removed fastener.

use clampbook_api::v1::{DecisionKind, HoldReason, HoleCheck};

use super::{Change, FastenerArgs, Place, Word};

/// Decide what to do with a removed fastener and its hole.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct DecideArgs {
    #[command(flatten)]
    pub(crate) place: Place,
    #[command(flatten)]
    pub(crate) decided: DecidedArgs,
    /// Why, in words; for an odd length, what explains it.
    #[arg(long, value_name = "TEXT")]
    pub(crate) reason: String,
    /// Etag of the position as you last read it; when not given, the program reads it first.
    #[arg(long, value_name = "ETAG")]
    pub(crate) etag: Option<String>,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What is decided.
#[derive(Debug, clap::Args)]
pub(crate) struct DecidedArgs {
    /// What is done with the fastener.
    #[arg(value_parser = DecisionKind::parser())]
    pub(crate) kind: DecisionKind,
    #[command(flatten)]
    pub(crate) replacement: FastenerArgs,
    /// What was found at the hole.
    #[arg(long, value_name = "CHECK", value_parser = HoleCheck::parser())]
    pub(crate) hole_check: Option<HoleCheck>,
    /// How the hole was repaired, for instance "thread insert 7/16-20"; requires --hole-check repaired.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) hole_repair: String,
    /// What it waits for; required with hold.
    #[arg(long, value_name = "WHAT", value_parser = HoldReason::parser())]
    pub(crate) hold_reason: Option<HoldReason>,
    /// Grade of the original as papers or readings show it; requires --citation.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) grade_shown: String,
    /// Where grade or length is published: parts list, drawing, readings.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) citation: String,
    /// The cited papers show that the fastener was baked after plating; for plate-and-bake.
    #[arg(long)]
    pub(crate) baking_shown: bool,
    /// Who decided that nothing goes back; required with leave-out.
    #[arg(long, value_name = "NAME", default_value = "")]
    pub(crate) left_out_by: String,
}

const EXAMPLES: &str = "\
Examples:
  clampbook decide orchard-tractor left-hub-bolts 1 clean-and-reuse \\
      --reason \"sound, no wear\"
  clampbook decide orchard-tractor left-hub-bolts 3 replace \\
      --reason \"heated red\" \\
      --thread 7/16-20 --length \"1-3/4 in\" --grade \"SAE J429 5\" \\
      --hole-check runs-in-by-hand
  clampbook decide orchard-tractor left-hub-bolts 2 hold \\
      --hold-reason hardness \\
      --reason \"no marking, looks old\"
  clampbook decide orchard-tractor left-hub-bolts 4 plate-and-bake \\
      --reason \"rusty, threads sound\"
  clampbook decide orchard-tractor cover 2 make --reason \"no longer made\" \\
      --thread 5/16-18 --length \"1 in\"
  clampbook decide orchard-tractor cover 5 leave-out --left-out-by \"Ida Holm\" \\
      --reason \"the bracket it held is gone\"";
