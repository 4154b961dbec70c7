//! A new part that is not like its neighbours, or is made for something else.

use super::built::loud;
use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::ids::PositionNumber;
use crate::record::words::Severity;
use clampbook_engine::Severity as Found;

pub(super) const OTHER_PURPOSE: Rule = Rule {
    id: "made-for-another-purpose",
    title: "New part is made for another purpose",
    raised_when: "A new part is made for a purpose other than the joint's: stop. A bolt made to break, to stretch or to carry fluid is not a bolt that clamps, and the other way round.",
    cleared_by: "Decide on a part made for the joint's purpose, or correct the joint's purpose.",
    source: "common practice",
    looks: Looks::Joint(other_purpose),
};

pub(super) const MIXED_GRADES: Rule = Rule {
    id: "mixed-grades",
    title: "New part is of another grade than its neighbours",
    raised_when: "A new part's grade is not that of another fastener which goes into the same joint: caution in class A and B, note in C. One torque cannot fit both, and the load goes where the stiffer clamp is.",
    cleared_by: "Decide on a part of its neighbours' grade, or replace all by one grade.",
    source: "common practice",
    looks: Looks::Joint(mixed_grades),
};

fn other_purpose(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let detail = case.new_part().and_then(|part| part.detail.as_deref());
        let Some(made_for) = detail.map(|d| d.purpose.as_str()).filter(|p| !p.is_empty()) else {
            continue;
        };
        let wanted = &scene.joint.fact().purpose;
        if made_for != wanted {
            let cause = format!("the new part is made for {made_for}, the joint needs {wanted}");
            flags.push(scene.flag(rule, Severity::Stop, &case, cause));
        }
    }
}

fn mixed_grades(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let Some(part) = case.new_part() else {
            continue;
        };
        let neighbours = scene.grades_beside(case.position.number);
        if let Ok(grade) = scene.catalogue.grade(&part.grade)
            && let Some(others) = unlike(grade.id(), &neighbours)
        {
            let cause = format!("{grade} goes in beside {others}");
            flags.push(scene.flag(rule, loud(scene, Found::Caution), &case, cause));
        }
    }
}

/// Neighbours of another grade, in words: `SAE J429 5 at hole 1, 2`.
fn unlike(own: &str, neighbours: &[(PositionNumber, &clampbook_engine::Grade)]) -> Option<String> {
    let mut others: Vec<(&clampbook_engine::Grade, Vec<String>)> = Vec::new();
    for (number, grade) in neighbours.iter().filter(|(_, grade)| grade.id() != own) {
        match others
            .iter_mut()
            .find(|(known, _)| known.id() == grade.id())
        {
            Some((_, holes)) => holes.push(number.to_string()),
            None => others.push((grade, vec![number.to_string()])),
        }
    }
    let spoken = |(grade, holes): &(&clampbook_engine::Grade, Vec<String>)| {
        format!("{grade} at hole {}", holes.join(", "))
    };
    let all: Vec<String> = others.iter().map(spoken).collect();
    (!all.is_empty()).then(|| all.join(" and "))
}

impl<'a> Scene<'a> {
    /// Grades, as far as they are known, of what goes into the other positions.
    pub(super) fn grades_beside(
        &self,
        number: PositionNumber,
    ) -> Vec<(PositionNumber, &'a clampbook_engine::Grade)> {
        self.all_cases()
            .filter(|case| case.position.number != number)
            // What is to be replaced by nothing yet named does not go in.
            .filter(|case| case.new_part().is_some() || !case.is_replaced())
            .filter_map(|case| {
                let grade = self.catalogue.grade(case.grade()).ok()?;
                Some((case.position.number, grade))
            })
            .collect()
    }
}
