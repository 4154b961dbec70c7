//! `identify`.

use clap::{Args, Subcommand};

/// Find out what a thread, a head or a spanner is.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum IdentifyCommand {
    Thread(IdentifyThreadArgs),
    /// List the grades that carry a head mark, weakest first.
    #[command(before_help = HEAD)]
    Head {
        /// The mark as seen: "three radial lines", 8.8, S, unmarked.
        head_marking: String,
    },
    Spanner(SpannerArgs),
}

/// List the threads that fit your measurements, and the gauge to try next.
#[derive(Debug, Args)]
#[command(before_help = THREAD)]
pub(crate) struct IdentifyThreadArgs {
    /// Outer diameter of the screw, or bore of the nut, with its unit.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) diameter: String,
    /// The bore of a nut or hole was measured.
    #[arg(long)]
    pub(crate) internal: bool,
    /// Pitch by gauge or counting, with its unit.
    #[arg(long, value_name = "LENGTH", conflicts_with = "tpi")]
    pub(crate) pitch: Option<String>,
    /// Threads per inch by gauge or counting.
    #[arg(long, value_name = "COUNT", allow_negative_numbers = true)]
    pub(crate) tpi: Option<f64>,
    /// Angle between the flanks by gauge, in degrees: 60, 55 or 47.5.
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) flank_angle: Option<f64>,
    /// How far the measured diameter may be off, in mm; 0.05 when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) diameter_error: Option<f64>,
    /// How far the measured pitch may be off, in mm; 0.03 when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) pitch_error: Option<f64>,
    /// How far the crests may be worn, in mm; 0.1 when not given, 0 for a new part.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) wear: Option<f64>,
}

/// List the threads that a spanner fits, or the spanners that a thread takes.
#[derive(Debug, Args)]
#[command(before_help = SPANNER)]
pub(crate) struct SpannerArgs {
    /// Width across flats with its unit: "9/16 in", "13 mm".
    #[arg(required_unless_present = "thread")]
    pub(crate) width: Option<String>,
    /// The thread to find the spanner for, instead of a width.
    #[arg(long, value_name = "TEXT", conflicts_with = "width")]
    pub(crate) thread: Option<String>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook identify thread --diameter \"12.6 mm\" --pitch \"1.27 mm\"
  clampbook identify head \"three radial lines\"
  clampbook identify spanner \"9/16 in\"";

const THREAD: &str = "\
Examples:
  clampbook identify thread --diameter \"12.6 mm\" --pitch \"1.27 mm\"
  clampbook identify thread --diameter \"6.3 mm\" --tpi 20 --flank-angle 55
  clampbook identify thread --diameter \"8.5 mm\" --internal --wear 0";

const HEAD: &str = "\
Examples:
  clampbook identify head \"three radial lines\"
  clampbook identify head unmarked";

const SPANNER: &str = "\
Examples:
  clampbook identify spanner \"9/16 in\"
  clampbook identify spanner --thread \"5/16 BSF\"";
