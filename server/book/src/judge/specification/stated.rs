//! Judging a published specification: whether it names things that exist, and whether its unit can be believed.

use crate::judge::bounds::{MOST_DEGREES, MOST_STEPS};
use crate::judge::refusal::Violation;
use crate::record::fact::{SaidTorque, SpecificationStated, SpecifiedStep};
use clampbook_engine::published::{PublishedAsk, UnitCheck};
use clampbook_engine::quantity::Torque;
use clampbook_engine::{Catalogue, FaultReason, Purpose};

/// All that is wrong with it, each under the path of the contract.
pub(super) fn violations(stated: &SpecificationStated, catalogue: &Catalogue) -> Vec<Violation> {
    let mut wrong = Vec::new();
    named(stated, catalogue, &mut wrong);
    steps(&stated.steps, &mut wrong);
    limits(stated, &mut wrong);
    if wrong.is_empty() {
        wrong.extend(unit_in_doubt(stated, catalogue));
    }
    wrong
}

fn named(stated: &SpecificationStated, catalogue: &Catalogue, wrong: &mut Vec<Violation>) {
    let mut found = |field: &str, reason: Option<FaultReason>| {
        if let Some(reason) = reason {
            let field = format!("specification.{field}");
            wrong.push(Violation::new(field, reason.to_string()));
        }
    };
    found("thread", catalogue.thread(&stated.thread).err());
    if !stated.grade.is_empty() {
        found("grade", catalogue.grade(&stated.grade).err());
    }
    if !stated.lubrication.is_empty() {
        found(
            "lubrication",
            catalogue.lubrication(&stated.lubrication).err(),
        );
    }
}

fn steps(steps: &[SpecifiedStep], wrong: &mut Vec<Violation>) {
    if steps.is_empty() || steps.len() > MOST_STEPS {
        let why = format!("has {} items; allowed are 1 to {MOST_STEPS}", steps.len());
        wrong.push(Violation::new("specification.steps", why));
    }
    for (i, step) in steps.iter().enumerate() {
        if let SpecifiedStep::TurnDegrees(degrees) = step {
            let field = format!("specification.steps[{i}].turn_degrees");
            if !(*degrees > 0.0 && *degrees <= MOST_DEGREES) {
                let why = format!("is {degrees}; allowed is above 0 and up to {MOST_DEGREES}");
                wrong.push(Violation::new(field, why));
            } else if i == 0 {
                let why = "the first step must be a torque, which brings the parts together";
                wrong.push(Violation::new(field, why));
            }
        }
    }
}

fn limits(stated: &SpecificationStated, wrong: &mut Vec<Violation>) {
    let nm = |torque: Option<&SaidTorque>| torque.map(|torque| torque.nm);
    let torque = nm(stated.torque());
    let (minimum, maximum) = (nm(stated.minimum.as_ref()), nm(stated.maximum.as_ref()));
    let above =
        |low: Option<f64>, high: Option<f64>| low.zip(high).is_some_and(|(low, high)| low > high);
    if above(minimum, torque) {
        wrong.push(Violation::new(
            "specification.minimum_torque",
            "is above the torque of the last torque step; it must not be higher",
        ));
    }
    if above(torque, maximum) || above(minimum, maximum) {
        wrong.push(Violation::new(
            "specification.maximum_torque",
            "is below the minimum torque or below the last torque step; it must not be lower than either",
        ));
    }
}

/// The question which unit is meant, when the torque implies a clamp load that no maker means. It can be asked only where
/// grade and lubrication are published and the formula holds.
fn unit_in_doubt(stated: &SpecificationStated, catalogue: &Catalogue) -> Option<Violation> {
    let purpose = Purpose::from_id(&stated.purpose)?;
    let torque = Torque::parse(&stated.torque()?.said).ok()?;
    if stated.grade.is_empty() || stated.lubrication.is_empty() {
        return None;
    }
    let examined = catalogue
        .examine(&PublishedAsk {
            thread: &stated.thread,
            grade: &stated.grade,
            torque,
            published_lubrication: &stated.lubrication,
            lubrication: "",
            flat_seats: true,
            purpose,
            unit_is_confirmed: stated.unit_confirmed,
        })
        .ok()?;
    let UnitCheck::Ask { readings } = examined.unit else {
        return None;
    };
    let others: Vec<_> = readings
        .iter()
        .map(|reading| format!("{} {}", torque.entered, reading.unit.symbol()))
        .collect();
    let believable = match others.as_slice() {
        [] => "no other unit is plausible either".to_owned(),
        units => format!("{} is plausible", units.join(" or ")),
    };
    Some(Violation::new(
        "specification.unit_confirmed",
        format!(
            "{} makes a clamp load of {:.0} % of the proof load; which unit is it? {believable}. Look again, then say that \
             the unit is as published",
            stated.torque()?.said,
            examined.share_of_proof? * 100.0
        ),
    ))
}
