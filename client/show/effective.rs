//! The value that holds for a joint.

use clampbook_api::v1::{GetEffectiveValueResponse, TorqueOnFastener, ValueOrigin};

use super::{
    cite::sources,
    flag, severity,
    specs::steps,
    text::{paragraph, paragraphs, strong, table, unbroken},
};
use crate::name;

/// The value with where it is from, then what it does on the fasteners found. What stops the joint comes first.
pub(crate) fn value(value: &GetEffectiveValueResponse) -> String {
    let mut shown = flag::block(&value.stops);
    if !shown.is_empty() {
        shown.push('\n');
    }
    shown.push_str(&head(value));
    shown.push_str(&joint(value));
    let mut row = |heading: &str, said: &str| {
        if !said.is_empty() {
            shown.push_str(&paragraph(heading, said));
        }
    };
    if let Some(spec) = &value.specification {
        row("Published", &steps(&spec.steps));
        row("Minimum", &spec.minimum_torque);
        row("Maximum", &spec.maximum_torque);
        row("Citation", &spec.citation);
        let grade = match spec.grade.as_str() {
            "" => "no grade stated",
            stated => stated,
        };
        let lubrication = match spec.lubrication.as_str() {
            "" => "no lubrication stated",
            stated => stated,
        };
        row("Stated for", &format!("{grade}, {lubrication}"));
        row("Note", &spec.note);
    }
    row("Named", &named(value));
    row("Reason", &value.reason);
    if let Some(restated) = &value.restated {
        row("Restated", &restated.text);
    }
    if !value.fasteners.is_empty() {
        let groups = alike(&value.fasteners);
        let rows: Vec<_> = groups.iter().map(|holes| fastener(holes)).collect();
        shown.push('\n');
        shown.push_str(&table(
            ["hole", "grade", "clamp load", "scatter", "of proof"],
            &rows,
        ));
        shown.push('\n');
        shown.push_str(&paragraphs(
            "Found",
            groups.iter().flat_map(|holes| found(holes)),
        ));
    }
    shown.push_str(&paragraphs("Mind", &value.cautions));
    shown.push_str(&sources(&value.sources));
    shown
}

fn head(value: &GetEffectiveValueResponse) -> String {
    let origin = match value.origin() {
        ValueOrigin::Published => "PUBLISHED",
        ValueOrigin::Computed => "COMPUTED, NOT MAKER'S",
        ValueOrigin::Unspecified => return format!("{}\n", strong("NO TORQUE")),
    };
    match (value.torque_nm, &value.specification) {
        (Some(_), _) => format!("{}   {origin}\n", strong(&unbroken(&value.torque_text))),
        (None, Some(spec)) => format!("{}   {origin}\n", strong(&steps(&spec.steps))),
        (None, None) => format!("{origin}\n"),
    }
}

fn joint(value: &GetEffectiveValueResponse) -> String {
    let lubrication = match value.lubrication.as_str() {
        "" => String::new(),
        lubrication => format!(", {lubrication}"),
    };
    format!("{}{lubrication}\n\n", name::id(&value.joint))
}

/// Which specification the joint names, and whether a newer revision is in force.
fn named(value: &GetEffectiveValueResponse) -> String {
    if value.named_revision == 0 {
        return String::new();
    }
    let id = name::id(&value.named_specification);
    let newest = value.specification.as_ref().map(|spec| spec.revision);
    match newest.filter(|newest| *newest > value.named_revision) {
        Some(newest) => format!(
            "{id}, revision {} when it was read; REVISION {newest} IS IN FORCE",
            value.named_revision
        ),
        None => format!("{id}, revision {}", value.named_revision),
    }
}

/// Fasteners that differ only in their position, together.
fn alike(fasteners: &[TorqueOnFastener]) -> Vec<Vec<&TorqueOnFastener>> {
    let mut groups: Vec<Vec<&TorqueOnFastener>> = Vec::new();
    for on in fasteners {
        let is_like = |first: &TorqueOnFastener| {
            let moved = TorqueOnFastener {
                position: on.position,
                ..first.clone()
            };
            first.position != 0 && moved == *on
        };
        match groups.iter_mut().find(|group| is_like(group[0])) {
            Some(group) => group.push(on),
            None => groups.push(vec![on]),
        }
    }
    groups
}

fn fastener(holes: &[&TorqueOnFastener]) -> [String; 5] {
    let on = holes[0];
    let number = |value: Option<String>| value.unwrap_or_else(|| "-".to_owned());
    let band = on.scatter.as_ref().map(|band| unbroken(&band.text));
    [
        numbers(holes),
        match on.grade.as_str() {
            "" => "unknown".to_owned(),
            grade => grade.to_owned(),
        },
        number(on.clamp_load_n.map(|_| unbroken(&on.clamp_load_text))),
        number(band),
        number(on.share_of_proof.map(|_| on.share_of_proof_text.clone())),
    ]
}

