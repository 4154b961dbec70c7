//! Resource names: `jobs/{job}`, `jobs/{job}/joints/{joint}` and the like.

use super::Check;
use clampbook_book::ids::{
    AssemblyId, ConditionId, EntryNumber, JobId, JointId, SLUG_RULE, SpecificationId,
};
use clampbook_book::stream::Stream;

impl Check {
    /// Takes `jobs/{job}`.
    pub(crate) fn job_name(&mut self, field: &str, name: &str) -> Option<JobId> {
        let id = name.strip_prefix("jobs/").and_then(JobId::new);
        self.named(field, name, "jobs/{job}", id)
    }

    /// Takes `jobs/{job}` or `shop`.
    pub(crate) fn stream_name(&mut self, field: &str, name: &str) -> Option<Stream> {
        if name == "shop" {
            return Some(Stream::Shop);
        }
        let id = name.strip_prefix("jobs/").and_then(JobId::new);
        self.named(field, name, "jobs/{job} or shop", id.map(Stream::Job))
    }

    /// Takes `jobs/{job}/assemblies/{assembly}`.
    pub(crate) fn assembly_name(&mut self, field: &str, name: &str) -> Option<(JobId, AssemblyId)> {
        let ids =
            under_job(name, "assemblies").and_then(|(job, id)| Some((job, AssemblyId::new(id)?)));
        self.named(field, name, "jobs/{job}/assemblies/{assembly}", ids)
    }

    /// Takes `jobs/{job}`, or `jobs/{job}/assemblies/{assembly}`.
    pub(crate) fn job_or_assembly_name(
        &mut self,
        field: &str,
        name: &str,
    ) -> Option<(JobId, Option<AssemblyId>)> {
        if name.contains("/assemblies/") {
            let (job, assembly) = self.assembly_name(field, name)?;
            return Some((job, Some(assembly)));
        }
        Some((self.job_name(field, name)?, None))
    }

    /// Takes a joint of a job that may be left unsaid.
    pub(super) fn own_joint(
        &mut self,
        field: &str,
        name: &str,
        job: Option<&JobId>,
    ) -> Option<JointId> {
        if name.is_empty() {
            return None;
        }
        let (owner, joint) = self.joint_name(field, name)?;
        if job.is_some_and(|job| *job != owner) {
            self.wrong(field, "belongs to another job");
        }
        Some(joint)
    }

    /// Takes `jobs/{job}/joints/{joint}`.
    pub(crate) fn joint_name(&mut self, field: &str, name: &str) -> Option<(JobId, JointId)> {
        let ids = under_job(name, "joints").and_then(|(job, id)| Some((job, JointId::new(id)?)));
        self.named(field, name, "jobs/{job}/joints/{joint}", ids)
    }

    /// Takes `jobs/{job}/entries/{entry}`.
    pub(crate) fn entry_name(&mut self, field: &str, name: &str) -> Option<(JobId, EntryNumber)> {
        let ids = under_job(name, "entries").and_then(|(job, number)| {
            let digits = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
            Some((job, number.parse().ok().filter(|_| digits)?))
        });
        self.named(field, name, "jobs/{job}/entries/{entry}", ids)
    }

    /// Takes `conditions/{condition}`.
    pub(crate) fn condition_name(&mut self, field: &str, name: &str) -> Option<ConditionId> {
        let id = name.strip_prefix("conditions/").and_then(ConditionId::new);
        self.named(field, name, "conditions/{condition}", id)
    }

    /// Takes `specifications/{specification}`.
    pub(crate) fn specification_name(
        &mut self,
        field: &str,
        name: &str,
    ) -> Option<SpecificationId> {
        let id = name
            .strip_prefix("specifications/")
            .and_then(SpecificationId::new);
        self.named(field, name, "specifications/{specification}", id)
    }

    /// Takes the last part of a new name.
    pub(crate) fn new_id<I>(
        &mut self,
        field: &str,
        id: &str,
        make: fn(&str) -> Option<I>,
    ) -> Option<I> {
        let made = make(id);
        if made.is_none() {
            let shown = shorten(id);
            self.wrong(field, format!("\"{shown}\" is not {SLUG_RULE}"));
        }
        made
    }

    fn named<T>(&mut self, field: &str, name: &str, form: &str, found: Option<T>) -> Option<T> {
        if found.is_none() {
            let shown = shorten(name);
            self.wrong(
                field,
                format!("\"{shown}\" is not of the form {form}, each part {SLUG_RULE} or a number"),
            );
        }
        found
    }
}

/// Texts are repeated in errors only as far as they help.
fn shorten(text: &str) -> String {
    let short: String = text.chars().filter(|c| !c.is_control()).take(80).collect();
    if short.len() == text.len() {
        short
    } else {
        format!("{short}…")
    }
}

fn under_job<'n>(name: &'n str, collection: &str) -> Option<(JobId, &'n str)> {
    let (job, rest) = name.strip_prefix("jobs/")?.split_once('/')?;
    let id = rest.strip_prefix(collection)?.strip_prefix('/')?;
    Some((JobId::new(job)?, id))
}
