//! What is published for a joint: no longer in force, revised, for another lubrication, more than the fastener carries.

use super::built::loud;
use super::scene::{Case, Scene};
use super::{Flag, Looks, Rule};
use crate::reason::effective::{self, OnFastener};
use crate::reason::shown;
use crate::record::fact::{Followed, SpecificationStated};
use crate::record::words::Severity;
use clampbook_engine::show;
use clampbook_engine::{Check, CheckId, Severity as Found};

pub(super) const NOT_IN_FORCE: Rule = Rule {
    id: "specification-not-in-force",
    title: "Published specification does not hold for the joint",
    raised_when: "The specification that the joint names was withdrawn, or its newest revision is for another thread or purpose: stop on the whole joint in class A, else caution.",
    cleared_by: "Correct the joint's description: name a specification that holds for it, or none.",
    source: "common practice",
    looks: Looks::Joint(not_in_force),
};

pub(super) const REVISED: Rule = Rule {
    id: "specification-revised",
    title: "Published specification was revised",
    raised_when: "A newer revision is in force than the one the joint named: caution on the whole joint, note when it asks for the same. A fastener was brought to its final torque by something other than what is in force: caution.",
    cleared_by: "Read the revision in force, then correct the joint's description to it; for a fastener log the final torque again.",
    source: "common practice",
    looks: Looks::Joint(revised),
};

pub(super) const OTHER_LUBRICATION: Rule = Rule {
    id: "other-lubrication",
    title: "Torque is published for another lubrication",
    raised_when: "The publication states a lubrication and the joint has another one, or a nut factor of its own: caution on the whole joint.",
    cleared_by: "Correct the joint's description to the lubrication stated, or revise the specification to state the joint's lubrication.",
    source: "Shigley, Mechanical Engineering Design, 9th ed., equation 8-27 (the same torque makes another clamp load)",
    looks: Looks::Joint(other_lubrication),
};

pub(super) const OVERLOADS: Rule = Rule {
    id: "published-torque-overloads",
    title: "Published torque is more than the fastener carries",
    raised_when: "With the joint's lubrication the published torque makes more than the proof load of the fastener that is to go in, or with the scatter may break it, and the specification is not published for that grade and lubrication: stop in class A and B, caution in C.",
    cleared_by: "A fastener of the grade it is published for or stronger, the lubrication stated, or a new revision.",
    source: "common practice: up to the proof load unless the maker names the grade",
    looks: Looks::Joint(overloads),
};

fn not_in_force(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let fact = scene.joint.fact();
    let (Some(followed), Some(Err(why))) = (
        &fact.specification,
        effective::named(fact, scene.context.shop),
    ) else {
        return;
    };
    let severity = if scene.is_a() {
        Severity::Stop
    } else {
        Severity::Caution
    };
    let cause = format!("specifications/{} {why}", followed.specification);
    flags.push(scene.raise(rule, severity, 0, cause, vec![scene.joint.recorded().entry]));
}

fn revised(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let Some((stated, followed)) = scene
        .published
        .zip(scene.joint.fact().specification.as_ref())
    else {
        return;
    };
    if followed.revision != stated.revision {
        let (severity, what) = if asks_the_same(scene, stated, followed) {
            (Severity::Note, "asks for the same")
        } else {
            (Severity::Caution, "asks for something else")
        };
        let cause = format!(
            "revision {} of specifications/{} is in force and {what}; revision {} was read",
            stated.revision, stated.specification, followed.revision
        );
        flags.push(scene.raise(rule, severity, 0, cause, vec![scene.joint.recorded().entry]));
    }
    for case in scene.cases() {
        tightened(scene, rule, &case, stated, flags);
    }
}

/// A fastener that was brought to its final torque before what is in force was.
fn tightened(
    scene: &Scene<'_>,
    rule: &Rule,
    case: &Case<'_>,
    stated: &SpecificationStated,
    flags: &mut Vec<Flag>,
) {
    let Some(tight) = case.position.at_final() else {
        return;
    };
    let then = tight.torque.published.as_ref().map(|then| &then.followed);
    if then.is_some_and(|then| asks_the_same(scene, stated, then)) {
        return;
    }
    let by = match then {
        Some(then) => format!(
            "revision {} of specifications/{}",
            then.revision, then.specification
        ),
        None => "what was not published".to_owned(),
    };
    let cause = format!(
        "tightened by {by}; revision {} of specifications/{} is in force",
        stated.revision, stated.specification
    );
    let entries = vec![tight.record.entry];
    flags.push(scene.raise(
        rule,
        Severity::Caution,
        case.position.number,
        cause,
        entries,
    ));
}

