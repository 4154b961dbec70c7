//! Whether a replacement fits: what the rules would say if it were decided on, and the numbers where they say nothing.
//!
//! Judged on a copy of the joint in which the replacement is decided, so that an answer never differs from the flags that follow.

mod built;
mod numbers;

use super::scene::Scene;
use super::{ALL, Flag, rule};
use crate::reason::effective::EffectiveJoint;
use crate::record::context::Context;
use crate::record::entry::{Moment, Said};
use crate::record::fact::{Decided, FastenerSpec, Removed};
use crate::record::ids::{EntryNumber, PositionNumber};
use crate::record::job::{Joint, Position, Record, Saying};
use crate::record::speaker::Speaker;
use crate::record::words::{DecisionKind, Outcome, Severity, TorqueUnit};
use built::with_joint;
use std::sync::Arc;

/// One thing that was looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct FitCheck {
    /// What was looked at.
    pub subject: Subject,
    /// How serious what was found is; nothing when nothing was found.
    pub severity: Option<Severity>,
    /// What was found, or what was seen, with its numbers.
    pub text: String,
    /// Publication behind it, or common practice.
    pub source: String,
    /// The rule that flags it once decided; empty where none does.
    pub rule: &'static str,
}

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// The thread.
    Thread,
    /// Its strength against the joint's.
    Grade,
    /// What it is made for.
    Purpose,
    /// Length against stack and hole.
    Length,
    /// Full body in the shear plane.
    Body,
    /// Room for its head.
    Head,
    /// Its metal against what it touches.
    Finish,
    /// Plating of hard steel.
    Plating,
    /// Its grade against its neighbours'.
    Neighbours,
}

/// Subjects in the order they are told, with the rules that find something about them.
const SUBJECTS: [(Subject, &[&str]); 9] = [
    (Subject::Thread, &["other-thread"]),
    (
        Subject::Grade,
        &[
            "weaker-than-specified",
            "grade-unknown",
            "published-torque-overloads",
        ],
    ),
    (
        Subject::Purpose,
        &["shear-bolt-other-part", "made-for-another-purpose"],
    ),
    (
        Subject::Length,
        &[
            "bottoms",
            "too-short",
            "thread-runs-out",
            "engagement-short",
            "thread-strips",
            "odd-length",
        ],
    ),
    (Subject::Body, &["thread-in-shear-plane"]),
    (Subject::Head, &["head-without-room"]),
    (Subject::Finish, &["finish-pair"]),
    (Subject::Plating, &["plated-hard-unbaked"]),
    (Subject::Neighbours, &["mixed-grades"]),
];

impl Subject {
    /// Stable id.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Thread => "thread",
            Self::Grade => "grade",
            Self::Purpose => "purpose",
            Self::Length => "length",
            Self::Body => "body",
            Self::Head => "head",
            Self::Finish => "finish",
            Self::Plating => "plating",
            Self::Neighbours => "neighbours",
        }
    }
}

/// Everything there is to say about a fastener in a position; nothing when the joint has no such position.
#[must_use]
pub fn check(
    joint: &Joint,
    number: PositionNumber,
    part: &FastenerSpec,
    context: &Context<'_>,
    unit: Option<TorqueUnit>,
) -> Option<Vec<FitCheck>> {
    let decided = with_decision(joint, number, part)?;
    let decided = EffectiveJoint::new(&decided, context.shop);
    let scene = Scene::new(&decided, context, unit, Some(number));
    let flags = super::check(ALL, &scene);
    let mut checks = Vec::new();
    for (subject, rules) in SUBJECTS {
        let before = checks.len();
        // A part whose finish nobody said is ordered as the joint asks for it.
        let as_the_joint = subject == Subject::Plating && part.finish().is_empty();
        let found = flags.iter().filter(|flag| {
            let is_its_own = flag.position == number || (flag.position == 0 && as_the_joint);
            is_its_own && rules.contains(&flag.rule)
        });
        checks.extend(found.map(|flag| found_by(subject, flag)));
        if checks.len() == before {
            checks.extend(with_joint(subject, &scene, part));
        }
        if checks.len() == before {
            checks.extend(numbers::of(subject, &scene, part));
        }
    }
    Some(checks)
}

/// The worst that was found; nothing when nothing was.
#[must_use]
pub fn worst(checks: &[FitCheck]) -> Option<Severity> {
    checks.iter().filter_map(|check| check.severity).max()
}

fn found_by(subject: Subject, flag: &Flag) -> FitCheck {
    FitCheck {
        subject,
        severity: Some(flag.severity),
        text: flag.cause.clone(),
        source: rule(flag.rule).map_or("", |rule| rule.source).to_owned(),
        rule: flag.rule,
    }
}

/// The joint as if the replacement had just been decided on, and nothing were in the hole.
fn with_decision(joint: &Joint, number: PositionNumber, part: &FastenerSpec) -> Option<Joint> {
    let mut joint = joint.clone();
    let (id, added) = (joint.fact.joint.clone(), joint.entry);
    let at = usize::from(number).checked_sub(1)?;
    let position = Arc::make_mut(joint.positions.get_mut(at)?);
    // What was cited for another part does not speak for this one.
    let same = position
        .decision()
        .map(|(_, decided)| decided)
        .filter(|decided| decided.replacement.as_ref() == Some(part))
        .cloned();
    if position.removal().is_none() {
        let removed = Removed::new(id.clone(), number, Outcome::Normal);
        say(position, added, Saying::Removed(removed));
    }
    position
        .records
        .retain(|record| !matches!(record.saying, Saying::Refitted(_) | Saying::Tightened(_)));
    let decided = same.unwrap_or_else(|| Decided {
        replacement: Some(part.clone()),
        ..Decided::new(id, number, DecisionKind::Replace)
    });
    say(position, added, Saying::Decided(decided));
    Some(joint)
}

fn say(position: &mut Position, added: EntryNumber, saying: Saying) {
    let last = position.records.last();
    let nobody = || Said {
        by: Speaker::called("".into()),
        device: "".into(),
        said: Moment(0),
        written: Moment(0),
    };
    position.records.push(Record {
        entry: last.map_or(added, |record| record.entry),
        said: last.map_or_else(nobody, |record| record.said.clone()),
        saying,
    });
}
