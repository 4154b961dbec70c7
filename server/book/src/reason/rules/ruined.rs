//! A part that was found ruined, on its own side.

use super::{Flag, Looks, On, Rule};
use crate::record::context::Context;
use crate::record::job::Job;
use crate::record::words::{Criticality, FindingSeverity, Severity};

pub(super) const PART_RUINED: Rule = Rule {
    id: "part-ruined",
    title: "Part is ruined and neither replaced nor repaired",
    raised_when: "A part of an assembly was found ruined: stop on the assembly in class A and B, else caution.",
    cleared_by: "Log a finding that the same part was replaced or repaired, or correct the finding.",
    source: "common practice",
    looks: Looks::Job(part_ruined),
};

fn part_ruined(job: &Job, _: &Context<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for finding in job.findings.iter() {
        let found = &finding.found;
        if found.severity != FindingSeverity::Ruined || job.is_put_right(finding) {
            continue;
        }
        let severity = match job.criticality_of(found) {
            Some(Criticality::A | Criticality::B) => Severity::Stop,
            Some(Criticality::C) | None => Severity::Caution,
        };
        flags.push(Flag {
            rule: rule.id,
            severity,
            on: On::Assembly(found.assembly.clone()),
            position: 0,
            cause: format!(
                "{} is ruined by {}; neither replaced nor repaired (finding {})",
                found.part,
                found.kind.spoken(),
                finding.entry
            ),
            clears: rule.cleared_by,
            entries: vec![finding.entry],
        });
    }
}
