//! Jobs and assemblies.

use clampbook_api::v1::{Assembly, Job, ListJobsResponse, PositionCount};

use super::{
    journal::time,
    photo,
    recorded::line,
    text::{paragraph, stop, strong, table},
};
use crate::name;

/// One job: what is in but not tight before anything else.
pub(crate) fn job(job: &Job) -> String {
    let mut shown = format!("{}: {}\n", strong(name::id(&job.name)), job.display_name);
    if let Some(count) = &job.position_count {
        shown.push_str(&progress(count));
    }
    if !job.machine.is_empty() {
        shown.push_str(&paragraph("Machine", &job.machine));
    }
    shown.push_str(&paragraph("Opened", &time(job.create_time)));
    shown.push_str(&paragraph("Last entry", &time(job.update_time)));
    if !job.assemblies.is_empty() {
        shown.push('\n');
        let rows: Vec<_> = job.assemblies.iter().map(row).collect();
        shown.push_str(&table(["assembly", "counterpart", "called"], &rows));
    }
    if !job.photos.is_empty() {
        shown.push('\n');
        shown.push_str(&photo::list(job));
    }
    let mut findings = job.assemblies.iter().flat_map(|a| &a.findings).peekable();
    if findings.peek().is_some() {
        shown.push_str("\nFound on parts:\n");
        findings.for_each(|finding| shown.push_str(&line(&finding.text, &finding.entry)));
    }
    shown
}

fn progress(count: &PositionCount) -> String {
    let out = count.empty_count + count.loose_count + count.final_count;
    let mut shown = String::new();
    if count.loose_count > 0 {
        let loose = format!("{} of {out} IN BUT NOT TIGHT", count.loose_count);
        shown.push_str(&format!("{}\n", stop(&loose)));
    }
    let left_out = match count.left_out_count {
        0 => String::new(),
        number => format!("{number} left out on purpose, "),
    };
    shown.push_str(&paragraph(
        "Positions",
        &format!(
            "{} empty, {} in but not tight, {} at their final torque, {left_out}{} never taken out.",
            count.empty_count, count.loose_count, count.final_count, count.in_place_count
        ),
    ));
    shown
}

fn row(assembly: &Assembly) -> [String; 3] {
    let counterpart = match name::id(&assembly.counterpart) {
        "" => "-",
        id => id,
    };
    [
        name::id(&assembly.name).to_owned(),
        counterpart.to_owned(),
        assembly.display_name.clone(),
    ]
}

/// All jobs.
pub(crate) fn jobs(list: &ListJobsResponse) -> String {
    if list.jobs.is_empty() {
        return "There is no job yet.\n".to_owned();
    }
    let rows: Vec<_> = list
        .jobs
        .iter()
        .map(|job| {
            let count = job.position_count.unwrap_or_default();
            [
                name::id(&job.name).to_owned(),
                time(job.update_time),
                count.empty_count.to_string(),
                count.loose_count.to_string(),
                job.display_name.clone(),
            ]
        })
        .collect();
    table(["job", "last entry", "empty", "not tight", "called"], &rows)
}

/// An assembly that was added.
pub(crate) fn assembly(assembly: &Assembly) -> String {
    format!(
        "Added {}: {}\n",
        strong(name::id(&assembly.name)),
        assembly.display_name
    )
}

#[cfg(test)]
mod tests {
    use insta::assert_snapshot;
    use prost_types::Timestamp;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn what_is_in_but_not_tight_tops_the_job() {
        let assembly = |id: &str, called: &str, other: &str| Assembly {
            name: format!("jobs/oak/assemblies/{id}"),
            display_name: called.to_owned(),
            counterpart: other.to_owned(),
            ..Assembly::default()
        };
        let example = Job {
            name: "jobs/oak".to_owned(),
            display_name: "Orchard tractor".to_owned(),
            machine: "Orchard tractor of the museum workshop".to_owned(),
            create_time: Some(Timestamp {
                seconds: 1_795_590_000,
                nanos: 0,
            }),
            position_count: Some(PositionCount {
                in_place_count: 4,
                empty_count: 3,
                loose_count: 2,
                final_count: 7,
                left_out_count: 1,
            }),
            assemblies: vec![
                assembly(
                    "left-hub",
                    "Left front hub",
                    "jobs/oak/assemblies/right-hub",
                ),
                assembly("pump", "Pump", ""),
            ],
            ..Job::default()
        };
        assert_snapshot!(finish(&job(&example), Look::default()), @r"
        oak: Orchard tractor
        2 of 12 IN BUT NOT TIGHT
        Positions    3 empty, 2 in but not tight, 7 at their final torque, 1 left out on
                     purpose, 4 never taken out.
        Machine      Orchard tractor of the museum workshop
        Opened       2026-11-25 07:00:00Z
        Last entry   -

        assembly  counterpart  called
        left-hub  right-hub    Left front hub
        pump      -            Pump
        ");
    }

    #[test]
    fn holes_left_out_are_told_only_where_there_are_any() {
        let told = |left_out_count| {
            progress(&PositionCount {
                left_out_count,
                ..PositionCount::default()
            })
        };
        assert!(!told(0).contains("left out"), "{}", told(0));
        assert!(told(2).contains(" 2 left out "), "{}", told(2));
    }
}
