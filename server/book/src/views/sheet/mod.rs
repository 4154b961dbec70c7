//! The reassembly sheet as a view: what paper, terminal and table programs show, in the order it is done.
//!
//! Joints come in reverse order of removal, positions in tightening order. A stopped position carries the word STOP and
//! no torque. Nothing is rounded away: rows carry the plain number beside the text that people read.

mod assembled;
mod built;
mod cell;
mod fastener;
mod parts;
mod passes;
mod photos;
mod preparation;
mod published;
mod torque;
mod waits;

pub use built::{Built, Checked, SlotRange, Slots};
pub use cell::{Goal, Number, TorqueCell};
pub use passes::Pass;
pub use published::Published;

pub(in crate::views) use cell::COMPUTED;

use crate::reason::effective::EffectiveJoint;
use crate::reason::rules::{self, Flag, On};
use crate::reason::shown;
use crate::record::context::Context;
use crate::record::entry::Moment;
use crate::record::fact::JointAdded;
use crate::record::ids::{AssemblyId, EntryNumber, JointId, PositionNumber};
use crate::record::job::{Job, Joint, Position, Standing};
use crate::record::standings::Standings;
use crate::record::words::{Compared, Criticality, Method, Severity, TorqueUnit};
use std::collections::HashMap;
use std::sync::Arc;

/// Cautions that every sheet carries.
pub const CAUTIONS: [&str; 5] = [
    "The maker's specification, local codes and a licensed inspection stand above anything computed here.",
    "Machine on stands, never on a jack. Mind stored spring energy.",
    "Eye protection when driving out pins or using a punch.",
    "Old brake dust may hold asbestos: no compressed air. Brake fluid harms skin, eyes and paint.",
    "Compare with the tablet before use; if different, bin this sheet.",
];

/// At a joint that heat was used on; more of it may be needed there.
const HEAT: &str = "Heat was used here: keep it from fluids, grease, bushings and plated parts; no chlorinated cleaner near hot metal or a flame, its vapour turns into phosgene.";

/// What a sheet is wanted for.
#[derive(Clone, Debug)]
pub struct Scope {
    /// One assembly, or the whole job.
    pub assembly: Option<AssemblyId>,
    /// Unit for torques; that which is usual at each thread when absent.
    pub unit: Option<TorqueUnit>,
}

/// Where the journal stood when the sheet was made.
#[derive(Clone, Copy, Debug)]
pub struct Head {
    /// The job's last entry.
    pub entry: EntryNumber,
    /// Its hash.
    pub hash: [u8; 32],
    /// When the sheet was made.
    pub made: Moment,
}

/// The sheet.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Resource name of what it is for.
    pub name: String,
    /// The job as people call it.
    pub job_display_name: String,
    /// The machine.
    pub machine: String,
    /// What stops the job.
    pub stops: Vec<(Flag, String)>,
    /// What is still waited for, one line each.
    pub waits: Vec<String>,
    /// What was found on parts other than fasteners, one line each.
    pub findings: Vec<String>,
    /// Positions by state.
    pub standings: Standings,
    /// Joints in order of reassembly.
    pub joints: Vec<SheetJoint>,
    /// Where the journal stood.
    pub head: Head,
}

/// A joint of the sheet.
#[derive(Clone, Debug)]
pub struct SheetJoint {
    /// The joint's description, with the target in force.
    pub fact: Arc<JointAdded>,
    /// Assembly and joint as people call them.
    pub title: String,
    /// The published specification in force for it.
    pub published: Option<Published>,
    /// Marks to mind on it as a whole, as they were before parting.
    pub marks: String,
    /// How it is built, if somebody said.
    pub built: Option<Built>,
    /// How to tighten it.
    pub passes: Vec<Pass>,
    /// What to mind here.
    pub cautions: Vec<String>,
    /// Photos of it and of its positions, one line each, oldest first.
    pub photos: Vec<String>,
    /// Positions in tightening order.
    pub rows: Vec<Row>,
    /// Publications behind torque and build.
    pub sources: Vec<String>,
}

