//! Damage seen on the fastener or its thread.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::words::{Outcome, Severity, Tick};

pub(super) const BROKEN_OR_MISSING: Rule = Rule {
    id: "broken-or-missing",
    title: "Fastener is broken, cut or missing",
    raised_when: "It broke now or before, was cut on purpose, or was not there: stop.",
    cleared_by: "A replacement decided on; where it broke or was cut, also a hole into which a sound bolt runs by hand to full depth.",
    source: "common practice",
    looks: Looks::Joint(broken_or_missing),
};

pub(super) const THREAD_DAMAGED: Rule = Rule {
    id: "thread-damaged",
    title: "Thread is damaged",
    raised_when: "The threads were pulled or had been crossed: stop on the fastener and its hole.",
    cleared_by: "Decide on a replacement, and chase or repair the hole until a sound bolt runs in by hand to full depth.",
    source: "common practice",
    looks: Looks::Joint(thread_damaged),
};

pub(super) const UNFIT: Rule = Rule {
    id: "fastener-unfit",
    title: "Fastener is not fit for use",
    raised_when: "It is bent or necked, its head or nut is rounded, or it is the wrong bolt: stop. It is pitted or fretted: stop in class A, else caution.",
    cleared_by: "Decide on a replacement.",
    source: "common practice",
    looks: Looks::Joint(unfit),
};

fn broken_or_missing(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let leaves_a_stub = match case.removed.outcome {
            Outcome::BrokeNow | Outcome::BrokenBefore | Outcome::CutOnPurpose => true,
            Outcome::MissingBefore => false,
            _ => continue,
        };
        if case.is_replaced() && (case.hole_is_proved() || !leaves_a_stub) {
            continue;
        }
        let cause = case.removed.outcome.spoken().to_owned();
        flags.push(scene.flag(rule, Severity::Stop, &case, cause));
    }
}

fn thread_damaged(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let damaged = matches!(
            case.removed.outcome,
            Outcome::PulledThreads | Outcome::CrossThreaded
        );
        if damaged && !(case.is_replaced() && case.hole_is_proved()) {
            let cause = case.removed.outcome.spoken().to_owned();
            flags.push(scene.flag(rule, Severity::Stop, &case, cause));
        }
    }
}

fn unfit(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        if case.is_replaced() {
            continue;
        }
        let rounded = case.removed.outcome == Outcome::Rounded;
        let mut said: Vec<&str> = rounded.then_some("rounded").into_iter().collect();
        let mut severity = if rounded || scene.is_a() {
            Severity::Stop
        } else {
            Severity::Caution
        };
        for tick in &case.removed.ticks {
            match tick {
                Tick::Bent | Tick::Necked | Tick::WrongBolt => severity = Severity::Stop,
                Tick::Fretted | Tick::Pitted => {}
                Tick::LockMissing | Tick::LeftHand => continue,
            }
            said.push(tick.spoken());
        }
        if !said.is_empty() {
            flags.push(scene.flag(rule, severity, &case, said.join(", ")));
        }
    }
}
