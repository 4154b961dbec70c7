//! What went back in: not as decided, not tight, or not at all.

use super::over_torqued::too_far;
use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::shown;
use crate::record::fact::TorqueRead;
use crate::record::job::Standing;
use crate::record::words::{Criticality, DecisionKind, Outcome, Severity, Tightness};
use clampbook_engine::show;

pub(super) const NOT_AS_DECIDED: Rule = Rule {
    id: "not-as-decided",
    title: "What went in is not what was decided",
    raised_when: "A replacement was decided on, bought or made, and the original went in; or the original of a missing fastener is said to be in; or something is in that should be left out by decision: stop.",
    cleared_by: "The decided part fitted, or a new decision.",
    source: "common practice",
    looks: Looks::Joint(not_as_decided),
};

pub(super) const NOT_TIGHT: Rule = Rule {
    id: "not-tight",
    title: "Fastener is in but not tight",
    raised_when: "It went in by hand or was made snug, and was not brought to its final torque since: caution.",
    cleared_by: "The final torque logged.",
    source: "common practice",
    looks: Looks::Joint(not_tight),
};

/// Share that a reading may differ from the wanted torque: what ISO 6789-1 lets the wrench itself be off at most.
const READING_SHARE: f64 = 0.06;

pub(super) const READING_OFF: Rule = Rule {
    id: "reading-off",
    title: "Reading is not the torque that was asked for",
    raised_when: "The reading logged at final torque differs from the torque asked for by more than 6 %, or lies outside published limits: caution. A reading that was too much is told by over-torqued.",
    cleared_by: "Find out which of the two is wrong, then log a reading within 6 % or within the limits.",
    source: "ISO 6789-1 (largest permissible deviation of a hand torque tool)",
    looks: Looks::Joint(reading_off),
};

pub(super) const NOT_READ: Rule = Rule {
    id: "not-read",
    title: "Final torque without what the joint asks for",
    raised_when: "In class A and B a torque was asked for, and the final torque is logged without a reading or without the wrench: caution. It counts as not tight.",
    cleared_by: "The final torque logged again with reading and wrench; or the entry corrected, if they were left out.",
    source: "common practice",
    looks: Looks::Joint(not_read),
};

pub(super) const NOT_REFITTED: Rule = Rule {
    id: "not-refitted",
    title: "Nothing is back in the hole",
    raised_when: "The position is empty, and not left out by decision: note while its joint is apart, caution once another position of the joint is filled.",
    cleared_by: "A refit logged.",
    source: "common practice",
    looks: Looks::Joint(not_refitted),
};

fn not_as_decided(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let Some((record, refitted)) = case.position.refit() else {
            continue;
        };
        let left_out = case.decided.map(|d| d.kind) == Some(DecisionKind::LeaveOut);
        let cannot_go_back = case.is_replaced() || case.removed.outcome == Outcome::MissingBefore;
        let cause = if left_out {
            "something is said to be in, where it was decided to leave the fastener out"
        } else if cannot_go_back && refitted.new_part.is_none() {
            "the original is said to be in, where a new part is needed"
        } else {
            continue;
        };
        flags.push(scene.raise(
            rule,
            Severity::Stop,
            case.position.number,
            cause.into(),
            vec![case.record.entry, record.entry],
        ));
    }
}

fn not_tight(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let Some(tight) = case.position.tight() else {
            continue;
        };
        if tight.tightness != Tightness::Final {
            flags.push(scene.raise(
                rule,
                Severity::Caution,
                case.position.number,
                format!("in but NOT TORQUED: {}", tight.tightness.spoken()),
                vec![tight.record.entry],
            ));
        }
    }
}

fn not_read(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    if scene.joint.fact().criticality == Criticality::C {
        return;
    }
    for case in scene.cases() {
        let at_final = case.position.at_final();
        let Some(tight) = at_final.filter(|tight| tight.torque.wanted_nm().is_some()) else {
            continue;
        };
        let missing = match (&tight.torque.reading, tight.torque.tool.as_str()) {
            (None, "") => "neither reading nor wrench is",
            (None, _) => "no reading is",
            (Some(_), "") => "no wrench is",
            (Some(_), _) => continue,
        };
        let cause = format!("at its final torque but NOT READ: {missing} logged");
        let (position, entries) = (case.position.number, vec![tight.record.entry]);
        flags.push(scene.raise(rule, Severity::Caution, position, cause, entries));
    }
}

fn reading_off(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let Some(tight) = case.position.at_final() else {
            continue;
        };
        // What was too much is told by a rule of its own, which a lower reading does not clear.
        if too_far(tight.torque).is_some() {
            continue;
        }
        let Some(reading) = &tight.torque.reading else {
            continue;
        };
        if let Some(how) = is_off(reading.nm, tight.torque) {
            flags.push(scene.raise(
                rule,
                Severity::Caution,
                case.position.number,
                format!("{} was read, {how}", shown::said_torque(reading)),
                vec![tight.record.entry],
            ));
        }
    }
}

/// How a reading is off what was asked for; a published limit stands in place of our share.
fn is_off(nm: f64, torque: &TorqueRead) -> Option<String> {
    let (torque, minimum, maximum) = match (&torque.published, &torque.wanted) {
        (Some(published), _) => (
            published.torque_nm,
            published.minimum_nm,
            published.maximum_nm,
        ),
        (None, Some(wanted)) => (Some(wanted.torque_nm), None, None),
        (None, None) => return None,
    };
    let share = torque.map(|torque| nm / torque);
    if minimum.is_some_and(|minimum| nm < minimum) {
        return Some("below the published minimum torque".into());
    }
    if maximum.is_some_and(|maximum| nm > maximum) {
        return Some("above the published maximum torque".into());
    }
    share
        .filter(|share| {
            (minimum.is_none() && *share < 1.0 - READING_SHARE)
                || (maximum.is_none() && *share > 1.0 + READING_SHARE)
        })
        .map(|share| format!("{} times the torque asked for", show::ratio(share)))
}

fn not_refitted(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let begun = scene
        .joint
        .positions()
        .iter()
        .any(|p| matches!(p.standing(), Standing::Fitted(_)));
    let severity = if begun {
        Severity::Caution
    } else {
        Severity::Note
    };
    for case in scene.cases() {
        if case.position.standing() == Standing::Empty {
            flags.push(scene.flag(rule, severity, &case, "empty".into()));
        }
    }
}
