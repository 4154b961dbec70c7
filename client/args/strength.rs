//! `torque-long`, `joint-check`, `length`.

use clampbook_api::v1::{Purpose, ThreadFit, TorqueUnit};

use super::{StackArgs, TightenArgs, Word};

/// Compute how tight, from the friction in the thread and under the head.
///
/// Shows the parts of the torque, the nut factor that would give the same torque, and the stress of tension and twist.
#[derive(Debug, clap::Args)]
#[command(before_help = LONG_EXAMPLES)]
pub(crate) struct LongArgs {
    /// Thread, for instance 7/16-20, M10x1.25.
    pub(crate) thread: String,
    /// Grade of the bolt: "SAE J429 5", 8.8.
    pub(crate) grade: String,
    /// Coefficient of friction in the thread, 0.02 to 0.80.
    #[arg(allow_negative_numbers = true)]
    pub(crate) thread_friction: f64,
    /// Coefficient of friction under the turned part, 0.02 to 0.80.
    #[arg(allow_negative_numbers = true)]
    pub(crate) bearing_friction: f64,
    /// Lowest coefficient to expect.
    #[arg(long, value_name = "MU", allow_negative_numbers = true)]
    pub(crate) friction_low: Option<f64>,
    /// Highest coefficient to expect.
    #[arg(long, value_name = "MU", allow_negative_numbers = true)]
    pub(crate) friction_high: Option<f64>,
    /// Mean diameter of the seat, in mm; the hexagon's when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) bearing_diameter_mm: Option<f64>,
    /// Half angle of a cone seat, in degrees: 30 for a 60 degree seat.
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) cone_half_angle_degrees: Option<f64>,
    /// Thread and turned face are lubricated.
    #[arg(long)]
    pub(crate) lubricated: bool,
    /// Share of proof load to clamp with; 0.75 when no target is given.
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(crate) proof_share: Option<f64>,
    /// Share of the yield stress to use while tightening, from tension and twist together.
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(crate) yield_share: Option<f64>,
    /// Target clamp load in newtons.
    #[arg(long, value_name = "NEWTONS", allow_negative_numbers = true)]
    pub(crate) clamp_load_n: Option<f64>,
    /// What the fastener is for; for some purposes no torque is computed.
    #[arg(long, value_parser = Purpose::parser())]
    pub(crate) purpose: Option<Purpose>,
    /// Unit to show first.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const LONG_EXAMPLES: &str = "\
Examples:
  clampbook torque-long M12 8.8 0.14 0.14 --yield-share 0.9
  clampbook torque-long 1/2-20 \"SAE J429 5\" 0.12 0.10 --lubricated \\
    --friction-low 0.08 --friction-high 0.16";

/// Check whether anything in a joint is too weak or too short for the bolt's clamp load.
#[derive(Debug, clap::Args)]
#[command(before_help = JOINT_EXAMPLES)]
pub(crate) struct JointCheckArgs {
    #[command(flatten)]
    pub(crate) tighten: TightenArgs,
    #[command(flatten)]
    pub(crate) stack: StackArgs,
    /// How closely the threads fit; medium when not given.
    #[arg(long, value_parser = ThreadFit::parser())]
    pub(crate) fit: Option<ThreadFit>,
    /// Distance of a shear plane from the head, in mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) shear_plane_mm: Option<f64>,
    /// Unit to show first.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const JOINT_EXAMPLES: &str = "\
Examples:
  clampbook joint-check M10 8.8 oiled --layer \"mild steel:12\" \\
    --tapped \"cast aluminium:25\" --blind --bolt-length-mm 35
  clampbook joint-check 1/2-13 \"SAE J429 5\" dry --nut-grade \"J995 5\" \\
    --layer \"alloy steel:2.5:27\" --layer \"grey cast iron:30\"";

/// Say which length a grip needs, and whether the bolt at hand fits.
#[derive(Debug, clap::Args)]
#[command(before_help = LENGTH_EXAMPLES)]
pub(crate) struct LengthArgs {
    /// Thread, for instance 7/16-20, M10x1.25.
    pub(crate) thread: String,
    #[command(flatten)]
    pub(crate) stack: StackArgs,
    /// Distance of a shear plane from the head, in mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) shear_plane_mm: Option<f64>,
}

const LENGTH_EXAMPLES: &str = "\
Examples:
  clampbook length M10 --layer \"mild steel:32\"
  clampbook length M10 --layer \"mild steel:12\" \\
    --tapped \"grey cast iron:20\" --blind --bolt-length-mm 35";
