//! Parts that are wanted and have not arrived.

use super::{Flag, Looks, On, Rule};
use crate::reason::orders::{self, By, Demand, Line};
use crate::record::context::Context;
use crate::record::ids::AssemblyId;
use crate::record::job::Job;
use crate::record::words::{Criticality, Severity};

pub(super) const NOT_ARRIVED: Rule = Rule {
    id: "part-not-arrived",
    title: "Part has not arrived",
    raised_when: "A part that somebody wants for a joint or a whole assembly has not arrived, or one that was found ruined has no successor yet: stop in class A and B, because nothing else keeps the joint from being closed without it; caution in C. A fastener that is away to be plated and baked is not back: stop. A replacement decided on has not arrived or is not made: caution in A and B, note in C, because another rule stops the original from going back.",
    cleared_by: "Log the arrival, in the number that is wanted; or fit the replacement, or the plated fastener; or withdraw the entry that wants it.",
    source: "common practice",
    looks: Looks::Job(not_arrived),
};

/// Severity by class A, B, C of what nothing else keeps out of sight.
const UNGUARDED: [Severity; 3] = [Severity::Stop, Severity::Stop, Severity::Caution];
/// Severity by class A, B, C of a fastener that is out of the house and goes back.
const AWAY: [Severity; 3] = [Severity::Stop, Severity::Stop, Severity::Stop];
/// Severity by class A, B, C of a replacement that was decided on.
const GUARDED: [Severity; 3] = [Severity::Caution, Severity::Caution, Severity::Note];

fn not_arrived(job: &Job, context: &Context<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for line in orders::list(job, None, context) {
        for demand in line.demands.iter().filter(|demand| !demand.is_there) {
            let by_class = match demand.by {
                By::Hand | By::Finding => UNGUARDED,
                By::Decision | By::Making => GUARDED,
                By::Plating => AWAY,
                // Other rules say what is missing, and what is used once is looked at when it is closed.
                By::Removal | By::SmallPart | By::UsedOnce => continue,
            };
            let on = match &demand.joint {
                Some(joint) => On::Joint(joint.clone()),
                None => On::Assembly(line.assembly.clone()),
            };
            flags.push(Flag {
                rule: rule.id,
                severity: by_class[class(job, &line.assembly, demand) as usize],
                on,
                position: demand.position,
                cause: cause(&line, demand),
                clears: rule.cleared_by,
                entries: vec![demand.entry],
            });
        }
    }
}

fn cause(line: &Line, demand: &Demand) -> String {
    format!(
        "waits for {} x {} ({}); {} of {} are there",
        demand.quantity, line.what, demand.why, line.arrived, line.wanted
    )
}

/// Class of what waits: of the part that was found, of its joint, or of the assembly's most vital joint.
fn class(job: &Job, assembly: &AssemblyId, demand: &Demand) -> Criticality {
    let of_finding = || job.criticality_of(&job.findings.get(demand.entry)?.found);
    let of_joint = || Some(job.joint(demand.joint.as_ref()?)?.fact.criticality);
    let of_assembly = || {
        let joints = job.joints.iter();
        let mine = joints.filter(|joint| joint.fact.assembly == *assembly);
        mine.map(|joint| joint.fact.criticality).min()
    };
    of_finding()
        .or_else(of_joint)
        .or_else(of_assembly)
        .unwrap_or(Criticality::C)
}
