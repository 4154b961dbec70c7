//! Searching a job: holes by thread, bag and flag; parts by what was found on them.

use crate::reason::rules::{self, Flag, On};
use crate::record::context::Context;
use crate::record::fact::{AssemblyAdded, JointAdded};
use crate::record::findings::Finding;
use crate::record::ids::{AssemblyId, JointId, PositionNumber};
use crate::record::job::{Job, Joint, Position};
use clampbook_engine::Catalogue;

/// What is searched for; everything that is said must hold.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// In the name of the job or of its machine.
    pub machine: String,
    /// Thread of the fastener, as any designation of it.
    pub thread: String,
    /// Rule whose flag is open there.
    pub rule: String,
    /// In the name of a part that something was found on.
    pub part: String,
    /// In where the removed fastener is kept.
    pub kept_in: String,
}

/// Something that was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hit {
    /// The assembly.
    pub assembly: AssemblyId,
    /// The joint, unless it is about the assembly as a whole.
    pub joint: Option<JointId>,
    /// The position; 0 for the joint or assembly as a whole.
    pub position: PositionNumber,
    /// What there is to see, in words.
    pub what: String,
}

impl Wanted {
    /// Whether a job of that name and machine may hold anything.
    #[must_use]
    pub fn is_machine(&self, display_name: &str, machine: &str) -> bool {
        holds(display_name, &self.machine) || holds(machine, &self.machine)
    }

    /// Whether something about parts is asked.
    fn is_of_parts(&self) -> bool {
        !self.part.is_empty()
    }

    /// Whether something about holes is asked.
    fn is_of_holes(&self) -> bool {
        !self.thread.is_empty() || !self.kept_in.is_empty()
    }
}

/// Everything of a job that is wanted: its assemblies when only the machine is said; else parts first, then holes in the order of its joints.
#[must_use]
pub fn hits(job: &Job, wanted: &Wanted, context: &Context<'_>) -> Vec<Hit> {
    let named = job.opened.as_ref().map(|opened| &opened.fact);
    if !named.is_some_and(|o| wanted.is_machine(&o.display_name, &o.machine)) {
        return Vec::new();
    }
    if !wanted.is_of_holes() && !wanted.is_of_parts() && wanted.rule.is_empty() {
        return job.assemblies.iter().map(|a| unit(a)).collect();
    }
    let flags: Vec<Flag> = match wanted.rule.as_str() {
        "" => Vec::new(),
        rule => {
            let mut flags = rules::flags(job, context);
            flags.retain(|flag| flag.rule == rule);
            flags
        }
    };
    let mut hits = Vec::new();
    if !wanted.is_of_holes() {
        hits.extend(
            job.findings
                .iter()
                .filter_map(|finding| part(finding, wanted, &flags)),
        );
    }
    if !wanted.is_of_parts() {
        if !wanted.is_of_holes() {
            hits.extend(flags.iter().filter_map(|flag| whole(job, flag)));
        }
        for joint in job.joints.iter() {
            for position in &joint.positions {
                hits.extend(hole(
                    joint,
                    position,
                    wanted,
                    &flags,
                    context.shop.catalogue(),
                ));
            }
        }
    }
    hits
}

/// An assembly of a machine that was searched for by nothing else.
fn unit(assembly: &AssemblyAdded) -> Hit {
    Hit {
        assembly: assembly.assembly.clone(),
        joint: None,
        position: 0,
        what: assembly.display_name.clone(),
    }
}

fn part(finding: &Finding, wanted: &Wanted, flags: &[Flag]) -> Option<Hit> {
    let found = &finding.found;
    let flagged =
        wanted.rule.is_empty() || flags.iter().any(|f| f.entries.contains(&finding.entry));
    if wanted.part.is_empty() || !holds(&found.part, &wanted.part) || !flagged {
        return None;
    }
    Some(Hit {
        assembly: found.assembly.clone(),
        joint: found.joint.clone(),
        position: 0,
        what: finding.spoken(),
    })
}

/// A flag on a whole joint or assembly.
fn whole(job: &Job, flag: &Flag) -> Option<Hit> {
    let (assembly, joint) = match &flag.on {
        On::Assembly(id) => (id.clone(), None),
        On::Joint(id) => (job.joint(id)?.fact.assembly.clone(), Some(id.clone())),
    };
    (flag.position == 0).then(|| Hit {
        assembly,
        joint,
        position: 0,
        what: flag.cause.clone(),
    })
}

fn hole(
    joint: &Joint,
    position: &Position,
    wanted: &Wanted,
    flags: &[Flag],
    catalogue: &Catalogue,
) -> Option<Hit> {
    let on = On::Joint(joint.fact.joint.clone());
    let flag = flags
        .iter()
        .find(|f| f.on == on && f.position == position.number);
    let removed = position.removal().map(|(_, removed)| removed);
    let kept_in = removed.map_or("", |removed| removed.kept_in.as_str());
    let thread = thread(&joint.fact, position);
    let holds_all = (wanted.rule.is_empty() || flag.is_some())
        && holds(kept_in, &wanted.kept_in)
        && (wanted.thread.is_empty() || is_same(thread, &wanted.thread, catalogue))
        && (wanted.is_of_holes() || flag.is_some());
    if !holds_all {
        return None;
    }
    let told = [thread, kept_in, flag.map_or("", |flag| flag.cause.as_str())];
    let told: Vec<&str> = told.into_iter().filter(|one| !one.is_empty()).collect();
    Some(Hit {
        assembly: joint.fact.assembly.clone(),
        joint: Some(joint.fact.joint.clone()),
        position: position.number,
        what: told.join(", "),
    })
}

/// Thread of what is or goes in there: of the new part, as found, or as specified.
fn thread<'a>(joint: &'a JointAdded, position: &'a Position) -> &'a str {
    let removed = position
        .removal()
        .map(|(_, removed)| removed.thread.as_str());
    match (position.new_part(), removed.filter(|said| !said.is_empty())) {
        (Some(part), _) => &part.thread,
        (None, Some(found)) => found,
        (None, None) => joint
            .target
            .as_ref()
            .map_or("", |target| target.thread.as_str()),
    }
}

fn is_same(thread: &str, wanted: &str, catalogue: &Catalogue) -> bool {
    match (catalogue.thread(thread), catalogue.thread(wanted)) {
        (Ok(one), Ok(other)) => one.id() == other.id(),
        _ => false,
    }
}

/// Whether a text holds the words, whatever their case.
fn holds(text: &str, words: &str) -> bool {
    text.to_lowercase().contains(&words.to_lowercase())
}
