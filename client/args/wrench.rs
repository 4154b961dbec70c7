//! `wrench`.

use clampbook_api::v1::{LockNutKind, TorqueUnit};

use super::Word;

/// Say what to set a torque wrench to, and which wrench to take.
///
/// Run-on torque is added first, then the adapter counts, then the wrench's range and graduation.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct WrenchArgs {
    /// Torque wanted, with its unit: "60 lbf-ft".
    pub(crate) torque: String,
    /// Measured run-on torque of the lock nut, with its unit.
    #[arg(long, value_name = "TORQUE")]
    pub(crate) run_on: Option<String>,
    /// The source says that its torque leaves the run-on torque out, so it is added.
    #[arg(long)]
    pub(crate) run_on_excluded: bool,
    /// Lever of the wrench, middle of grip to middle of square, with its unit.
    #[arg(long, value_name = "LENGTH", requires = "adapter_length")]
    pub(crate) wrench_length: Option<String>,
    /// Length of the adapter, middle of square to middle of nut, with its unit.
    #[arg(long, value_name = "LENGTH", requires = "wrench_length")]
    pub(crate) adapter_length: Option<String>,
    /// Angle of the adapter in degrees; 0 when it lengthens the wrench in line.
    #[arg(
        long,
        value_name = "DEGREES",
        requires = "adapter_length",
        allow_negative_numbers = true
    )]
    pub(crate) angle: Option<f64>,
    /// Thread of a lock nut that is used again, to judge its run-on torque.
    #[arg(long, value_name = "TEXT")]
    pub(crate) used_lock_nut: Option<String>,
    /// How that lock nut grips.
    #[arg(long, value_parser = LockNutKind::parser(), requires = "used_lock_nut")]
    pub(crate) lock_nut_kind: Option<LockNutKind>,
    /// A wrench at hand: label, full scale, graduation and, if known, in-date, overdue or known-bad.
    #[arg(long = "wrench", value_name = "LABEL,SCALE,STEP[,STATE]")]
    pub(crate) wrenches: Vec<String>,
    /// Unit to show first.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook wrench \"60 lbf-ft\" --wrench \"long,150 lbf-ft,1 lbf-ft,in-date\"
  clampbook wrench \"30 lbf-ft\" --wrench-length \"12 in\" \\
    --adapter-length \"3 in\" --angle 45
  clampbook wrench \"40 N-m\" --run-on \"3 N-m\" --run-on-excluded \\
    --used-lock-nut 1/2-20 --lock-nut-kind insert";