fn numbers(holes: &[&TorqueOnFastener]) -> String {
    let numbers = holes.iter().map(|on| match on.position {
        0 => "specified".to_owned(),
        position => position.to_string(),
    });
    numbers.collect::<Vec<_>>().join(", ")
}

/// What was found of a fastener, or why it is not known, a line each.
fn found(holes: &[&TorqueOnFastener]) -> Vec<String> {
    let place = match numbers(holes) {
        specified if holes[0].position == 0 => specified,
        numbers => format!("hole {numbers}"),
    };
    let checks = holes[0]
        .checks
        .iter()
        .map(|check| format!("{place}: {} {}", severity(check.severity), check.text));
    let unknown = &holes[0].unknown_because;
    checks
        .chain(unknown.iter().map(|why| format!("{place}: {why}")))
        .collect()
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::specification_step::Step;
    use clampbook_api::v1::{
        Check, RestatedTorque, Scatter, Severity, Specification, SpecificationStep,
    };
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn weak(position: i32) -> TorqueOnFastener {
        TorqueOnFastener {
            position,
            grade: "SAE J429 2".to_owned(),
            clamp_load_n: Some(37_280.0),
            clamp_load_text: "37.3 kN".to_owned(),
            share_of_proof: Some(1.29),
            share_of_proof_text: "1.29".to_owned(),
            scatter: Some(Scatter {
                minimum_clamp_load_n: 27_960.0,
                maximum_clamp_load_n: 46_600.0,
                relative_scatter: 0.25,
                text: "28 to 46.6 kN".to_owned(),
            }),
            checks: vec![Check {
                severity: Severity::Stop.into(),
                text: "Above the proof load.".to_owned(),
                ..Check::default()
            }],
            ..TorqueOnFastener::default()
        }
    }

    fn example() -> GetEffectiveValueResponse {
        GetEffectiveValueResponse {
            joint: "jobs/oak/joints/plate".to_owned(),
            origin: ValueOrigin::Published.into(),
            torque_nm: Some(74.57),
            torque_text: "74.6 N·m (55 lbf·ft)".to_owned(),
            specification: Some(Specification {
                name: "specifications/brake-plate".to_owned(),
                grade: "SAE J429 5".to_owned(),
                steps: vec![SpecificationStep {
                    step: Some(Step::Torque("55 lbf·ft".to_owned())),
                }],
                citation: "Workshop manual, p. 41".to_owned(),
                revision: 2,
                ..Specification::default()
            }),
            named_specification: "specifications/brake-plate".to_owned(),
            named_revision: 1,
            lubrication: "oiled".to_owned(),
            fasteners: vec![
                TorqueOnFastener {
                    position: 0,
                    grade: "SAE J429 5".to_owned(),
                    clamp_load_n: Some(37_280.0),
                    clamp_load_text: "37.3 kN".to_owned(),
                    share_of_proof: Some(0.832),
                    share_of_proof_text: "0.83".to_owned(),
                    ..TorqueOnFastener::default()
                },
                weak(1),
                weak(3),
            ],
            restated: Some(RestatedTorque {
                text: "with oiled 67.1 N·m (49.5 lbf·ft) would give the intended clamp load, 0.90 times the published torque; \
                       the published torque still holds."
                    .to_owned(),
                ..RestatedTorque::default()
            }),
            cautions: vec!["Look twice.".to_owned()],
            ..GetEffectiveValueResponse::default()
        }
    }

    #[test]
    fn the_published_value_comes_first_and_then_what_it_does_here() {
        assert_snapshot!(finish(&value(&example()), Look::default()), @r"
        74.6 N·m (55 lbf·ft)   PUBLISHED
        plate, oiled

        Published    55 lbf·ft
        Citation     Workshop manual, p. 41
        Stated for   SAE J429 5, no lubrication stated
        Named        brake-plate, revision 1 when it was read; REVISION 2 IS IN FORCE
        Restated     with oiled 67.1 N·m (49.5 lbf·ft) would give the intended clamp
                     load, 0.90 times the published torque; the published torque still
                     holds.

        hole       grade       clamp load  scatter        of proof
        specified  SAE J429 5  37.3 kN     -              0.83
        1, 3       SAE J429 2  37.3 kN     28 to 46.6 kN  1.29

        Found        hole 1, 3: STOP Above the proof load.
        Mind         Look twice.
        ");
    }

    #[test]
    fn without_a_value_it_says_why() {
        let none = GetEffectiveValueResponse {
            joint: "jobs/oak/joints/plate".to_owned(),
            reason: "no torque: nothing is specified for this joint".to_owned(),
            ..GetEffectiveValueResponse::default()
        };
        assert_snapshot!(finish(&value(&none), Look::default()), @r"
        NO TORQUE
        plate

        Reason       no torque: nothing is specified for this joint
        ");
    }
}
