//! The numbers of what the rules find nothing against, and what cannot be judged.

use super::built::{checked, is_of_the_joint};
use super::{FitCheck, Subject};
use crate::reason::rules::finish::{group_of, surface_of};
use crate::reason::rules::plated::electroplated;
use crate::reason::rules::scene::{Case, Scene};
use crate::reason::shown::{self, available, needed};
use crate::record::fact::{FastenerSpec, LengthSeen};
use crate::record::words::Severity;
use clampbook_engine::Purpose;
use clampbook_engine::grade::Strength;
use clampbook_engine::source::Origin;

const PRACTICE: &str = "common practice";

/// What is told of a subject; nothing when it does not arise.
pub(super) fn of(subject: Subject, scene: &Scene<'_>, part: &FastenerSpec) -> Option<FitCheck> {
    let (severity, text, source) = match subject {
        Subject::Thread => thread(scene, part)?,
        Subject::Grade => grade(scene, part)?,
        Subject::Purpose => purpose(scene)?,
        Subject::Length => length(scene, part),
        Subject::Body => body(scene, part)?,
        Subject::Head => head(scene, part)?,
        Subject::Finish => finish(scene, part),
        Subject::Plating => plating(scene, part)?,
        Subject::Neighbours => neighbours(scene)?,
    };
    Some(FitCheck {
        subject,
        severity,
        text,
        source,
        rule: "",
    })
}

/// Severity, text and source.
type Told = (Option<Severity>, String, String);

fn seen(text: String, source: impl Into<String>) -> Told {
    (None, text, source.into())
}

fn not_judged(why: impl Into<String>) -> Told {
    let text = format!("not judged: {}", why.into());
    (Some(Severity::Note), text, PRACTICE.into())
}

fn cited(origin: &Origin) -> String {
    let citations: Vec<&str> = (origin.sources.iter())
        .map(|source| &*source.citation)
        .collect();
    citations.join("; ")
}

fn case<'a>(scene: &Scene<'a>) -> Option<Case<'a>> {
    scene.cases().next()
}

fn thread(scene: &Scene<'_>, part: &FastenerSpec) -> Option<Told> {
    if let Some(specified) = scene.thread {
        let text = format!("{}, as specified", part.thread);
        return Some(seen(text, cited(specified.origin())));
    }
    let found = case(scene)?.removed.thread.as_str();
    if found.is_empty() {
        return Some(not_judged(
            "no thread is specified, and none was recorded of the fastener that came out",
        ));
    }
    if scene.is_same_thread(found, &part.thread) {
        let text = format!("{}, as the one that came out", part.thread);
        return Some(seen(text, PRACTICE));
    }
    let text = format!("{}, and the one that came out has {found}", part.thread);
    Some((Some(Severity::Caution), text, PRACTICE.into()))
}

fn grade(scene: &Scene<'_>, part: &FastenerSpec) -> Option<Told> {
    let (Some(thread), Some(specified)) = (scene.thread, scene.grade) else {
        // A bolt made to break is judged by its purpose.
        return (!is_fuse(scene)).then(|| not_judged("no grade is specified for this joint"));
    };
    if !is_of_the_joint(scene, part) {
        return Some(not_judged("its thread is not the joint's"));
    }
    let own = scene.catalogue.grade(&part.grade).ok()?;
    let load = |strength: Strength| strength.working_load(thread);
    let strength = own.strength_at(thread)?;
    let source = cited(strength.origin());
    let (fitted, needed) = (load(strength), load(specified.strength_at(thread)?));
    if own.id() == specified.id() {
        let text = format!(
            "{own}, as specified: {} proof load on {thread}",
            shown::load(fitted, scene.unit)
        );
        return Some(seen(text, source));
    }
    let both = format!(
        "{own} carries {} proof load on {thread}, specified {specified} {}",
        shown::load(fitted, scene.unit),
        shown::load(needed, scene.unit)
    );
    if fitted > needed {
        let text = format!("stronger than specified: {both}; it keeps the torque specified");
        return Some((Some(Severity::Note), text, source));
    }
    Some(seen(both, source))
}

fn is_fuse(scene: &Scene<'_>) -> bool {
    scene.joint.fact().purpose == Purpose::ShearBolt.id()
}

fn purpose(scene: &Scene<'_>) -> Option<Told> {
    let case = case(scene)?;
    let part = case.new_part()?;
    if is_fuse(scene) {
        let text = format!(
            "the same part as the one made to break that came out: {}",
            part.grade
        );
        return Some(seen(text, PRACTICE));
    }
    let said = part.detail.as_ref().is_some_and(|d| !d.purpose.is_empty());
    said.then(|| seen(format!("made for {}", scene.joint.fact().purpose), PRACTICE))
}

