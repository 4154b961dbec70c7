//! `restate`.

use clampbook_api::v1::{Purpose, TorqueUnit};

use super::{Word, shared::torque};

/// Restate a published torque for another lubricant, or ask which unit it is in.
///
/// The clamp load stays the same: T2 = T1 K2/K1. Only where the published lubrication is known and the seats are flat.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct RestateArgs {
    /// Thread, for instance 7/16-20, M10x1.25.
    pub(crate) thread: String,
    /// The torque as published, with its unit: "60 lbf-ft".
    #[arg(allow_hyphen_values = true, value_parser = torque)]
    pub(crate) torque: String,
    /// Lubrication it is published for.
    pub(crate) published_lubrication: String,
    /// Lubrication that you will use; without it, only the published value is examined.
    pub(crate) lubrication: Option<String>,
    /// Grade it is published for, to check whether the unit is plausible.
    #[arg(long, value_name = "TEXT")]
    pub(crate) grade: Option<String>,
    /// Head and nut sit flat; required.
    #[arg(long)]
    pub(crate) flat_seats: bool,
    /// Somebody has looked again and the unit is right.
    #[arg(long)]
    pub(crate) unit_confirmed: bool,
    /// What the fastener is for; for some purposes nothing is restated.
    #[arg(long, value_parser = Purpose::parser())]
    pub(crate) purpose: Option<Purpose>,
    /// Unit to show first.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook restate 7/16-20 \"60 lbf-ft\" dry oiled --flat-seats \\
    --grade \"SAE J429 5\"
  clampbook restate M10x1.25 \"5.6 kgf-m\" oiled --grade 8.8 --flat-seats";
