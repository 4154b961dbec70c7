//! `specs`: the shop's book of published values.

use std::path::PathBuf;

use clampbook_api::v1::specification_step::Step;
use clampbook_api::v1::{Purpose, Specification, SpecificationStep, TorqueUnit};
use clap::{Args, Subcommand};

use super::{Change, Word};

/// Keep what makers published for a joint; it takes precedence over any computed value.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum SpecsCommand {
    /// Add a published specification.
    #[command(before_help = EXAMPLES)]
    Add {
        /// Id for it: lower-case letters, digits and hyphens.
        id: String,
        #[command(flatten)]
        printed: PrintedArgs,
        #[command(flatten)]
        change: Change,
    },
    /// Add a new revision; superseded ones can still be read.
    #[command(before_help = REVISE)]
    Revise {
        /// Id of the specification.
        id: String,
        #[command(flatten)]
        printed: PrintedArgs,
        /// Etag of the specification as you last read it; when not given, the program reads it first.
        #[arg(long, value_name = "ETAG")]
        etag: Option<String>,
        #[command(flatten)]
        change: Change,
    },
    /// Withdraw a specification; it can still be read.
    #[command(before_help = WITHDRAW)]
    Withdraw {
        /// Id of the specification.
        id: String,
        /// Why, in words.
        #[arg(long, value_name = "TEXT")]
        reason: String,
        /// Etag of the specification as you last read it; when not given, the program reads it first.
        #[arg(long, value_name = "ETAG")]
        etag: Option<String>,
        #[command(flatten)]
        change: Change,
    },
    /// Show a specification.
    #[command(before_help = SHOW)]
    Show {
        /// Id of the specification.
        id: String,
        /// An earlier revision; the newest when not given.
        #[arg(
            long,
            value_name = "N",
            default_value_t = 0,
            allow_negative_numbers = true
        )]
        revision: i32,
    },
    /// List the specifications by id.
    List,
    /// Import a whole file of specifications; if a line is wrong, nothing in the file is written.
    #[command(before_help = IMPORT)]
    Import {
        /// File of comma-separated values; - for standard input.
        file: PathBuf,
        /// Check everything and write nothing.
        #[arg(short = 'n', long)]
        dry_run: bool,
        #[command(flatten)]
        change: Change,
    },
    /// Print the specifications in use as comma-separated values that `import` reads back.
    Export,
    /// List the joints that name a specification, and the revisions that they use.
    #[command(before_help = USES)]
    Uses {
        /// Id of the specification.
        id: String,
    },
    /// Show which value holds for a joint, and what a published torque does to the fasteners found.
    #[command(before_help = EFFECTIVE)]
    Effective {
        /// Id of the job.
        job: String,
        /// Id of the joint.
        joint: String,
        /// Unit that torques and loads are shown in first.
        #[arg(long, value_parser = TorqueUnit::parser())]
        unit: Option<TorqueUnit>,
    },
}

/// A specification as printed.
#[derive(Debug, Args)]
pub(crate) struct PrintedArgs {
    /// What it is for, as people call it.
    #[arg(long, value_name = "TEXT")]
    name: String,
    /// Thread, for instance 7/16-20.
    #[arg(long, value_name = "TEXT")]
    thread: String,
    /// Grade it is published for, if the publication names one.
    #[arg(long, value_name = "TEXT", default_value = "")]
    grade: String,
    /// Lubrication it is published for, if the publication says so.
    #[arg(long, value_name = "TEXT", default_value = "")]
    lubrication: String,
    /// What the fastener is for.
    #[arg(long, value_parser = Purpose::parser())]
    purpose: Option<Purpose>,
    /// A step: a torque such as "55 lbf·ft", or an angle such as "90 deg"; once for each step, in order.
    #[arg(long = "step", value_name = "STEP", required = true, value_parser = step)]
    steps: Vec<SpecificationStep>,
    /// Minimum torque allowed at the end.
    #[arg(long, value_name = "TORQUE", default_value = "")]
    minimum: String,
    /// Maximum torque allowed at the end.
    #[arg(long, value_name = "TORQUE", default_value = "")]
    maximum: String,
    /// Where it is published: document, edition, page.
    #[arg(long, value_name = "TEXT")]
    citation: String,
    /// Somebody has looked again and the unit is right.
    #[arg(long)]
    unit_confirmed: bool,
    /// Anything else.
    #[arg(long, value_name = "TEXT", default_value = "")]
    note: String,
}

impl PrintedArgs {
    /// As it is sent.
    pub(crate) fn into_wire(self) -> Specification {
        Specification {
            display_name: self.name,
            thread: self.thread,
            grade: self.grade,
            lubrication: self.lubrication,
            purpose: self.purpose.map_or(0, Into::into),
            steps: self.steps,
            minimum_torque: self.minimum,
            maximum_torque: self.maximum,
            citation: self.citation,
            unit_confirmed: self.unit_confirmed,
            note: self.note,
            ..Specification::default()
        }
    }
}

/// An angle when it ends in degrees; everything else is a torque, which the server reads.
fn step(text: &str) -> Result<SpecificationStep, String> {
    let angle = text.strip_suffix("deg").or_else(|| text.strip_suffix('°'));
    let step = match angle {
        None => Step::Torque(text.to_owned()),
        Some(number) => match number.trim().parse() {
            Ok(degrees) => Step::TurnDegrees(degrees),
            Err(_) => return Err("a torque such as 55 lbf·ft, or an angle such as 90 deg".into()),
        },
    };
    Ok(SpecificationStep { step: Some(step) })
}

const EXAMPLES: &str = "\
Examples:
  clampbook specs add brake-plate --name \"Brake plate to knuckle\" \\
      --thread 7/16-20 --grade \"SAE J429 5\" --lubrication dry \\
      --step \"55 lbf·ft\" --citation \"Workshop manual, 2nd ed., p. 41\"
  clampbook specs add head-bolts --name \"Cylinder head\" --thread M10 \\
      --step \"40 N·m\" --step \"90 deg\" --step \"90 deg\" \\
      --citation \"Engine manual, p. 12\"
  clampbook specs list";

const REVISE: &str = "\
Examples:
  clampbook specs revise brake-plate --name \"Brake plate to knuckle\" \\
      --thread 7/16-20 --grade \"SAE J429 5\" --lubrication dry \\
      --step \"52 lbf·ft\" --citation \"Service letter 7\"";

const WITHDRAW: &str = "\
Examples:
  clampbook specs withdraw brake-plate --reason \"of another year\"";

const IMPORT: &str = "\
Examples:
  clampbook specs import published.csv --dry-run
  clampbook specs export > published.csv

The file, in UTF-8, begins with a header line that names its columns, in any
order:
  id, display_name, thread         needed
  steps                            needed; several are separated by semicolons:
                                   40 N·m; 90 deg
  citation                         needed; document, edition, page
  grade, lubrication, purpose        as for `specs add`
  minimum_torque, maximum_torque    with their units
  unit_confirmed                   yes or no
  note                             in your own words
What is new is kept, what differs is revised, what is as it was is left alone.
At most 2,000 lines and 200,000 characters at once.";

const USES: &str = "\
Examples:
  clampbook specs uses brake-plate";

const EFFECTIVE: &str = "\
Examples:
  clampbook specs effective orchard-tractor left-plate
  clampbook specs effective orchard-tractor left-plate --unit lbf-ft";

const SHOW: &str = "\
Examples:
  clampbook specs show brake-plate
  clampbook specs show brake-plate --revision 1";