fn length(scene: &Scene<'_>, part: &FastenerSpec) -> Told {
    let check = match checked(scene, part) {
        Ok(check) => check,
        Err(why) => {
            let before = case(scene).and_then(|case| case.removed.length.as_ref());
            let came_out = match before {
                Some(LengthSeen::Measured(length)) => {
                    format!("; the one that came out measured {}", length.said)
                }
                _ => String::new(),
            };
            return not_judged(format!("{} long; {why}{came_out}", part.length.said));
        }
    };
    let Some(at_hand) = check.lengths.at_hand else {
        return not_judged(format!("{} long", part.length.said));
    };
    let (long, family) = (&part.length.said, scene.family());
    match at_hand.protrusion_mm {
        Some(out) => seen(
            format!(
                "{long} long: stands {} out of the nut",
                available(out, family)
            ),
            "FAA AC 43.13-1B paragraph 7-37 (at least one full thread)",
        ),
        None => {
            let engagement = &check.engagement;
            let by_trade = engagement.by_trade_mm;
            let trade = by_trade.map_or(String::new(), |mm| {
                format!(", by rule of thumb {}", needed(mm, family))
            });
            let room = check.lengths.longest_mm.map_or(String::new(), |longest| {
                format!("; bottoms beyond {}", available(longest, family))
            });
            let text = format!(
                "{long} long: engages {}; wanted by strength {}{trade}{room}",
                available(at_hand.engagement_mm, family),
                needed(engagement.by_strength_mm, family)
            );
            seen(
                text,
                "FED-STD-H28/2B by strength; common practice by the trade",
            )
        }
    }
}

fn body(scene: &Scene<'_>, part: &FastenerSpec) -> Option<Told> {
    let plane = scene.joint.fact().build.as_ref()?.shear_plane_mm?;
    let body = checked(scene, part).ok()?.lengths.at_hand?.body_mm;
    let text = format!(
        "full body for {} under the head, shear plane at {}",
        available(body, scene.family()),
        needed(plane, scene.family())
    );
    Some(seen(text, "ISO 4014, ASME B18.2.1 (length of thread)"))
}

fn head(scene: &Scene<'_>, part: &FastenerSpec) -> Option<Told> {
    let build = scene.joint.fact().build.as_ref()?;
    let room = [
        (build.stack.head_room_mm, "high"),
        (build.stack.head_space_mm, "wide"),
    ];
    let said: Vec<String> = (room.into_iter())
        .filter_map(|(mm, way)| Some(format!("{} {way}", available(mm?, scene.family()))))
        .collect();
    if said.is_empty() {
        return None;
    }
    checked(scene, part).ok()?;
    let text = format!(
        "the head goes into the room there is, {}",
        said.join(" and ")
    );
    Some(seen(text, "ISO 4014, ASME B18.2.1 (sizes of heads)"))
}

fn finish(scene: &Scene<'_>, part: &FastenerSpec) -> Told {
    let Some(surface) = surface_of(part, scene.catalogue) else {
        return not_judged(match part.finish() {
            "" => "the finish was not given".to_owned(),
            other => format!("no metal is known for the finish \"{other}\""),
        });
    };
    let build = scene.joint.fact().build.as_deref();
    let layers = build.into_iter().flat_map(|build| &build.stack.layers);
    let mut metals: Vec<String> = Vec::new();
    let tapped = build.and_then(|build| build.stack.tapped.as_ref());
    for said in layers.map(|l| &l.metal).chain(tapped.map(|t| &t.metal)) {
        if let Some((metal, group)) = group_of(said) {
            let told = format!("{metal} (group {group})");
            if !metals.contains(&told) {
                metals.push(told);
            }
        }
    }
    if metals.is_empty() {
        return not_judged("it is not known which metals the joint is built of");
    }
    let text = format!(
        "{} (group {}) on {}",
        surface.name,
        surface.group,
        metals.join(", ")
    );
    seen(
        text,
        "Niu, Airframe Structural Design (1988), electromotive groups",
    )
}

fn plating(scene: &Scene<'_>, part: &FastenerSpec) -> Option<Told> {
    let plated = electroplated(part.finish(), scene.catalogue)?;
    let baked = part.detail.as_ref().is_some_and(|detail| detail.baked);
    let text = match (scene.grade, baked) {
        (_, true) => format!("{plated}, baked as was said; its papers must show it"),
        (Some(_), false) => format!(
            "{plated}; {} is below 39 HRC by its standard, or has none in it",
            part.grade
        ),
        (None, false) => return Some(not_judged("no grade is specified for this joint")),
    };
    Some(seen(
        text,
        "ASTM F1941 and SAE J1648 (from 40 HRC); 39 HRC is the older threshold, from memory",
    ))
}

fn neighbours(scene: &Scene<'_>) -> Option<Told> {
    let number = case(scene)?.position.number;
    let alike: Vec<String> = (scene.grades_beside(number).iter())
        .map(|(number, _)| number.to_string())
        .collect();
    (!alike.is_empty()).then(|| {
        let text = format!("the grade of hole {}", alike.join(", "));
        seen(text, PRACTICE)
    })
}
