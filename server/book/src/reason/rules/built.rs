//! A joint as it is built, checked with the fastener that belongs there and with each that is to go in.

use super::length::{explained, length_mm};
use super::scene::{Case, Scene};
use super::{Flag, Rule, stack};
use crate::reason::build;
use crate::reason::shown;
use crate::reason::sizes::Sizes;
use crate::record::ids::{EntryNumber, PositionNumber};
use crate::record::words::Severity;
use clampbook_engine::Severity as Found;
use clampbook_engine::joint::JointCheck;
use clampbook_engine::remarks::Remark;
use std::rc::Rc;

/// What a stop, a caution and a note of the engine are in class A, B and C.
const LOUD: [(Found, [Severity; 3]); 3] = [
    (
        Found::Stop,
        [Severity::Stop, Severity::Stop, Severity::Caution],
    ),
    (
        Found::Caution,
        [Severity::Caution, Severity::Caution, Severity::Note],
    ),
    (
        Found::Note,
        [Severity::Note, Severity::Note, Severity::Note],
    ),
];

/// How serious a finding of the engine is in this joint's class.
pub(super) fn loud(scene: &Scene<'_>, found: Found) -> Severity {
    LOUD.iter()
        .find(|(of, _)| *of == found)
        .map_or(Severity::Stop, |(_, by_class)| by_class[scene.class()])
}

/// A finding of the engine as the cause of a flag.
pub(super) fn said(remark: &Remark) -> String {
    remark.text.trim_end_matches('.').to_owned()
}

/// The joint checked with one fastener.
pub(super) struct Seen<'a> {
    /// Position the fastener belongs to; 0 for the one that was specified for the joint.
    position: PositionNumber,
    /// Entries it rests on.
    entries: Vec<EntryNumber>,
    pub(super) check: Rc<JointCheck<'a>>,
    /// The joint with the fastener specified for it, for a fastener of its own.
    joint: Option<Rc<JointCheck<'a>>>,
    /// Whether a citation says that this length belongs there.
    pub(super) explained: bool,
    /// What is stacked under it at its hole, in words; empty when nothing is.
    stacked: String,
}

impl<'a> Seen<'a> {
    /// What the engine found, unless it holds for the whole joint anyway.
    pub(super) fn news(&self, id: &str) -> Option<&Remark> {
        let of = |check: &'_ JointCheck<'_>| {
            let found = check.remarks.findings.iter().find(|f| f.id == id);
            found.map(|f| f.severity)
        };
        let known = self.joint.as_deref().and_then(of);
        let found = self.check.remarks.findings.iter().find(|f| f.id == id)?;
        known
            .is_none_or(|known| known < found.severity)
            .then_some(found)
    }

    pub(super) fn raise(
        &self,
        scene: &Scene<'_>,
        rule: &Rule,
        severity: Severity,
        cause: String,
        flags: &mut Vec<Flag>,
    ) {
        let entries = self.entries.clone();
        let cause = cause + &self.stacked;
        flags.push(scene.raise(rule, severity, self.position, cause, entries));
    }

    /// Whether it is the fastener that was specified for the joint.
    pub(super) const fn is_specified(&self) -> bool {
        self.position == 0
    }
}

/// The joint first, then each position whose fastener has the joint's thread and sizes of its own; nothing without a build.
pub(super) fn see<'a>(scene: &Scene<'a>) -> Vec<Seen<'a>> {
    let fact: &'a crate::record::fact::JointAdded = scene.joint.fact();
    let Some(Ok(check)) = build::check(fact, scene.catalogue) else {
        return Vec::new();
    };
    let check = Rc::new(check);
    let mut by_sizes: Vec<(Sizes, Rc<JointCheck<'a>>)> = Vec::new();
    let mut all = vec![Seen {
        position: 0,
        entries: vec![scene.joint.recorded().entry],
        check: Rc::clone(&check),
        joint: None,
        explained: false,
        stacked: String::new(),
    }];
    for case in scene.cases() {
        let Some(sizes) = own_sizes(scene, &case) else {
            continue;
        };
        let known = by_sizes.iter().find(|(of, _)| *of == sizes);
        let own = match known {
            Some((_, own)) => Rc::clone(own),
            None => {
                let Some(Ok(own)) = build::check_with(fact, &sizes, scene.catalogue) else {
                    continue;
                };
                let own = Rc::new(own);
                by_sizes.push((sizes, Rc::clone(&own)));
                own
            }
        };
        all.push(Seen {
            position: case.position.number,
            entries: vec![case.record.entry],
            check: own,
            joint: Some(Rc::clone(&check)),
            explained: explained(&case),
            stacked: match sizes.stacked_mm > 0.0 {
                true => {
                    let height = shown::length(sizes.stacked_mm, scene.family());
                    format!("; {height} is stacked under it")
                }
                false => String::new(),
            },
        });
    }
    all
}

/// Sizes of the fastener that is to go in, unless it is the one specified, which is judged with the joint, or its thread is not
/// the joint's, which another rule says.
fn own_sizes(scene: &Scene<'_>, case: &Case<'_>) -> Option<Sizes> {
    let goes_in = case.new_part().is_some() || !case.is_replaced();
    let thread = case
        .new_part()
        .map_or(case.removed.thread.as_str(), |part| part.thread.as_str());
    let same_thread = thread.is_empty()
        || scene
            .catalogue
            .thread(thread)
            .is_ok_and(|t| scene.thread.is_some_and(|own| own.id() == t.id()));
    let build = scene.joint.fact().build.as_ref()?;
    let sizes = match case.new_part() {
        Some(part) => Sizes::of(part),
        None => Sizes::of_length(length_mm(case)?),
    };
    let sizes = sizes.on(stack::measured_mm(case));
    (goes_in && same_thread && !sizes.belong(build)).then_some(sizes)
}
