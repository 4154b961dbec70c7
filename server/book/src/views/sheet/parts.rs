//! What was found on parts other than fasteners, and what stops whole assemblies.

use super::Scope;
use crate::reason::rules::{self, Flag, On};
use crate::record::findings::Finding;
use crate::record::ids::AssemblyId;
use crate::record::job::Job;
use crate::views::spoken::finding::{other_side, what};

/// Of the flags that follow from the whole job those on assemblies that a sheet tells: on its own and on its other side.
pub(super) fn flags(job: &Job, scope: &Scope, of_job: &[Flag]) -> Vec<(Flag, String)> {
    of_job
        .iter()
        .filter(|flag| {
            let wanted = scope.assembly.as_ref();
            wanted.is_none_or(|assembly| rules::is_around(job, assembly, flag))
        })
        .filter_map(|flag| match &flag.on {
            On::Assembly(on) => Some((flag.clone(), called(job, on))),
            On::Joint(_) => None,
        })
        .collect()
}

/// The findings of a sheet's assemblies, one line each, oldest first.
pub(super) fn findings(job: &Job, scope: &Scope) -> Vec<String> {
    job.findings
        .iter()
        .filter(|finding| {
            let of = &finding.found.assembly;
            scope.assembly.as_ref().is_none_or(|wanted| wanted == of)
        })
        .map(|finding| line(job, finding))
        .collect()
}

fn line(job: &Job, finding: &Finding) -> String {
    let found = &finding.found;
    let joint = found.joint.as_ref().and_then(|id| job.joint(id));
    let place = match joint {
        Some(joint) => super::title(job, joint),
        None => called(job, &found.assembly),
    };
    let mut line = format!("{place}: {}", what(found));
    for photo in super::photos::of_finding(job, finding) {
        line.push_str(&format!("; {photo}"));
    }
    if let Some(answer) = &finding.answer {
        line.push_str(&format!("; {}", other_side(&answer.answered)));
    }
    line.push_str(&format!(" (entry {})", finding.entry));
    line
}

pub(super) fn called(job: &Job, id: &AssemblyId) -> String {
    job.assembly(id)
        .map_or(id.as_str(), |assembly| &assembly.display_name)
        .to_owned()
}
