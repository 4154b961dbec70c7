//! Hard steel that was electroplated.

use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::reason::target;
use crate::record::fact::{Decided, FastenerSpec, JointAdded};
use crate::record::words::{DecisionKind, Severity};
use clampbook_engine::{Answer, Catalogue, CheckId};

pub(super) const NOT_BAKED: Rule = Rule {
    id: "plated-hard-unbaked",
    title: "Hard electroplated fastener was not baked",
    raised_when: "The joint asks for electroplated fasteners of a grade that is 39 HRC or harder and nobody said that they were baked: stop on the whole joint. The same holds for a new part's own finish and grade, or the original of such a grade is plated and baked and nothing shows the baking: stop at its hole.",
    cleared_by: "Correct the joint's description: baked, as papers show, or another finish or grade. At one hole: decide on a part that was baked, as its papers show, or that has another finish; for the original, cite in the decision what shows that it was baked.",
    source: "ASTM F1941 and SAE J1648 (from 40 HRC); 39 HRC is the older threshold, from memory",
    looks: Looks::Joint(not_baked),
};

fn not_baked(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    let mut raise = |position, entry| {
        let cause = CheckId::PlatedHardUnbaked.text().into();
        flags.push(scene.raise(rule, Severity::Stop, position, cause, vec![entry]));
    };
    let fact = scene.joint.fact();
    if scene.answer.as_ref().is_some_and(is_unbaked) {
        raise(0, scene.joint.recorded().entry);
    }
    for case in scene.cases() {
        let ordered = match case.new_part() {
            Some(part) => with_part(fact, part, scene.catalogue),
            None => case.decided.and_then(|d| sent_out(fact, d, case.grade())),
        };
        let answer = ordered
            .as_ref()
            .map(|fact| target::answer(fact, scene.catalogue));
        if answer.flatten().as_ref().is_some_and(is_unbaked) {
            raise(case.position.number, case.record.entry);
        }
    }
}

fn is_unbaked(answer: &Answer<'_>) -> bool {
    let mut found = answer.findings.iter();
    found.any(|finding| finding.id == CheckId::PlatedHardUnbaked)
}

/// The joint asked for in grade and finish of a new part; nothing unless that one says that it is electroplated.
fn with_part(fact: &JointAdded, part: &FastenerSpec, catalogue: &Catalogue) -> Option<JointAdded> {
    let lubrication = electroplated(part.finish(), catalogue)?;
    let baked = part.detail.as_ref().is_some_and(|detail| detail.baked);
    plated(fact, &lubrication, &part.grade, baked)
}

/// The joint asked for in the grade of an original that is plated and baked; nothing for every other decision.
fn sent_out(fact: &JointAdded, decided: &Decided, grade: &str) -> Option<JointAdded> {
    let baked = decided.baking_shown && !decided.citation.is_empty();
    (decided.kind == DecisionKind::PlateAndBake)
        .then(|| plated(fact, ZINC, grade, baked))
        .flatten()
}

fn plated(fact: &JointAdded, lubrication: &str, grade: &str, baked: bool) -> Option<JointAdded> {
    let mut fact = fact.clone();
    let target = fact.target.as_mut()?;
    target.lubrication = lubrication.into();
    target.grade = grade.into();
    target.nut_grade = None;
    target.baked = baked;
    Some(fact)
}

/// The usual plating; which one it is does not matter for hydrogen.
const ZINC: &str = "zinc plated";

/// Coats of zinc that are not electroplated.
const NOT_PLATED: [&str; 4] = ["flake", "hot", "galvani", "mechanical"];

/// The catalogue's name of an electroplated finish; a coat of zinc or cadmium of another name counts as one.
pub(crate) fn electroplated(finish: &str, catalogue: &Catalogue) -> Option<String> {
    if let Ok(lubrication) = catalogue.lubrication(finish) {
        return lubrication
            .is_electroplated()
            .then(|| lubrication.name().to_owned());
    }
    let said = finish.to_lowercase();
    if NOT_PLATED.iter().any(|other| said.contains(other)) {
        return None;
    }
    let plated = ["cadmium plated", ZINC].into_iter().find(|name| {
        name.split(' ')
            .next()
            .is_some_and(|metal| said.contains(metal))
    });
    plated.map(str::to_owned)
}
