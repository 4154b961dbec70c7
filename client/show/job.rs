//! Jobs and assemblies.

use clampbook_api::v1::{Assembly, Job, ListJobsResponse, PositionCount};

use super::{
    journal::time,
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
    shown
}

fn progress(count: &PositionCount) -> String {
    let out = count.empty_count + count.loose_count + count.final_count;
    let mut shown = String::new();
    if count.loose_count > 0 {
        let loose = format!("{} of {out} IN BUT NOT TIGHT", count.loose_count);
        shown.push_str(&format!("{}\n", stop(&loose)));
    }
    shown.push_str(&paragraph(
        "Positions",
        &format!(
            "{} empty, {} in but not tight, {} at their final torque, {} never taken out.",
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
