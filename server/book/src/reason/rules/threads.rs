//! Threads that are not the joint's.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::words::Severity;
use clampbook_engine::{Catalogue, Designation, Thread};

pub(super) const OTHER_THREAD: Rule = Rule {
    id: "other-thread",
    title: "Thread is not the joint's",
    raised_when: "The thread of a new part is not the one specified, or of the other hand: stop. The thread found on the removed fastener is not the one specified: caution.",
    cleared_by: "A part with the specified thread, a corrected removal, or a corrected specification.",
    source: "common practice",
    looks: Looks::Joint(other_thread),
};

fn other_thread(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let Some(specified) = scene.thread else {
        return;
    };
    let asked = scene.joint.target();
    let asked = asked.map_or("", |target| target.thread.as_str());
    for case in scene.cases() {
        let (said, severity, what) = match case.new_part() {
            Some(part) => (part.thread.as_str(), Severity::Stop, "the new part"),
            None => (
                case.removed.thread.as_str(),
                Severity::Caution,
                "the removed fastener",
            ),
        };
        if said.is_empty() {
            continue;
        }
        let found = scene.catalogue.thread(said).ok();
        let same = found.is_some_and(|thread| thread.id() == specified.id());
        // Of a removed fastener people say the size and leave out its hand, which has a tick of its own.
        let same_hand = case.new_part().is_none() || is_left_hand(said) == is_left_hand(asked);
        if same && same_hand {
            continue;
        }
        let what_happens = match found.filter(|_| !same) {
            Some(found) => look_alike(found, specified, scene.catalogue),
            None => String::new(),
        };
        let wanted = match is_left_hand(asked) {
            true => format!("{specified} left hand"),
            false => specified.to_string(),
        };
        let cause = format!("{what} has {said}, specified is {wanted}{what_happens}");
        flags.push(scene.flag(rule, severity, &case, cause));
    }
}

fn is_left_hand(said: &str) -> bool {
    Designation::parse(said).is_ok_and(|thread| thread.is_left_hand())
}

/// What happens when the one is taken for the other; nothing for threads that nobody mistakes.
fn look_alike(found: &Thread, specified: &Thread, catalogue: &Catalogue) -> String {
    catalogue
        .look_alikes()
        .find(|pair| pair.external().id() == found.id() && pair.internal().id() == specified.id())
        .map(|pair| {
            format!(
                "; they are easily mistaken for each other, and {:.0} % of the thread's depth bears: {}",
                pair.overlap_share() * 100.0,
                pair.what_happens().trim_end_matches('.')
            )
        })
        .unwrap_or_default()
}
