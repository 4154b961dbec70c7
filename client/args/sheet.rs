//! `sheet`.

use clampbook_api::v1::TorqueUnit;
use clap::ValueEnum;

use super::Word;

/// Print the reassembly sheet of a job.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct SheetArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Only this assembly.
    #[arg(long, value_name = "ID")]
    pub(crate) assembly: Option<String>,
    /// Form of the sheet; --json is the same as --format json.
    #[arg(long, value_enum, default_value_t = Form::Text)]
    pub(crate) format: Form,
    /// Unit for torques; the job's own when not given, else that of each thread.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

/// Form of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Form {
    /// Plain text to read and print.
    Text,
    /// Comma-separated values, one row per position.
    Csv,
    /// Protobuf JSON.
    Json,
}

const EXAMPLES: &str = "\
Examples:
  clampbook sheet orchard-tractor
  clampbook sheet orchard-tractor --assembly left-hub --unit lbf-ft
  clampbook sheet orchard-tractor --format csv > sheet.csv";
