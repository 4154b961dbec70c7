//! `plan`.

use clampbook_api::v1::{Layout, Purpose, TorqueUnit};

use super::Word;

/// Show a tightening or loosening procedure for a joint, step by step.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct PlanArgs {
    /// Id of a procedure, such as loosening; when not given, it is chosen from the other flags.
    /// An unknown id is refused with the list of all ids.
    pub(crate) procedure: Option<String>,
    /// How the positions are arranged; a single one when not given.
    #[arg(long, value_parser = Layout::parser())]
    pub(crate) layout: Option<Layout>,
    /// Number of positions.
    #[arg(
        long,
        value_name = "N",
        default_value_t = 0,
        allow_negative_numbers = true
    )]
    pub(crate) positions: i32,
    /// Number of rows of a grid.
    #[arg(
        long,
        value_name = "N",
        default_value_t = 0,
        allow_negative_numbers = true
    )]
    pub(crate) rows: i32,
    /// What the fasteners are for.
    #[arg(long, value_parser = Purpose::parser())]
    pub(crate) purpose: Option<Purpose>,
    /// A gasket lies between the parts.
    #[arg(long)]
    pub(crate) gasketed: bool,
    /// Full torque, with its unit.
    #[arg(long, value_name = "TORQUE")]
    pub(crate) torque: Option<String>,
    /// The torque is published for this joint, not computed.
    #[arg(long, requires = "torque")]
    pub(crate) published: bool,
    /// Angle to back off, in degrees, as the maker gives it.
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) back_off: Option<f64>,
    /// Thread of the nut that is backed off, to say how far it moves.
    #[arg(long, value_name = "TEXT")]
    pub(crate) thread: Option<String>,
    /// Unit to show torques in.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook plan --layout ring --positions 8 --gasketed --torque \"90 N-m\"
  clampbook plan loosening --layout grid --positions 10 --rows 2
  clampbook plan --purpose wheel-bearing --back-off 60 --thread 1-14";
