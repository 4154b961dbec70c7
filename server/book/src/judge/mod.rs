//! Judging: a command against the state of its job or of the shop gives the facts to write, or a refusal.
//!
//! Pure and total. The writer of the journal calls it with the state that the facts will be applied to, so that nothing
//! can come in between. What can be seen in a request alone (lengths, words, numbers) is checked before, where it is parsed.

pub mod bounds;
pub mod build;
pub mod command;
mod correction;
mod decision;
mod finding;
mod job;
mod joint;
mod lubrication;
mod marks;
mod part;
mod person;
mod photo;
mod pieces;
mod refit;
pub mod refusal;
mod removal;
mod shop;
mod specification;
mod tightening;

use crate::judge::command::{Command, ShopCommand};
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::Fact;
use crate::record::ids::{AssemblyId, JointId, PositionNumber};
use crate::record::job::{Job, Joint, Position};

/// How far a device's clock may run ahead of the server's, in microseconds: 5 minutes. Common practice.
pub const CLOCK_LEAD: i64 = 5 * 60 * 1_000_000;

pub use crate::record::context::Context;
pub use specification::wrong_lines;

/// A command with the state it is to be judged on, besides the shop's.
#[derive(Clone, Copy, Debug)]
pub enum Asked<'a> {
    /// About a job.
    OfJob(&'a Job, &'a Command),
    /// About the shop.
    OfShop(&'a ShopCommand),
}

/// Turns a command about a job or about the shop into the facts to write.
///
/// # Errors
/// A [`Refusal`] that names what is wrong; the state is as before.
pub fn judge(asked: Asked<'_>, context: &Context<'_>) -> Result<Vec<Fact>, Refusal> {
    match asked {
        Asked::OfJob(job, command) => decide(job, command, context),
        Asked::OfShop(command) => {
            not_from_the_future(context)?;
            shop::decide(command, context)
        }
    }
}

/// Turns a command about a job into the facts to write.
///
/// # Errors
/// A [`Refusal`] that names what is wrong; the state is as before.
pub fn decide(job: &Job, command: &Command, context: &Context<'_>) -> Result<Vec<Fact>, Refusal> {
    not_from_the_future(context)?;
    if let Command::OpenJob(opened) = command {
        return job::open_job(job, opened);
    }
    if job.opened.is_none() {
        return Err(Refusal::NotFound {
            name: format!("jobs/{}", job.id),
        });
    }
    match command {
        Command::OpenJob(opened) => job::open_job(job, opened),
        Command::AddAssembly(added) => job::add_assembly(job, added),
        Command::AddJoint(added) => joint::add(job, added, context),
        Command::LogMatchMarks(marked) => marks::log(job, marked),
        Command::LogRemoval(removed) => removal::log(job, removed),
        Command::LogAlikeRemovals(alike) => removal::log_alike(job, alike),
        Command::ImportRemovals(lines) => removal::import(job, lines),
        Command::LogDecision { decided, etag } => decision::decide_on(job, decided, etag),
        Command::LogRefit(refitted) => refit::refit(job, refitted),
        Command::LogTightening(asked) => tightening::tighten(job, asked, context),
        Command::LogNotRefitted(accounted) => pieces::account(job, accounted),
        Command::LogFinding(found) => finding::log(job, found),
        Command::AnswerCounterpart(answered) => finding::answer(job, answered),
        Command::LogPartWanted(wanted) => part::want(job, wanted),
        Command::LogPartArrival(arrived) => part::arrive(job, arrived, context),
        Command::AddPhoto(added) => photo::add(job, added),
        Command::Correct(correction) => correction::correct(job, correction, context),
    }
}

fn not_from_the_future(context: &Context<'_>) -> Result<(), Refusal> {
    if context.said.0 > context.now.0.saturating_add(CLOCK_LEAD) {
        return Err(Refusal::Invalid(vec![Violation::new(
            "said_time",
            "lies in the future; allowed is any time up to now",
        )]));
    }
    Ok(())
}

fn joint<'j>(job: &'j Job, id: &JointId) -> Result<&'j Joint, Refusal> {
    job.joint(id).ok_or_else(|| Refusal::NotFound {
        name: format!("jobs/{}/joints/{id}", job.id),
    })
}

/// The assembly is there, and the joint, if one is named, is one of it.
fn belongs(
    job: &Job,
    field: &str,
    assembly: &AssemblyId,
    of_it: Option<&JointId>,
) -> Result<(), Refusal> {
    if job.assembly(assembly).is_none() {
        return Err(Refusal::NotFound {
            name: format!("jobs/{}/assemblies/{assembly}", job.id),
        });
    }
    let Some(id) = of_it else {
        return Ok(());
    };
    let owner = &joint(job, id)?.fact.assembly;
    if owner == assembly {
        return Ok(());
    }
    let wrong = format!("{id} belongs to assembly {owner}, not to {assembly}");
    Err(Refusal::Invalid(vec![Violation::new(field, wrong)]))
}

fn position<'j>(
    joint: &'j Joint,
    number: PositionNumber,
    field: &str,
) -> Result<&'j Position, Refusal> {
    joint
        .position(number)
        .ok_or_else(|| Refusal::Invalid(vec![no_position(joint, number, field)]))
}

fn no_position(joint: &Joint, number: PositionNumber, field: &str) -> Violation {
    Violation::new(
        field,
        format!(
            "joint {} has no position {number}; allowed is 1 to {}",
            joint.fact.joint,
            joint.positions.len()
        ),
    )
}

/// Refuses a correction that changes what has to stay: fields, whether each stays, and what it was.
fn stays<'f>(
    kept: impl IntoIterator<Item = (&'f str, bool, String)>,
    called: &str,
) -> Result<(), Refusal> {
    let changed = kept.into_iter().filter(|(_, stays, _)| !stays);
    let wrong: Vec<Violation> = changed
        .map(|(field, _, was)| {
            let wrong =
                format!("was {was} and cannot be changed; withdraw {called} and log the right one");
            Violation::new(field, wrong)
        })
        .collect();
    match wrong.as_slice() {
        [] => Ok(()),
        _ => Err(Refusal::Invalid(wrong)),
    }
}

/// How a position is named in explanations.
fn subject(job: &Job, joint: &Joint, number: PositionNumber) -> String {
    format!("{} position {number}", joint.name(&job.id))
}
