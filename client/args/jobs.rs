//! `jobs` and `assemblies`.

use clampbook_api::v1::TorqueUnit;
use clap::{Args, Subcommand};

use super::{Change, Word};

/// Open jobs and look at them.
#[derive(Debug, Subcommand)]
#[command(before_help = JOBS)]
pub(crate) enum JobsCommand {
    /// Open a job for a machine.
    Create(JobArgs),
    /// Show a job: how far it has got and what it consists of.
    Show {
        /// Id of the job.
        job: String,
    },
    /// List the jobs, the last written first.
    List,
}

/// A job to open.
#[derive(Debug, Args)]
#[command(before_help = JOBS)]
pub(crate) struct JobArgs {
    /// Id for it: lower-case letters, digits and hyphens.
    #[arg(value_name = "ID")]
    pub(crate) id: String,
    /// The job as people call it.
    #[arg(long, value_name = "TEXT")]
    pub(crate) name: String,
    /// The machine, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) machine: String,
    /// Unit in which this job's torques are shown; that of each thread when not given: lbf-ft for inch, nm for metric.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// Add the units that are taken apart as a whole.
#[derive(Debug, Subcommand)]
#[command(before_help = ASSEMBLIES)]
pub(crate) enum AssembliesCommand {
    /// Add an assembly to a job.
    Add(AssemblyArgs),
}

/// An assembly to add.
#[derive(Debug, Args)]
#[command(before_help = ASSEMBLIES)]
pub(crate) struct AssemblyArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Id for it.
    pub(crate) id: String,
    /// The assembly as people call it.
    #[arg(long, value_name = "TEXT")]
    pub(crate) name: String,
    /// Id of the same unit on the other side, once it has been added.
    #[arg(long, value_name = "ID")]
    pub(crate) counterpart: Option<String>,
    #[command(flatten)]
    pub(crate) change: Change,
}

const JOBS: &str = "\
Examples:
  clampbook jobs create orchard-tractor --name \"Orchard tractor\" --unit lbf-ft
  clampbook jobs show orchard-tractor";

const ASSEMBLIES: &str = "\
Examples:
  clampbook assemblies add orchard-tractor left-hub --name \"Left front hub\"
  clampbook assemblies add orchard-tractor right-hub --name \"Right front hub\" \\
      --counterpart left-hub";
