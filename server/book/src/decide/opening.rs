//! Opening a job and laying out its assemblies and joints.

use super::{MOST_ASSEMBLIES, MOST_JOINTS, specifying, wrong_build};
use crate::fact::{AssemblyAdded, Fact, JobOpened, JointAdded};
use crate::job::Job;
use crate::refusal::{Refusal, Violation};
use crate::shop::Shop;

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

pub(super) fn add_joint(job: &Job, added: &JointAdded, shop: &Shop) -> Result<Vec<Fact>, Refusal> {
    if job.joint(&added.joint).is_some() {
        return Err(Refusal::Exists {
            name: format!("jobs/{}/joints/{}", job.id, added.joint),
        });
    }
    let mut wrong = wrong_build(added, shop.catalogue());
    let named = specifying::named(added, None, shop, &mut wrong);
    if job.assembly(&added.assembly).is_none() {
        wrong.push(Violation::new(
            "joint.assembly",
            format!(
                "jobs/{}/assemblies/{} does not exist; add the assembly first",
                job.id, added.assembly
            ),
        ));
    }
    if !wrong.is_empty() {
        return Err(Refusal::Invalid(wrong));
    }
    if job.joints.len() >= MOST_JOINTS {
        return Err(full(job, "joints", MOST_JOINTS));
    }
    Ok(vec![Fact::JointAdded(specifying::following(added, named))])
}

fn full(job: &Job, what: &str, most: usize) -> Refusal {
    Refusal::State {
        subject: format!("jobs/{}", job.id),
        explanation: format!("has {most} {what}, the maximum for a job; open another job"),
    }
}
