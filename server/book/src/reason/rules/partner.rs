//! The weaker partner: nut, threads and faces that do not carry what the bolt is tightened to.

use super::built::{Seen, loud, said};
use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::shown;
use crate::record::words::Severity;
use clampbook_engine::{CheckId, Severity as Found};

pub(super) const NUT: Rule = Rule {
    id: "nut-does-not-carry",
    title: "Nut does not carry the clamp load",
    raised_when: "The nut's proof load is below the target clamp load: stop on the joint in class A and B, caution in C. It is below the maximum clamp load or the bolt's proof load, or the nut is not made for the bolt: caution in A and B, note in C.",
    cleared_by: "Correct the joint's description to a nut that carries it, once that nut is there. Never use a smaller torque.",
    source: "ISO 898-2, SAE J995, ASTM A563 (proof loads); common practice for the severity",
    looks: Looks::Joint(nut),
};

pub(super) const THREADS: Rule = Rule {
    id: "thread-strips",
    title: "Thread strips before the bolt is tight",
    raised_when: "At minimum material the engaged thread carries less than the target clamp load: stop on the joint in class A and B, caution in C. It carries less than the maximum clamp load: caution in A and B, note in C. A fastener whose own length causes this is flagged at its hole.",
    cleared_by: "Correct the joint's description: an insert fitted, a longer fastener, deeper thread. At one hole: decide on a replacement that engages enough. Neither a smaller torque nor a citation is enough.",
    source: "FED-STD-H28/2B (shear areas); common practice for the severity",
    looks: Looks::Joint(threads),
};

pub(super) const BEARING: Rule = Rule {
    id: "bearing-pressure",
    title: "Bearing pressure too high under head, nut or washer",
    raised_when: "At the target clamp load the pressure on a face is more than its metal can take: stop on the joint in class A, caution in B, note in C. Only at the maximum clamp load: note.",
    cleared_by: "Correct the joint's description to a washer of harder metal or larger diameter, or to a flanged head, once it is there.",
    source: "VDI 2230 part 1 (2003), equation R10/4 and table A9",
    looks: Looks::Joint(bearing),
};

/// Severity of pressure above what is allowed, by class A, B, C.
const BEARING_BY_CLASS: [Severity; 3] = [Severity::Stop, Severity::Caution, Severity::Note];

fn nut(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let Some((answer, nut)) = scene.answer.as_ref().zip(scene.nut) else {
        return;
    };
    let Some(proof) = answer.nut_proof_load else {
        return;
    };
    let load = |load| shown::load(load, scene.unit);
    for finding in answer.findings.iter() {
        let against = match finding.id {
            CheckId::NutAgainstTarget => {
                format!("the target is {}", load(answer.clamp_load))
            }
            CheckId::NutAgainstMaximum => format!(
                "up to {} may come with the scatter",
                load(answer.scatter.maximum)
            ),
            CheckId::NutWeakerThanBolt => {
                format!("the bolt {}", load(answer.working_load))
            }
            CheckId::NutNotMadeForBolt => "it is not made for bolts of this grade".to_owned(),
            _ => continue,
        };
        let cause = format!("nut {nut} bears {}; {against}", load(proof));
        let severity = loud(scene, finding.severity);
        flags.push(scene.raise(rule, severity, 0, cause, vec![scene.joint.recorded().entry]));
    }
}

/// Threads by what the engine finds, the part that carries the load, and what people call it.
const THREAD_FINDINGS: [(&str, &str, &str); 4] = [
    ("bolt-thread-strips", BOLT_THREAD, "the bolt's own thread"),
    (
        "bolt-thread-may-strip",
        BOLT_THREAD,
        "the bolt's own thread",
    ),
    ("tapped-thread-strips", TAPPED_THREAD, "the tapped thread"),
    (
        "tapped-thread-may-strip",
        TAPPED_THREAD,
        "the tapped thread",
    ),
];
const BOLT_THREAD: &str = "bolt-thread";
const TAPPED_THREAD: &str = "tapped-thread";

fn threads(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for seen in scene.built() {
        for (id, partner, called) in THREAD_FINDINGS {
            if let Some(found) = seen.news(id) {
                let thread = format!("{called}{}", inside(scene, partner));
                let cause = carries(scene, seen, partner, &thread, found.severity);
                seen.raise(scene, rule, loud(scene, found.severity), cause, flags);
            }
        }
    }
}

/// The metal of a tapped thread, in brackets.
fn inside(scene: &Scene<'_>, partner: &str) -> String {
    match scene.tapped().filter(|_| partner == TAPPED_THREAD) {
        Some(tapped) if tapped.insert => format!(" ({} round its insert)", tapped.metal),
        Some(tapped) => format!(" ({})", tapped.metal),
        None => String::new(),
    }
}

/// What a thread bears and what it would have to.
fn carries(
    scene: &Scene<'_>,
    seen: &Seen<'_>,
    partner: &str,
    thread: &str,
    severity: Found,
) -> String {
    let check = &seen.check;
    let load = |load| shown::load(load, scene.unit);
    let part = check.partners.iter().find(|part| part.id == partner);
    let wanted = if severity == Found::Stop {
        format!("the target is {}", load(check.answer.clamp_load))
    } else {
        format!(
            "up to {} may come with the scatter",
            load(check.answer.scatter.maximum)
        )
    };
    format!(
        "{thread} carries {} with {} engaged; {wanted}",
        part.map_or_else(|| "nothing".to_owned(), |part| load(part.capacity)),
        shown::available(
            check.engagement.available_mm.unwrap_or_default(),
            scene.family()
        )
    )
}

fn bearing(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    // Pressure does not hang on the length, so it is looked at once for the joint.
    let Some(seen) = scene.built().first() else {
        return;
    };
    for remark in &seen.check.remarks.findings {
        let severity = match remark.id {
            "bearing-pressure" => BEARING_BY_CLASS[scene.class()],
            "bearing-pressure-at-maximum" => Severity::Note,
            _ => continue,
        };
        seen.raise(scene, rule, severity, said(remark), flags);
    }
}
