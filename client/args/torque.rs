//! `torque`.

use clampbook_api::v1::{Purpose, TorqueUnit};

use super::Word;

/// Compute how tight, from thread, grade and lubrication.
///
/// A computed value: the maker's specification stands above it.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct TorqueArgs {
    /// Thread as said: 7/16-20, M10x1.25, "5/16 UNC", "1/2 fine".
    pub(crate) thread: String,
    /// Grade of the bolt: "SAE J429 5", 8.8, A2-70.
    pub(crate) grade: String,
    /// Lubrication and finish: dry, oiled, "zinc plated"; may be left out beside --nut-factor.
    pub(crate) condition: Option<String>,
    /// Share of proof load to clamp with, 0.05 to 1.00; 0.75 when not given.
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(crate) proof_share: Option<f64>,
    /// Wanted clamp load in newtons, in place of a share of proof load.
    #[arg(long, value_name = "NEWTONS", allow_negative_numbers = true)]
    pub(crate) clamp_load_n: Option<f64>,
    /// Nut factor K from own tests, in place of the condition's.
    #[arg(long, value_name = "K", allow_negative_numbers = true)]
    pub(crate) nut_factor: Option<f64>,
    /// Grade of the nut, to have it checked as well.
    #[arg(long, value_name = "TEXT")]
    pub(crate) nut_grade: Option<String>,
    /// What the fastener is for; for some purposes no torque is computed.
    #[arg(long, value_parser = Purpose::parser())]
    pub(crate) purpose: Option<Purpose>,
    /// Unit to show first.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook torque 7/16-20 \"SAE J429 5\" dry
  clampbook torque M10x1.25 8.8 oiled --nut-grade 8 --unit lbf-ft
  clampbook torque \"1/2 fine\" \"SAE J429 8\" --nut-factor 0.16 --proof-share 0.6";
