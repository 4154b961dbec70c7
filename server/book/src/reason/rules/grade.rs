//! The fastener's grade: unknown, or weaker than the joint was specified for.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::shown;
use crate::record::words::{Criticality, Outcome, Severity};
use clampbook_engine::grade::Strength;

pub(super) const UNKNOWN: Rule = Rule {
    id: "grade-unknown",
    title: "Grade of the fastener is not known",
    raised_when: "The fastener that is to go in has no grade that the catalogue knows; a fastener that is made has none unless its decision shows it: stop in class A, caution in B, note in C.",
    cleared_by: "Decide on a marked part; or show the grade of the original, or of a fastener that is made, with a citation of its marking, a parts list or hardness readings.",
    source: "common practice",
    looks: Looks::Joint(unknown),
};

pub(super) const WEAKER: Rule = Rule {
    id: "weaker-than-specified",
    title: "Fastener is weaker than the joint was specified for",
    raised_when: "The proof load of the fastener that is to go in is below that of the specified grade at this size, which is the published one where the joint names a specification: stop.",
    cleared_by: "A fastener of the specified grade or stronger, or a new revision of the specification.",
    source: "US Army technical manuals on fasteners: a replacement has at least the original's grade, and keeps the original's torque",
    looks: Looks::Joint(weaker),
};

fn unknown(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    // A joint that no torque is computed for has no grade to reason with, unless its maker names one.
    if scene.joint.fact().target.is_none() && scene.grade.is_none() {
        return;
    }
    for case in scene.cases() {
        let nothing_goes_back = case.new_part().is_none()
            && (case.removed.outcome == Outcome::MissingBefore || case.is_replaced());
        let said = case.grade();
        if nothing_goes_back || scene.catalogue.grade(said).is_ok() {
            continue;
        }
        let severity = match scene.joint.fact().criticality {
            Criticality::A => Severity::Stop,
            Criticality::B => Severity::Caution,
            Criticality::C => Severity::Note,
        };
        let cause = match (said, case.removed.head_marking.as_str()) {
            ("", "") => "no grade and no head marking was recorded".to_owned(),
            ("", marking) => format!("head marking \"{marking}\", grade not shown by it"),
            (said, _) => format!("grade \"{said}\" is not in the catalogue"),
        };
        flags.push(scene.flag(rule, severity, &case, cause));
    }
}

fn weaker(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let (Some(thread), Some(specified)) = (scene.thread, scene.grade) else {
        return;
    };
    let Some(needed) = specified.strength_at(thread).filter(Strength::is_proven) else {
        return;
    };
    for case in scene.cases() {
        let Ok(fitted) = scene.catalogue.grade(case.grade()) else {
            continue;
        };
        let strength = fitted.strength_at(thread);
        if strength.is_some_and(|s| !s.is_proven()) {
            let cause = format!(
                "no proof or yield stress is published for {fitted}: nothing shows that it carries what {specified} carries"
            );
            flags.push(scene.flag(rule, Severity::Stop, &case, cause));
            continue;
        }
        let load = |load| shown::load(load, scene.unit);
        let found = strength.map(|s| s.working_load(thread));
        let minimum = needed.working_load(thread);
        let cause = match found {
            None => format!("{fitted} does not exist for {thread}; specified is {specified}"),
            Some(found) if found < minimum => {
                format!(
                    "{fitted} carries {} proof load on {thread}, specified {specified} carries {}",
                    load(found),
                    load(minimum)
                )
            }
            Some(_) => continue,
        };
        flags.push(scene.flag(rule, Severity::Stop, &case, cause));
    }
}
