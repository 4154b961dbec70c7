//! What each command does: from the words typed to one call, and from its answer to the page. One file per noun.

mod assemblies;
mod catalog;
mod correct;
mod decide;
mod entries;
mod file;
mod finding;
mod flags;
mod history;
mod identify;
mod jobs;
mod joints;
mod lubrications;
mod many;
mod marks;
mod not_refitted;
mod ordering;
mod pages;
mod paging;
mod people;
mod photo;
mod procedure;
mod published;
mod refit;
mod removal;
mod search;
mod sheet;
mod specs;
mod strength;
mod tightening;
mod torque;
mod watch;
mod wrench;

use crate::{args::Command, call::Server, error::Failure, out::Out};

/// Does what was asked for.
pub(crate) async fn run(command: Command, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        Command::Torque(args) => torque::run(args, server, out).await,
        Command::Restate(args) => published::run(args, server, out).await,
        Command::Wrench(args) => wrench::run(args, server, out).await,
        Command::Plan(args) => procedure::run(args, server, out).await,
        Command::TorqueLong(args) => strength::long_form(args, server, out).await,
        Command::JointCheck(args) => strength::joint(args, server, out).await,
        Command::Length(args) => strength::length(args, server, out).await,
        Command::Stretch(args) => strength::stretch(args, server, out).await,
        Command::CastleNut(args) => strength::castle(args, server, out).await,
        Command::Identify(command) => identify::run(command, server, out).await,
        Command::Catalog(command) => catalog::run(command, server, out).await,
        Command::Lubrications(command) => lubrications::run(command, server, out).await,
        Command::People(command) => people::run(command, server, out).await,
        Command::Specs(command) => specs::run(command, server, out).await,
        Command::Jobs(command) => jobs::run(command, server, out).await,
        Command::Assemblies(command) => assemblies::run(command, server, out).await,
        Command::Joints(command) => joints::run(command, server, out).await,
        Command::Marks(command) => marks::run(command, server, out).await,
        Command::Removal(command) => removal::run(command, server, out).await,
        Command::Fits(args) => ordering::fits(args, server, out).await,
        Command::Decide(args) => decide::run(args, server, out).await,
        Command::Refit(args) => refit::run(args, server, out).await,
        Command::Tighten(args) => tightening::run(args, server, out).await,
        Command::NotRefitted(args) => not_refitted::run(args, server, out).await,
        Command::Finding(command) => finding::run(command, server, out).await,
        Command::Parts(command) => ordering::run(command, server, out).await,
        Command::Photo(command) => photo::run(command, server, out).await,
        Command::Correct(command) => correct::run(command, server, out).await,
        Command::Flags(command) => flags::run(command, server, out).await,
        Command::Sheet(args) => sheet::run(args, server, out).await,
        Command::Watch(args) => watch::run(args, server, out).await,
        Command::History(args) => history::run(args, server, out).await,
        Command::Search(args) => search::run(args, server, out).await,
        Command::Entries(args) => entries::run(args, server, out).await,
        Command::Completions(args) => pages::completions(&args, out),
        Command::Man(args) => pages::man(&args, out),
    }
}
