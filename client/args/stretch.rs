//! `stretch`, `castle-nut`.

use clampbook_api::v1::{FaceRoughness, TorqueUnit};

use super::{StackArgs, TightenArgs, Word};

/// Say how far bolt and clamped parts stretch and compress: stiffness, elastic angle from snug, settling.
#[derive(Debug, clap::Args)]
#[command(before_help = STRETCH_EXAMPLES)]
pub(crate) struct StretchArgs {
    #[command(flatten)]
    pub(crate) joint: StretchedArgs,
    /// Unit of the loads.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

/// A joint that is stretched.
#[derive(Debug, clap::Args)]
pub(crate) struct StretchedArgs {
    #[command(flatten)]
    pub(crate) tighten: TightenArgs,
    #[command(flatten)]
    pub(crate) stack: StackArgs,
    /// Modulus of elasticity of the bolt, in MPa; steel when not given.
    #[arg(long, value_name = "MPA", allow_negative_numbers = true)]
    pub(crate) bolt_modulus_mpa: Option<f64>,
    /// Loading plane factor, 0 to 1; 1 when not given, which means that the load acts under head and nut.
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(crate) loading_plane: Option<f64>,
    /// How rough the faces are; machined when not given.
    #[arg(long, value_parser = FaceRoughness::parser())]
    pub(crate) roughness: Option<FaceRoughness>,
}

const STRETCH_EXAMPLES: &str = "\
Examples:
  clampbook stretch M12 8.8 oiled --layer \"mild steel:20\" \\
    --layer \"grey cast iron:30\" --bolt-length-mm 70";

/// Say whether you may tighten to the next slot of a castellated nut, or which washers to change.
///
/// It never tells you to back off or to go beyond yield, and it gives no answer without a published range.
#[derive(Debug, clap::Args)]
#[command(before_help = CASTLE_EXAMPLES)]
pub(crate) struct CastleArgs {
    #[command(flatten)]
    pub(crate) joint: StretchedArgs,
    /// Published minimum torque in N·m, without prevailing torque.
    #[arg(long, value_name = "NM", allow_negative_numbers = true)]
    pub(crate) minimum_torque_nm: f64,
    /// Published maximum torque in N·m, without prevailing torque.
    #[arg(long, value_name = "NM", allow_negative_numbers = true)]
    pub(crate) maximum_torque_nm: Option<f64>,
    /// Prevailing torque to add to both, in N·m.
    #[arg(long, value_name = "NM", allow_negative_numbers = true)]
    pub(crate) prevailing_torque_nm: Option<f64>,
    /// Angle from the minimum torque to the next slot, in degrees, as measured.
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) to_slot_degrees: Option<f64>,
    /// Slots of the nut; the standard's when not given.
    #[arg(long, value_name = "COUNT", allow_negative_numbers = true)]
    pub(crate) slots: Option<i32>,
    /// Cross holes through the bolt: 1, or 2 at 90 degrees.
    #[arg(long, value_name = "COUNT", allow_negative_numbers = true)]
    pub(crate) holes: Option<i32>,
    /// Unit to show first.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const CASTLE_EXAMPLES: &str = "\
Examples:
  clampbook castle-nut 1/2-20 \"SAE J429 5\" dry --layer \"mild steel:40\" \\
    --bolt-length-mm 63.5 --minimum-torque-nm 80 --maximum-torque-nm 110 \\
    --to-slot-degrees 25";
