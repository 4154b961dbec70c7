//! What may be typed: one file per noun. Values stay text wherever the server knows better what they mean.

mod assembled;
mod build;
mod catalog;
mod correct;
mod decide;
mod fastener;
mod finding;
mod flags;
mod history;
mod identify;
mod jobs;
mod joints;
mod lubrications;
mod marks;
mod ordering;
mod pages;
mod people;
mod photo;
mod pieces;
mod procedure;
mod published;
mod refit;
mod removal;
mod search;
mod shared;
mod sheet;
mod specs;
mod stack;
mod strength;
mod stretch;
mod tightening;
mod torque;
mod watch;
mod words;
mod wrench;

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};

pub(crate) use self::{
    assembled::AssembledArgs,
    build::BuildArgs,
    catalog::CatalogCommand,
    correct::{CorrectCommand, EntryArgs, WhyArgs},
    decide::{DecideArgs, DecidedArgs},
    fastener::{FastenerArgs, FitsArgs},
    finding::{AnsweredArgs, FindingArgs, FindingCommand, FoundArgs, ShownArgs},
    flags::FlagsCommand,
    history::HistoryArgs,
    identify::IdentifyCommand,
    jobs::{AssembliesCommand, JobArgs, JobsCommand},
    joints::{DescribedArgs, JointArgs, JointsCommand, TargetArgs},
    lubrications::LubricationsCommand,
    marks::{MarkedArgs, MarksCommand},
    ordering::{ArrivedArgs, OfArgs, PartsCommand, WantedArgs},
    pages::{ManArgs, ShellArgs},
    people::PeopleCommand,
    photo::{GetPhotoArgs, PhotoArgs, PhotoCommand, Subject},
    pieces::{Counted, NotRefittedArgs, PiecesArgs, WithArgs},
    procedure::PlanArgs,
    published::RestateArgs,
    refit::{RefitArgs, RefittedArgs},
    removal::{AlikeArgs, ImportArgs, LogArgs, Place, RemovalCommand, SeenArgs},
    search::SearchArgs,
    shared::{Change, Global},
    sheet::{Form, SheetArgs},
    specs::SpecsCommand,
    stack::{StackArgs, TightenArgs},
    strength::{JointCheckArgs, LengthArgs, LongArgs},
    stretch::{CastleArgs, StretchArgs, StretchedArgs},
    tightening::{TightenedArgs, TighteningArgs},
    torque::TorqueArgs,
    watch::{EntriesArgs, WatchArgs},
    words::Word,
    wrench::WrenchArgs,
};

/// Torque and fastener book for shops that take old machines apart and put them back.
///
/// Talks to a clampbookd server. Results go to standard output, messages to standard error.
#[derive(Debug, Parser)]
#[command(
    name = "clampbook",
    version = VERSION,
    before_help = EXAMPLES,
    after_help = EXIT_CODES,
    max_term_width = 80,
    disable_help_subcommand = true
)]
pub(crate) struct Args {
    #[command(flatten)]
    pub(crate) global: Global,
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// The commands, one per noun or action.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    Torque(TorqueArgs),
    Restate(RestateArgs),
    Wrench(WrenchArgs),
    Plan(PlanArgs),
    TorqueLong(LongArgs),
    JointCheck(JointCheckArgs),
    Length(LengthArgs),
    Stretch(StretchArgs),
    CastleNut(CastleArgs),
    #[command(subcommand)]
    Identify(IdentifyCommand),
    #[command(subcommand)]
    Catalog(CatalogCommand),
    #[command(subcommand)]
    Lubrications(LubricationsCommand),
    #[command(subcommand)]
    People(PeopleCommand),
    #[command(subcommand)]
    Specs(SpecsCommand),
    #[command(subcommand)]
    Jobs(JobsCommand),
    #[command(subcommand)]
    Assemblies(AssembliesCommand),
    #[command(subcommand)]
    Joints(JointsCommand),
    #[command(subcommand)]
    Marks(MarksCommand),
    #[command(subcommand)]
    Removal(RemovalCommand),
    Fits(FitsArgs),
    Decide(DecideArgs),
    Refit(RefitArgs),
    Tighten(TighteningArgs),
    NotRefitted(NotRefittedArgs),
    #[command(subcommand)]
    Finding(FindingCommand),
    #[command(subcommand)]
    Photo(PhotoCommand),
    #[command(subcommand)]
    Parts(PartsCommand),
    #[command(subcommand)]
    Correct(CorrectCommand),
    #[command(subcommand)]
    Flags(FlagsCommand),
    Sheet(SheetArgs),
    Watch(WatchArgs),
    Entries(EntriesArgs),
    History(HistoryArgs),
    Search(SearchArgs),
    Completions(ShellArgs),
    Man(ManArgs),
}

const VERSION: &str = concat!(env!("CARGO_PKG_VERSION"), " (contract clampbook.v1)");

const EXAMPLES: &str = "\
Examples:
  clampbook torque 7/16-20 \"SAE J429 5\" dry
  clampbook jobs create orchard-tractor --name \"Orchard tractor\"
  clampbook removal log orchard-tractor left-hub-bolts 3 seized --methods hammer
  clampbook flags list orchard-tractor
  clampbook sheet orchard-tractor";

const EXIT_CODES: &str = "\
Exit codes:
  0    done
  1    failure with no code of its own
  2    wrong usage, or a value that the server refused
  3    nothing has that name
  4    conflict: the name is taken, the record's state forbids it,
       or somebody wrote in between
  5    server not reachable or not ready, or the deadline passed
  6    not signed in, or not allowed
  7    refused by a safety rule: no torque is computed for this purpose
  130  interrupted";

/// Help that shows how it is used before it lists what there is.
const TEMPLATE: &str = "\
{about-with-newline}
{before-help}{usage-heading} {usage}

{all-args}{after-help}";

impl Args {
    /// Reads the command line; on a wrong one prints why and ends the process as clap does.
    pub(crate) fn read() -> Self {
        let matches = command().get_matches();
        Self::from_arg_matches(&matches).unwrap_or_else(|error| error.exit())
    }
}

/// The whole command tree, for parsing, completions and the manual.
pub(crate) fn command() -> clap::Command {
    examples_first(Args::command())
}

fn examples_first(command: clap::Command) -> clap::Command {
    // What stands for "not said" tells nobody anything.
    let says_nothing = |arg: &clap::Arg| {
        let values = arg.get_default_values();
        !values.is_empty() && values.iter().all(|v| v.is_empty() || v == "0")
    };
    command
        .help_template(TEMPLATE)
        .mut_args(|arg| match says_nothing(&arg) {
            true => arg.hide_default_value(true),
            false => arg,
        })
        .mut_subcommands(examples_first)
}

#[cfg(test)]
mod tests;
