//! Published specifications.

use clampbook_api::v1::specification_step::Step;
use clampbook_api::v1::{
    ImportSpecificationsResponse, ListSpecificationUsesResponse, ListSpecificationsResponse,
    Specification, SpecificationStep, SpecificationUse,
};

use super::{
    journal::stated,
    text::{caution, led, stop, table},
};
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
    let mut shown = led(&spec.text);
    if !spec.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", spec.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    if spec.revision < spec.newest_revision {
        let why = format!("SUPERSEDED by revision {}", spec.newest_revision);
        shown.push_str(&format!("{}\n", caution(&why)));
    }
    shown.push_str(&stated(spec.said.as_ref()));
    shown
}

/// The steps in one line.
pub(super) fn steps(steps: &[SpecificationStep]) -> String {
    let said = steps.iter().map(|step| match &step.step {
        Some(Step::Torque(torque)) => torque.clone(),
        Some(Step::TurnDegrees(degrees)) => format!("{degrees}° further"),
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
            steps: vec![
                step(Step::Torque("40 N·m".to_owned())),
                step(Step::TurnDegrees(90.0)),
            ],
            text: "head-bolts revision 1: Cylinder head; 40 N·m, then 90° further".to_owned(),
            revision: 1,
            newest_revision: 2,
            said: Some(Said {
                display_name: "Ada".to_owned(),
                ..Said::default()
            }),
            ..Specification::default()
        }
    }

    #[test]
    fn a_specification_reads_as_printed_with_where_it_is_from() {
        assert_snapshot!(finish(&one(&head_bolts()), Look::default()), @r"
        head-bolts revision 1: Cylinder head; 40 N·m, then 90° further
        SUPERSEDED by revision 2
        Stated       by Ada, -
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
