//! Judging the opening of a job and what assemblies it has.

use super::bounds::MOST_ASSEMBLIES;
use crate::judge::refusal::Refusal;
use crate::record::fact::{AssemblyAdded, Fact, JobOpened};
use crate::record::job::Job;

pub(super) fn open_job(job: &Job, opened: &JobOpened) -> Result<Vec<Fact>, Refusal> {
    if job.opened.is_some() {
        return Err(Refusal::Exists {
            name: format!("jobs/{}", job.id),
        });
    }
    Ok(vec![Fact::JobOpened(opened.clone())])
}

pub(super) fn add_assembly(job: &Job, added: &AssemblyAdded) -> Result<Vec<Fact>, Refusal> {
    let name = |id| format!("jobs/{}/assemblies/{id}", job.id);
    if job.assembly(&added.assembly).is_some() {
        return Err(Refusal::Exists {
            name: name(&added.assembly),
        });
    }
    if let Some(other) = &added.counterpart {
        let there = job
            .assembly(other)
            .ok_or_else(|| Refusal::NotFound { name: name(other) })?;
        if let Some(taken) = &there.counterpart {
            return Err(Refusal::State {
                subject: name(other),
                explanation: format!("its counterpart is {taken} already"),
            });
        }
    }
    if job.assemblies.len() >= MOST_ASSEMBLIES {
        return Err(full(job, "assemblies", MOST_ASSEMBLIES));
    }
    Ok(vec![Fact::AssemblyAdded(added.clone())])
}

pub(super) fn full(job: &Job, what: &str, most: usize) -> Refusal {
    Refusal::State {
        subject: format!("jobs/{}", job.id),
        explanation: format!("has {most} {what}, the maximum for a job; open another job"),
    }
}