/// A position of the sheet.
#[derive(Clone, Debug)]
pub struct Row {
    /// Its number.
    pub position: PositionNumber,
    /// Its name.
    pub label: String,
    /// Which fastener.
    pub fastener: String,
    /// Whether it is longer or shorter than its neighbours, explained or not.
    pub odd: Option<Compared>,
    /// Original or new.
    pub reuse: String,
    /// Marks to mind, as they were before parting.
    pub marks: String,
    /// What is stacked under it, from the head on.
    pub stack: String,
    /// Nut, lock, washer and pin as found.
    pub parts: String,
    /// How it is prepared.
    pub preparation: String,
    /// Its torque, or why there is none.
    pub torque: TorqueCell,
    /// How it is locked.
    pub lock: String,
    /// Where it stands.
    pub standing: Standing,
    /// Worst open severity.
    pub worst: Option<Severity>,
}

/// Makes the sheet.
#[must_use]
pub fn sheet(job: &Job, scope: &Scope, context: &Context<'_>, head: &Head) -> Sheet {
    let mut joints: Vec<(EntryNumber, &Joint)> = job
        .joints
        .iter()
        .filter(|joint| {
            scope
                .assembly
                .as_ref()
                .is_none_or(|a| *a == joint.fact.assembly)
        })
        .filter_map(|joint| Some((first_removal(joint)?, joint)))
        .collect();
    joints.sort_by_key(|(first, _)| std::cmp::Reverse(*first));

    let of_job = rules::job_flags(job, context);
    let mut of_joints: HashMap<&JointId, Vec<&Flag>> = HashMap::new();
    for flag in &of_job {
        if let On::Joint(joint) = &flag.on {
            of_joints.entry(joint).or_default().push(flag);
        }
    }
    let of_assemblies = parts::flags(job, scope, &of_job);
    let mut stops = of_assemblies.clone();
    stops.retain(|(flag, _)| flag.severity == Severity::Stop);
    let mut standings = Standings::default();
    let mut views = Vec::with_capacity(joints.len());
    for (_, joint) in joints {
        let mut flags = rules::joint_flags(joint, context, scope.unit);
        let here = of_joints.get(&joint.fact.joint).into_iter().flatten();
        flags.extend(here.map(|flag| Flag::clone(flag)));
        let title = title(job, joint);
        standings.add(joint);
        let shared = of_assemblies.iter().map(|(flag, _)| flag);
        let all: Vec<Flag> = shared
            .filter(|flag| flag.on == On::Assembly(joint.fact.assembly.clone()))
            .cloned()
            .chain(flags.iter().cloned())
            .collect();
        views.push(joint_view(job, joint, &title, &all, scope.unit, context));
        let open = flags.into_iter().filter(|f| f.severity == Severity::Stop);
        stops.extend(open.map(|flag| (flag, title.clone())));
    }
    let opened = job.opened.as_ref().map(|o| &o.fact);
    Sheet {
        name: match &scope.assembly {
            Some(assembly) => format!("jobs/{}/assemblies/{assembly}", job.id),
            None => format!("jobs/{}", job.id),
        },
        job_display_name: opened.map(|o| o.display_name.clone()).unwrap_or_default(),
        machine: opened.map(|o| o.machine.clone()).unwrap_or_default(),
        stops,
        waits: waits::lines(job, scope, context),
        findings: parts::findings(job, scope),
        standings,
        joints: views,
        head: *head,
    }
}

fn first_removal(joint: &Joint) -> Option<EntryNumber> {
    joint
        .positions
        .iter()
        .filter_map(|p| p.removal().map(|(record, _)| record.entry))
        .min()
}

fn title(job: &Job, joint: &Joint) -> String {
    let assembly = job
        .assembly(&joint.fact.assembly)
        .map_or(joint.fact.assembly.as_str(), |a| &a.display_name);
    format!("{assembly}: {}", joint.fact.display_name)
}

