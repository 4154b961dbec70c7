//! What the engine finds of the joint with the part in it and the rules flag on the whole joint, because it holds for the fastener
//! that belongs there as well.

use super::{FitCheck, Subject};
use crate::reason::build;
use crate::reason::rules::built::{loud, said};
use crate::reason::rules::length::explained;
use crate::reason::rules::rule;
use crate::reason::rules::scene::Scene;
use crate::reason::rules::stack;
use crate::reason::sizes::Sizes;
use crate::record::fact::FastenerSpec;
use clampbook_engine::joint::JointCheck;

/// What the engine finds, by subject, with the rule that flags it.
const FOUND: [(Subject, &[(&str, &str)]); 3] = [
    (
        Subject::Length,
        &[
            ("bottoming", "bottoms"),
            ("too-short", "too-short"),
            ("nut-not-filled", "too-short"),
            ("protrusion", "too-short"),
            ("run-out", "thread-runs-out"),
            ("engagement-by-strength", "engagement-short"),
            ("engagement-by-trade", "engagement-short"),
            ("bolt-thread-strips", THREADS),
            ("bolt-thread-may-strip", THREADS),
            ("tapped-thread-strips", THREADS),
            ("tapped-thread-may-strip", THREADS),
        ],
    ),
    (
        Subject::Body,
        &[("thread-in-shear-plane", "thread-in-shear-plane")],
    ),
    (
        Subject::Head,
        &[
            ("head-room", "head-without-room"),
            ("head-space", "head-without-room"),
        ],
    ),
];

/// The one rule about lengths that no citation clears.
const THREADS: &str = "thread-strips";

/// Findings about a subject that the part shares with the fastener that belongs there.
pub(super) fn with_joint(
    subject: Subject,
    scene: &Scene<'_>,
    part: &FastenerSpec,
) -> Vec<FitCheck> {
    let ids = FOUND.iter().find(|(of, _)| *of == subject);
    let (Some((_, ids)), Ok(check)) = (ids, checked(scene, part)) else {
        return Vec::new();
    };
    let cited = scene.cases().any(|case| explained(&case));
    let remarks = check.remarks.findings.iter();
    remarks
        .filter_map(|remark| {
            let (_, id) = ids.iter().find(|(found, _)| *found == remark.id)?;
            let is_cleared = cited && subject == Subject::Length && *id != THREADS;
            let rule = rule(id).filter(|_| !is_cleared)?;
            Some(FitCheck {
                subject,
                severity: Some(loud(scene, remark.severity)),
                text: said(remark),
                source: rule.source.to_owned(),
                rule: rule.id,
            })
        })
        .collect()
}

/// The joint checked with the part; why not, when that cannot be done.
pub(super) fn checked<'a>(
    scene: &Scene<'a>,
    part: &FastenerSpec,
) -> Result<JointCheck<'a>, String> {
    if !is_of_the_joint(scene, part) {
        return Err("its thread is not the joint's".into());
    }
    // The scene is of the one position that the part is for.
    let stacked_mm = scene.cases().map(|case| stack::measured_mm(&case)).sum();
    let sizes = Sizes::of(part).on(stacked_mm);
    match build::check_with(scene.joint.fact(), &sizes, scene.catalogue) {
        Some(Ok(check)) => Ok(check),
        Some(Err(wrong)) => Err(wrong
            .iter()
            .map(|one| format!("{} {}", one.field, one.wrong))
            .collect::<Vec<_>>()
            .join("; ")),
        None => Err("it is not known how the joint is built".into()),
    }
}

/// Whether the part has the joint's thread, so that numbers on that thread are its own.
pub(super) fn is_of_the_joint(scene: &Scene<'_>, part: &FastenerSpec) -> bool {
    scene.thread.is_none_or(|specified| {
        let own = scene.catalogue.thread(&part.thread);
        own.is_ok_and(|own| own.id() == specified.id())
    })
}
