//! Resource names, such as `jobs/{job}` and `jobs/{job}/joints/{joint}`: made and read here only.

use crate::Validator;
use clampbook_book::ids::{
    AssemblyId, EntryNumber, JobId, JointId, LubricationId, PersonId, SLUG_RULE, SpecificationId,
    is_slug,
};
use clampbook_book::stream::Stream;
use std::fmt::Display;

/// `jobs/{job}`.
#[must_use]
pub fn job(id: &JobId) -> String {
    format!("jobs/{id}")
}

/// `jobs/{job}/assemblies/{assembly}`.
#[must_use]
pub fn assembly(job: &JobId, id: &AssemblyId) -> String {
    format!("jobs/{job}/assemblies/{id}")
}

/// `jobs/{job}/joints/{joint}`.
#[must_use]
pub fn joint(job: &JobId, id: &JointId) -> String {
    format!("jobs/{job}/joints/{id}")
}

/// `jobs/{job}/entries/{entry}`.
#[must_use]
pub fn entry(job: &JobId, number: EntryNumber) -> String {
    format!("jobs/{job}/entries/{number}")
}

/// `jobs/{job}/entries/{entry}` or `shop/entries/{entry}`.
#[must_use]
pub fn entry_of(stream: &Stream, number: EntryNumber) -> String {
    format!("{stream}/entries/{number}")
}

/// `lubrications/{lubrication}`, of the shop's own or of the catalogue.
#[must_use]
pub fn lubrication(id: impl Display) -> String {
    format!("lubrications/{id}")
}

/// `people/{person}`.
#[must_use]
pub fn person(id: &PersonId) -> String {
    format!("people/{id}")
}

/// `specifications/{specification}`.
#[must_use]
pub fn specification(id: &SpecificationId) -> String {
    format!("specifications/{id}")
}

/// `rules/{rule}`.
#[must_use]
pub fn rule(id: &str) -> String {
    format!("rules/{id}")
}

/// A row of the catalogue, such as `threads/{thread}`.
#[must_use]
pub fn row(collection: &str, id: impl Display) -> String {
    format!("{collection}/{id}")
}

impl Validator {
    /// Takes `jobs/{job}`.
    pub fn job_name(&mut self, field: &str, name: &str) -> Option<JobId> {
        let id = name.strip_prefix("jobs/").and_then(JobId::new);
        self.named(field, name, "jobs/{job}", id)
    }

    /// Takes `jobs/{job}` or `shop`.
    pub fn stream_name(&mut self, field: &str, name: &str) -> Option<Stream> {
        if name == "shop" {
            return Some(Stream::Shop);
        }
        let id = name.strip_prefix("jobs/").and_then(JobId::new);
        self.named(field, name, "jobs/{job} or shop", id.map(Stream::Job))
    }

    /// Takes `jobs/{job}/assemblies/{assembly}`.
    pub fn assembly_name(&mut self, field: &str, name: &str) -> Option<(JobId, AssemblyId)> {
        let ids =
            under_job(name, "assemblies").and_then(|(job, id)| Some((job, AssemblyId::new(id)?)));
        self.named(field, name, "jobs/{job}/assemblies/{assembly}", ids)
    }

    /// Takes `jobs/{job}`, or `jobs/{job}/assemblies/{assembly}`.
    pub fn job_or_assembly_name(
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
    pub fn own_joint(&mut self, field: &str, name: &str, job: Option<&JobId>) -> Option<JointId> {
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
    pub fn joint_name(&mut self, field: &str, name: &str) -> Option<(JobId, JointId)> {
        let ids = under_job(name, "joints").and_then(|(job, id)| Some((job, JointId::new(id)?)));
        self.named(field, name, "jobs/{job}/joints/{joint}", ids)
    }

    /// Takes `jobs/{job}/entries/{entry}`.
    pub fn entry_name(&mut self, field: &str, name: &str) -> Option<(JobId, EntryNumber)> {
        let ids = under_job(name, "entries").and_then(|(job, number)| {
            let digits = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
            Some((job, number.parse().ok().filter(|_| digits)?))
        });
        self.named(field, name, "jobs/{job}/entries/{entry}", ids)
    }

    /// Takes `lubrications/{lubrication}`.
    pub fn lubrication_name(&mut self, field: &str, name: &str) -> Option<LubricationId> {
        let id = name
            .strip_prefix("lubrications/")
            .and_then(LubricationId::new);
        self.named(field, name, "lubrications/{lubrication}", id)
    }

    /// Takes `people/{person}`.
    pub fn person_name(&mut self, field: &str, name: &str) -> Option<PersonId> {
        let id = name.strip_prefix("people/").and_then(PersonId::new);
        self.named(field, name, "people/{person}", id)
    }

    /// Takes `rules/{rule}`.
    pub fn rule_name<'n>(&mut self, field: &str, name: &'n str) -> Option<&'n str> {
        let id = name.strip_prefix("rules/").filter(|id| is_slug(id));
        if id.is_none() {
            self.wrong(field, "is not of the form rules/{rule}");
        }
        id
    }

    /// Takes `specifications/{specification}`.
    pub fn specification_name(&mut self, field: &str, name: &str) -> Option<SpecificationId> {
        let id = name
            .strip_prefix("specifications/")
            .and_then(SpecificationId::new);
        self.named(field, name, "specifications/{specification}", id)
    }

    /// Takes the last part of a new name.
    pub fn new_id<I>(&mut self, field: &str, id: &str, make: fn(&str) -> Option<I>) -> Option<I> {
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
