//! Published specifications.

use clampbook_api::v1::specification_step::Step;
use clampbook_api::v1::{
    ImportSpecificationsResponse, ListSpecificationUsesResponse, ListSpecificationsResponse,
    Purpose, Specification, SpecificationStep, SpecificationUse,
};

use super::{
    journal::time,
    quantity::plain,
    text::{caution, paragraph, stop, strong, table},
};
use crate::args::Word;
use crate::name;

/// All specifications by id.
pub(crate) fn list(list: &ListSpecificationsResponse) -> String {
    if list.specifications.is_empty() {
        return "The shop has no specifications.\n".to_owned();
    }
    let rows: Vec<_> = list.specifications.iter().map(row).collect();
    table(
        ["specification", "rev.", "for", "thread", "published"],
        &rows,
    )
}

fn row(spec: &Specification) -> [String; 5] {
    let published = match spec.withdrawn_because.as_str() {
        "" => steps(&spec.steps),
        _ => "WITHDRAWN".to_owned(),
    };
    [
        name::id(&spec.name).to_owned(),
        spec.revision.to_string(),
        spec.display_name.clone(),
        spec.thread.clone(),
        published,
    ]
}

/// Where one specification is used.
pub(crate) fn uses(list: &ListSpecificationUsesResponse) -> String {
    if list.uses.is_empty() {
        return "No joint names it.\n".to_owned();
    }
    let rows: Vec<_> = list.uses.iter().map(used).collect();
    table(["joint", "called", "read", "tightened by"], &rows)
}

fn used(found: &SpecificationUse) -> [String; 4] {
    let tightened = found.tightened_revisions.iter().map(|by| match by {
        0 => "something else".to_owned(),
        by => format!("rev. {by}"),
    });
    [
        found.joint.clone(),
        format!("{}: {}", found.job_display_name, found.display_name),
        format!("rev. {}", found.named_revision),
        tightened.collect::<Vec<_>>().join(", "),
    ]
}

/// What was done with a file of specifications.
pub(crate) fn imported(done: &ImportSpecificationsResponse, checked_only: bool) -> String {
    let would = if checked_only {
        "; checked, nothing written"
    } else {
        ""
    };
    format!(
        "{} created, {} revised, {} unchanged{would}.\n",
        done.created_count, done.revised_count, done.unchanged_count
    )
}

/// One specification.
pub(crate) fn one(spec: &Specification) -> String {
    let mut shown = format!("{}: {}\n", strong(name::id(&spec.name)), spec.display_name);
    if !spec.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", spec.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    if spec.revision < spec.newest_revision {
        let why = format!("SUPERSEDED by revision {}", spec.newest_revision);
        shown.push_str(&format!("{}\n", caution(&why)));
    }
    let mut row = |heading: &str, value: &str| {
        if !value.is_empty() {
            shown.push_str(&paragraph(heading, value));
        }
    };
    row("Published", &steps(&spec.steps));
    row("Minimum", &spec.minimum_torque);
    row("Maximum", &spec.maximum_torque);
    row("For", &format!("{}{}", spec.thread, for_grade(&spec.grade)));
    let lubrication = match spec.lubrication.as_str() {
        "" => "not stated",
        stated => stated,
    };
    row("Lubrication", lubrication);
    if spec.purpose != 0 {
        row("Purpose", &Purpose::said_of(spec.purpose));
    }
    if spec.unit_confirmed {
        row("Unit", "checked again: as published");
    }
    row("Note", &spec.note);
    let said = spec.said.clone().unwrap_or_default();
    let revision = format!(
        "{}, by {}, {}",
        spec.revision,
        said.person,
        time(said.said_time)
    );
    row("Revision", &revision);
    row("Citation", &spec.citation);
    shown
}

fn for_grade(grade: &str) -> String {
    match grade {
        "" => String::new(),
        grade => format!(", {grade}"),
    }
}

/// The steps in one line.
pub(super) fn steps(steps: &[SpecificationStep]) -> String {
    let said = steps.iter().map(|step| match &step.step {
        Some(Step::Torque(torque)) => torque.clone(),
        Some(Step::TurnDegrees(degrees)) => format!("{}° further", plain(*degrees)),
        None => String::new(),
    });
    said.collect::<Vec<_>>().join(", then ")
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Said;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn head_bolts() -> Specification {
        let step = |step| SpecificationStep { step: Some(step) };
        Specification {
            name: "specifications/head-bolts".to_owned(),
            display_name: "Cylinder head".to_owned(),
            thread: "M10".to_owned(),
            grade: "10.9".to_owned(),
            steps: vec![
                step(Step::Torque("40 N·m".to_owned())),
                step(Step::TurnDegrees(90.0)),
            ],
            minimum_torque: "38 N·m".to_owned(),
            citation: "Engine manual, p. 12".to_owned(),
            revision: 1,
            newest_revision: 2,
            said: Some(Said {
                person: "Ada".to_owned(),
                ..Said::default()
            }),
            ..Specification::default()
        }
    }

    #[test]
    fn a_specification_reads_as_printed_with_where_it_is_from() {
        assert_snapshot!(finish(&one(&head_bolts()), Look::default()), @r"
        head-bolts: Cylinder head
        SUPERSEDED by revision 2
        Published    40 N·m, then 90° further
        Minimum      38 N·m
        For          M10, 10.9
        Lubrication  not stated
        Revision     1, by Ada, -
        Citation     Engine manual, p. 12
        ");
    }

    #[test]
    fn the_list_says_what_is_withdrawn() {
        let gone = Specification {
            withdrawn_because: "of another year".to_owned(),
            ..head_bolts()
        };
        let all = ListSpecificationsResponse {
            specifications: vec![head_bolts(), gone],
            ..ListSpecificationsResponse::default()
        };
        assert_snapshot!(finish(&list(&all), Look::default()), @r"
        specification  rev.  for            thread  published
        head-bolts     1     Cylinder head  M10     40 N·m, then 90° further
        head-bolts     1     Cylinder head  M10     WITHDRAWN
        ");
    }
}
