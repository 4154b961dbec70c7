//! The other side: what ruined a part here may have ruined its twin there.

use super::{Flag, Looks, On, Rule};
use crate::record::context::Context;
use crate::record::job::Job;
use crate::record::words::Severity;

pub(super) const OTHER_SIDE: Rule = Rule {
    id: "other-side",
    title: "Part is ruined here; nobody has looked at the same part on the other side",
    raised_when: "A part of class A or B is ruined by wear, heat or a crack in an assembly that has a counterpart: stop on the counterpart.",
    cleared_by: "Inspect the same part on the other side, with a reading or a photo; or name who says that there is no such part; or find it ruined too.",
    source: "common practice",
    looks: Looks::Job(other_side),
};

fn other_side(job: &Job, _: &Context<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for finding in job.findings.iter().filter(|f| f.answer.is_none()) {
        let Some(other) = job.other_side_of(finding) else {
            continue;
        };
        let here = job
            .assembly(&finding.found.assembly)
            .map_or("the other side", |assembly| &assembly.display_name);
        flags.push(Flag {
            rule: rule.id,
            severity: Severity::Stop,
            on: On::Assembly(other.assembly.clone()),
            position: 0,
            cause: format!(
                "{} of {here} is ruined by {}; nobody has looked at the same part of {} (finding {})",
                finding.found.part,
                finding.found.kind.spoken(),
                other.display_name,
                finding.entry
            ),
            clears: rule.cleared_by,
            entries: vec![finding.entry],
        });
    }
}
