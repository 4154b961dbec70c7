//! `joints`.

use clampbook_api::v1::{Criticality, HoleKind, Layout, Purpose};
use clap::{Args, Subcommand};

use super::{BuildArgs, Change, Word, shared::AimArgs};

/// Describe joints and look at them.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum JointsCommand {
    /// Add a joint with its positions to an assembly.
    Add(Box<JointArgs>),
    /// Show a joint with everything that is known about its positions.
    Show {
        /// Id of the job.
        job: String,
        /// Id of the joint.
        joint: String,
    },
    /// List the joints of a job.
    List {
        /// Id of the job.
        job: String,
    },
}

/// A joint to add.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct JointArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Id for it.
    pub(crate) id: String,
    #[command(flatten)]
    pub(crate) described: DescribedArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// What a joint is like.
#[derive(Debug, Args)]
pub(crate) struct DescribedArgs {
    /// Id of the assembly it belongs to.
    #[arg(long, value_name = "ID")]
    pub(crate) assembly: String,
    /// The joint as people call it.
    #[arg(long, value_name = "TEXT")]
    pub(crate) name: String,
    /// How the positions are arranged.
    #[arg(long, value_parser = Layout::parser())]
    pub(crate) layout: Layout,
    /// Number of rows of a grid.
    #[arg(
        long,
        value_name = "N",
        default_value_t = 0,
        allow_negative_numbers = true
    )]
    pub(crate) rows: i32,
    /// Number of positions.
    #[arg(long, value_name = "N", required_unless_present = "label")]
    pub(crate) positions: Option<u16>,
    /// Name of a position; repeat it for each position in the order of counting, instead of --positions.
    #[arg(long, value_name = "TEXT", conflicts_with = "positions")]
    pub(crate) label: Vec<String>,
    /// What happens if it fails: A people may be hurt, B the machine fails, C anything else.
    #[arg(long, value_parser = Criticality::parser(), ignore_case = true)]
    pub(crate) class: Criticality,
    /// What the fasteners go into.
    #[arg(long, value_parser = HoleKind::parser())]
    pub(crate) hole_kind: HoleKind,
    /// How it is locked, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) lock: String,
    /// How thread and seat are prepared, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) preparation: String,
    /// Name of the person who approves a computed torque here; without it, a class A joint stops.
    #[arg(long, value_name = "NAME", default_value = "")]
    pub(crate) approver: String,
    /// What the fasteners are for.
    #[arg(long, value_parser = Purpose::parser())]
    pub(crate) purpose: Option<Purpose>,
    /// Id of the published specification for it.
    #[arg(long, value_name = "ID")]
    pub(crate) specification: Option<String>,
    /// The revision that you read; when not given, the one in force, or in a correction the one named before.
    #[arg(
        long,
        value_name = "N",
        default_value_t = 0,
        allow_negative_numbers = true
    )]
    pub(crate) specification_revision: i32,
    #[command(flatten)]
    pub(crate) target: TargetArgs,
    #[command(flatten)]
    pub(crate) build: BuildArgs,
}

/// What the torque is computed from.
#[derive(Debug, Args)]
pub(crate) struct TargetArgs {
    /// Thread, for instance 7/16-20.
    #[arg(long, value_name = "TEXT")]
    pub(crate) thread: Option<String>,
    /// Grade the joint was specified for, for instance "SAE J429 5".
    #[arg(long, value_name = "TEXT")]
    pub(crate) grade: Option<String>,
    /// Lubrication and finish, for instance oiled.
    #[arg(long, value_name = "TEXT")]
    pub(crate) lubrication: Option<String>,
    #[command(flatten)]
    pub(crate) aim: AimArgs,
}

const EXAMPLES: &str = "\
Examples:
  clampbook joints add orchard-tractor left-hub-bolts \\
      --assembly left-hub --name \"Hub to spindle\" \\
      --layout ring --positions 4 --class A --hole-kind tapped-blind \\
      --thread 7/16-20 --grade \"SAE J429 5\" --lubrication oiled \\
      --approver \"R. Quill\"
  clampbook joints add orchard-tractor left-cover \\
      --assembly left-hub --name \"Cover to hub\" \\
      --layout ring --positions 6 --class B --hole-kind tapped-blind \\
      --thread M10 --grade 8.8 --lubrication oiled \\
      --layer \"mild steel:12\" --tapped \"cast aluminium:22\" --blind \\
      --bolt-length-mm 30
  clampbook joints add orchard-tractor left-plate \\
      --assembly left-hub --name \"Brake plate to knuckle\" \\
      --layout ring --positions 4 --class A --hole-kind tapped-through \\
      --thread 7/16-20 --grade \"SAE J429 5\" --lubrication dry \\
      --specification brake-plate
  clampbook joints show orchard-tractor left-hub-bolts";
