//! Lengths against the stack: too little thread engaged, bottoming, not coming through, thread where none should be.

use super::built::{Seen, loud, said};
use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::shown::{available, needed};
use crate::record::words::Severity;

pub(super) const ENGAGEMENT: Rule = Rule {
    id: "engagement-short",
    title: "Little thread is engaged",
    raised_when: "In a tapped hole less thread is engaged than is needed for the bolt to break before a thread strips, or than the rule of thumb asks for (1 to 1.5 diameters in iron and steel, 2 in aluminium): caution in class A and B, note in C.",
    cleared_by: "Correct the joint's description to a longer fastener or deeper thread. At one hole: decide on a replacement that engages enough, or cite in the decision what the maker had there.",
    source: "FED-STD-H28/2B by strength; common practice by the trade",
    looks: Looks::Joint(engagement),
};

pub(super) const BOTTOMS: Rule = Rule {
    id: "bottoms",
    title: "Fastener bottoms in its hole",
    raised_when: "In a blind hole it reaches further than the full thread less one pitch, so that the wrench would show a torque without any clamp load: stop in every class.",
    cleared_by: "Correct the joint's description to a shorter fastener, a washer or deeper thread. At one hole: decide on a shorter fastener, or cite in the decision the stack and depth as measured there, or a parts list.",
    source: "common practice",
    looks: Looks::Joint(bottoms),
};

pub(super) const TOO_SHORT: Rule = Rule {
    id: "too-short",
    title: "Fastener does not come through",
    raised_when: "It ends inside what is clamped, or inside its nut: stop in every class. It sticks out of the nut by less than one pitch: caution in class A and B, note in C.",
    cleared_by: "Correct the joint's description to a longer fastener or to what is clamped. At one hole: decide on a longer fastener, or cite in the decision the stack as measured there, or a parts list.",
    source: "FAA AC 43.13-1B paragraph 7-37 (at least one full thread); common practice for the severity",
    looks: Looks::Joint(too_short),
};

pub(super) const RUNS_OUT: Rule = Rule {
    id: "thread-runs-out",
    title: "Thread ends before the parts are clamped",
    raised_when: "Full thread begins beyond the clamped parts, so that the nut jams on the last thread: stop when the thread's length was given, caution when it is the standard's.",
    cleared_by: "Correct the joint's description to a shorter fastener, one threaded further up, a washer, or the length of the thread as measured. At one hole: decide on a shorter fastener, or cite in the decision the stack as measured there.",
    source: "ISO 4014, ASME B18.2.1 (length of thread); common practice for the rest",
    looks: Looks::Joint(runs_out),
};

pub(super) const SHEAR_PLANE: Rule = Rule {
    id: "thread-in-shear-plane",
    title: "Thread lies in the shear plane",
    raised_when: "A shear plane was named and the fastener's full body ends before it: caution.",
    cleared_by: "Correct the joint's description to a fastener with a longer body. At one hole: decide on such a fastener.",
    source: "common practice",
    looks: Looks::Joint(shear_plane),
};

pub(super) const NO_ROOM: Rule = Rule {
    id: "head-without-room",
    title: "Head has no room",
    raised_when: "The head is higher than the free height above its face, or wider than the free space around it: stop in class A and B, caution in C.",
    cleared_by: "Correct the joint's description to another head, or to the room that there is.",
    source: "ISO 4014, ASME B18.2.1 (sizes of heads); common practice for the rest",
    looks: Looks::Joint(no_room),
};

fn engagement(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for seen in unexplained(scene) {
        let strength = seen.news("engagement-by-strength");
        let Some(found) = strength.or_else(|| seen.news("engagement-by-trade")) else {
            continue;
        };
        let (engagement, family) = (&seen.check.engagement, scene.family());
        let cause = format!(
            "{} is engaged; {} is needed for the bolt to break before a thread strips, {} by rule of thumb",
            available(engagement.available_mm.unwrap_or_default(), family),
            needed(engagement.by_strength_mm, family),
            needed(engagement.by_trade_mm.unwrap_or_default(), family)
        );
        seen.raise(scene, rule, loud(scene, found.severity), cause, flags);
    }
}

fn bottoms(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for seen in unexplained(scene) {
        if let Some(found) = seen.news("bottoming") {
            seen.raise(scene, rule, Severity::Stop, said(found), flags);
        }
    }
}

fn too_short(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for seen in unexplained(scene) {
        for id in ["too-short", "nut-not-filled"] {
            if let Some(found) = seen.news(id) {
                seen.raise(scene, rule, Severity::Stop, said(found), flags);
            }
        }
        if let Some(found) = seen.news("protrusion") {
            seen.raise(scene, rule, loud(scene, found.severity), said(found), flags);
        }
    }
}

fn runs_out(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let said_of = |seen: &Seen<'_>| {
        let build = scene.joint.fact().build.as_ref();
        seen.is_specified() && build.is_some_and(|build| build.stack.thread_length_mm.is_some())
    };
    for seen in unexplained(scene) {
        if let Some(found) = seen.news("run-out") {
            let severity = if said_of(seen) {
                Severity::Stop
            } else {
                Severity::Caution
            };
            seen.raise(scene, rule, severity, said(found), flags);
        }
    }
}

fn shear_plane(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for seen in scene.built() {
        if let Some(found) = seen.news("thread-in-shear-plane") {
            seen.raise(scene, rule, Severity::Caution, said(found), flags);
        }
    }
}

fn no_room(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for seen in scene.built() {
        for id in ["head-room", "head-space"] {
            if let Some(found) = seen.news(id) {
                seen.raise(scene, rule, loud(scene, found.severity), said(found), flags);
            }
        }
    }
}

/// Fasteners of which no citation says that their length belongs there: what is stacked under those may differ.
fn unexplained<'s, 'a>(scene: &'s Scene<'a>) -> impl Iterator<Item = &'s Seen<'a>> {
    scene.built().iter().filter(|seen| !seen.explained)
}
