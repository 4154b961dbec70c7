//! `torque`.

use std::path::PathBuf;

use clampbook_api::v1::{Purpose, TorqueUnit};

use super::{Word, shared::AimArgs};

/// Compute how tight, from thread, grade and lubrication.
///
/// A computed value: the maker's specification takes precedence over it.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct TorqueArgs {
    /// Thread, for instance 7/16-20, M10x1.25, "5/16 UNC", "1/2 fine".
    #[arg(required_unless_present = "csv")]
    pub(crate) thread: Option<String>,
    /// Grade of the bolt: "SAE J429 5", 8.8, A2-70.
    #[arg(required_unless_present = "csv")]
    pub(crate) grade: Option<String>,
    /// Lubrication and finish: dry, oiled, "zinc plated"; may be left out with --nut-factor.
    pub(crate) lubrication: Option<String>,
    #[command(flatten)]
    pub(crate) aim: AimArgs,
    /// What the fastener is for; for some purposes no torque is computed.
    #[arg(long, value_parser = Purpose::parser())]
    pub(crate) purpose: Option<Purpose>,
    /// Unit to show first; that of the thread when not given: lbf-ft for inch, nm for metric.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
    /// Also draw clamp load against torque, as SVG into this file.
    #[arg(long, value_name = "FILE")]
    pub(crate) chart: Option<PathBuf>,
    /// Answer a whole table instead, or - for standard input; columns thread, grade, lubrication, proof_share,
    /// clamp_load_n, nut_factor, nut_grade, baked.
    #[arg(
        long,
        value_name = "FILE",
        conflicts_with_all = [
            "thread", "proof_share", "clamp_load_n", "nut_factor", "nut_grade", "baked", "purpose", "chart",
        ]
    )]
    pub(crate) csv: Option<PathBuf>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook torque 7/16-20 \"SAE J429 5\" dry
  clampbook torque M10x1.25 8.8 oiled --nut-grade 8 --unit lbf-ft
  clampbook torque \"1/2 fine\" \"SAE J429 8\" --nut-factor 0.16 --proof-share 0.6
  clampbook torque 7/16-20 \"SAE J429 5\" dry --chart hub.svg
  clampbook torque --csv joints.csv > torques.csv";
