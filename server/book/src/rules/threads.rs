//! Threads that are not the joint's.

use super::scene::Scene;
use super::{Check, Flag, Rule};
use crate::words::Severity;

pub(super) const OTHER_THREAD: Rule = Rule {
    id: "other-thread",
    title: "Thread is not the joint's",
    raised_when: "The thread of a new part is not the one specified: stop. The thread found on the removed fastener is not: caution.",
    cleared_by: "A part with the specified thread, a corrected removal, or a corrected specification.",
    source: "common practice",
    check: Check::Joint(other_thread),
};

fn other_thread(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let Some(specified) = scene.thread else {
        return;
    };
    for case in scene.cases() {
        let (said, severity, what) = match case.new_part() {
            Some(part) => (part.thread.as_str(), Severity::Stop, "the new part"),
            None => (
                case.removed.thread.as_str(),
                Severity::Caution,
                "the removed fastener",
            ),
        };
        if said.is_empty()
            || scene
                .catalogue
                .thread(said)
                .is_ok_and(|t| t.id() == specified.id())
        {
            continue;
        }
        let cause = format!("{what} has {said}, specified is {specified}");
        flags.push(scene.flag(rule, severity, &case, cause));
    }
}