fn joint_view(
    job: &Job,
    joint: &Joint,
    title: &str,
    flags: &[Flag],
    unit: Option<TorqueUnit>,
    context: &Context<'_>,
) -> SheetJoint {
    let effective = EffectiveJoint::new(joint, context.shop);
    let unit = shown::unit_at(unit, effective.family());
    let torque = torque::of(&effective, unit);
    let stated = effective.published();
    let thread = effective
        .target()
        .map_or_else(|| stated.map_or("", |s| &s.thread), |t| &t.thread);
    let odd = rules::odd_lengths(joint, context);
    let rows: Vec<Row> = passes::order(joint)
        .into_iter()
        .filter_map(|number| joint.position(number))
        .map(|position| {
            let mine: Vec<&Flag> = flags
                .iter()
                .filter(|f| f.position == position.number || f.position == 0)
                .collect();
            // What stops this hole itself says more than what stops every hole.
            let stop = (mine.iter().filter(|f| f.severity == Severity::Stop))
                .min_by_key(|f| (f.position == 0, matches!(f.on, On::Assembly(_))));
            let left_out = position.is_left_out();
            Row {
                position: position.number,
                label: joint.label(position.number).to_owned(),
                fastener: fastener::which(thread, position),
                odd: odd
                    .iter()
                    .find(|(n, _)| *n == position.number)
                    .map(|(_, word)| *word),
                reuse: fastener::reuse(position),
                marks: assembled::marks(position),
                stack: assembled::stack(position),
                parts: assembled::parts(position),
                preparation: preparation::of(effective.fact(), position),
                torque: match stop {
                    Some(flag) => TorqueCell::Stopped(flag.cause.clone()),
                    None if left_out => TorqueCell::Nothing("LEFT OUT: no torque".into()),
                    None => torque.cell.clone(),
                },
                lock: match left_out {
                    true => String::new(),
                    false => joint.fact.lock.clone(),
                },
                standing: position.standing(),
                worst: mine.iter().map(|f| f.severity).max(),
            }
        })
        .collect();
    let goes_in = |row: &&Row| row.standing != Standing::LeftOut;
    let any_open = rows
        .iter()
        .filter(goes_in)
        .any(|row| !row.torque.is_stopped());
    let built = built::of(effective.fact(), unit, !any_open, context.shop.catalogue());
    SheetJoint {
        fact: Arc::clone(effective.fact()),
        title: title.to_owned(),
        marks: assembled::marks_of_joint(joint),
        sources: sources(torque.sources, built.as_ref()),
        published: stated.map(|stated| published::of(stated, unit, !any_open)),
        built,
        passes: match &torque.way {
            Some(way) if any_open => {
                passes::passes(&joint.fact.layout, rows.iter().filter(goes_in).count(), way)
            }
            _ => Vec::new(),
        },
        cautions: cautions(joint, torque.cautions.iter().filter(|_| any_open), flags),
        photos: photos::of_joint(job, joint),
        rows,
    }
}

/// Publications behind torque and build, each once.
fn sources(of_torque: Vec<String>, built: Option<&Built>) -> Vec<String> {
    let mut all = of_torque;
    for source in built.iter().flat_map(|built| &built.sources) {
        if !all.contains(source) {
            all.push(source.clone());
        }
    }
    all
}

fn cautions<'t>(
    joint: &Joint,
    of_torque: impl Iterator<Item = &'t String>,
    flags: &[Flag],
) -> Vec<String> {
    let mut cautions: Vec<String> = of_torque.cloned().collect();
    if joint.fact.criticality == Criticality::A {
        cautions.push("Class A: a second pair of eyes checks every position.".into());
    }
    let heated = |position: &Position| {
        let removal = position.removal();
        removal.is_some_and(|(_, removed)| removed.methods.contains(&Method::Heat))
    };
    if joint.positions.iter().any(|p| heated(p)) {
        cautions.push(HEAT.into());
    }
    cautions.extend(
        flags
            .iter()
            .filter(|f| f.severity == Severity::Caution)
            .map(|f| match f.position {
                0 => format!("{} ({})", f.cause, f.rule),
                number => format!("Hole {number}: {} ({})", f.cause, f.rule),
            }),
    );
    cautions
}