/// Whether what was followed asks for the same as what is in force.
fn asks_the_same(scene: &Scene<'_>, stated: &SpecificationStated, then: &Followed) -> bool {
    let kept = scene
        .context
        .shop
        .specification(&then.specification)
        .filter(|_| then.specification == stated.specification);
    let then = kept.and_then(|kept| {
        kept.revisions()
            .find(|revision| revision.fact.revision == then.revision)
    });
    then.is_some_and(|then| then.fact.asks_the_same(stated))
}

fn other_lubrication(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let (Some(stated), Some(ratio)) = (scene.published, load_ratio(scene)) else {
        return;
    };
    let target = scene.joint.target();
    let done = match target.and_then(|target| target.nut_factor) {
        Some(factor) => format!("has nut factor {}", shown::nut_factor(factor)),
        None => format!("is {}", target.map_or("", |target| &target.lubrication)),
    };
    let makes = match stated.final_torque() {
        Some(_) => {
            format!(
                "the published torque gives {} times the intended clamp load",
                show::ratio(ratio)
            )
        }
        None => "the published steps may give another clamp load than intended".into(),
    };
    let cause = format!(
        "published for {}, the joint {done}: {makes}",
        stated.lubrication
    );
    let entries = vec![scene.joint.recorded().entry];
    flags.push(scene.raise(rule, Severity::Caution, 0, cause, entries));
}

/// How many times the intended clamp load a torque gives here; nothing where the joint is done as published.
fn load_ratio(scene: &Scene<'_>) -> Option<f64> {
    let stated = scene
        .catalogue
        .lubrication(&scene.published?.lubrication)
        .ok()?;
    let target = scene.joint.target()?;
    let own = scene.answer?.nut_factor;
    let is_other = scene
        .catalogue
        .lubrication(&target.lubrication)
        .is_ok_and(|own| own.id() != stated.id());
    (is_other || own != stated.nut_factor()).then(|| stated.nut_factor().get() / own.get())
}

fn overloads(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let mut whole = None;
    for on in effective::fasteners(scene.joint) {
        // What holds for a fastener as specified holds for the whole joint, and is said once.
        let is_said = whole.as_ref() == Some(&on.grade);
        if is_said || !scene.wants(on.position) || is_as_published(scene, &on.grade) {
            continue;
        }
        let Some(cause) = overload(&on) else {
            continue;
        };
        let position = scene.joint.recorded().position(on.position);
        let removal = position.and_then(|position| position.removal());
        let entry = removal.map_or(scene.joint.recorded().entry, |(record, _)| record.entry);
        let severity = loud(scene, Found::Stop);
        flags.push(scene.raise(rule, severity, on.position, cause, vec![entry]));
        if on.position == 0 {
            whole = Some(on.grade);
        }
    }
}

fn overload(on: &OnFastener<'_>) -> Option<String> {
    let grade = &on.grade;
    let answer = match &on.outcome {
        Ok(answer) => answer,
        // An unknown grade is told by a rule of its own.
        Err(faults) => {
            return faults
                .iter()
                .any(|fault| fault.field == "clamp_load_n")
                .then(|| {
                    format!("the published torque makes more than {grade} bears before it breaks")
                });
        }
    };
    let stop = |id| move |finding: &Check| finding.id == id && finding.severity == Found::Stop;
    let of = |id| answer.findings.iter().find(stop(id));
    if let Some(nominal) = of(CheckId::NominalAgainstProof) {
        return Some(format!(
            "the published torque makes {} of the proof load of {grade}",
            show::ratio(nominal.share)
        ));
    }
    of(CheckId::MaximumAgainstTensile).map(|maximum| {
        format!(
            "with the scatter the published torque makes up to {} of what breaks {grade}",
            show::ratio(maximum.share)
        )
    })
}

/// Whether the maker means this grade with this lubrication.
fn is_as_published(scene: &Scene<'_>, grade: &str) -> bool {
    let id = |grade: &str| scene.catalogue.grade(grade).map(|grade| grade.id()).ok();
    let stated = scene.published.map_or("", |stated| &stated.grade);
    load_ratio(scene).is_none() && id(stated).is_some() && id(stated) == id(grade)
}
