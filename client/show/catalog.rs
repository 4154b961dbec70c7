//! Rows of the catalogue.

use clampbook_api::v1::{
    Condition, Grade, ListConditionsResponse, ListGradesResponse, ListNutGradesResponse,
    ListThreadsResponse, NutGrade, NutProof, Strength, Thread,
};

use super::{
    quantity::{plain, three_figures},
    source,
    text::{paragraph, paragraphs, strong, table},
};
use crate::name;

/// All threads.
pub(crate) fn threads(list: &ListThreadsResponse) -> String {
    let rows: Vec<_> = list
        .threads
        .iter()
        .map(|thread| {
            [
                thread.designation.clone(),
                thread.series.clone(),
                plain(thread.major_diameter_mm),
                three_figures(thread.tensile_stress_area_mm2),
            ]
        })
        .collect();
    under(
        &list.edition,
        &table(
            ["thread", "series", "diameter mm", "stress area mm²"],
            &rows,
        ),
    )
}

/// One thread with its sources.
pub(crate) fn thread(thread: &Thread) -> String {
    let mut shown = format!("{}\n", strong(&thread.designation));
    let mut row = |heading: &str, value: String| shown.push_str(&paragraph(heading, &value));
    row("Series", thread.series.clone());
    row(
        "Diameter",
        format!("{} mm", plain(thread.major_diameter_mm)),
    );
    let per_inch = thread.threads_per_inch.map_or_else(String::new, |count| {
        format!(", {} threads per inch", plain(count))
    });
    row("Pitch", format!("{} mm{per_inch}", plain(thread.pitch_mm)));
    row(
        "Pitch dia.",
        format!("{} mm", plain(thread.pitch_diameter_mm)),
    );
    row(
        "Minor dia.",
        format!("{} mm", plain(thread.minor_diameter_mm)),
    );
    let printed = thread
        .published_stress_area_mm2
        .map_or_else(String::new, |area| {
            format!(", {} mm² as printed", plain(area))
        });
    row(
        "Stress area",
        format!("{} mm²{printed}", plain(thread.tensile_stress_area_mm2)),
    );
    shown.push_str(&paragraphs("Sources", thread.sources.iter().map(source)));
    shown
}

/// All grades.
pub(crate) fn grades(list: &ListGradesResponse) -> String {
    under(
        &list.edition,
        &list.grades.iter().map(grade).collect::<String>(),
    )
}

fn grade(grade: &Grade) -> String {
    let mut shown = format!(
        "{} {}\n",
        strong(&grade.standard),
        strong(&grade.designation)
    );
    shown.push_str(&paragraph("  Head", &grade.head_marking));
    shown.push_str(&paragraphs(
        "  Strength",
        grade.strengths.iter().map(strength),
    ));
    shown
}

fn strength(strength: &Strength) -> String {
    let stress = |value: Option<f64>| value.map_or_else(|| "not given".to_owned(), plain);
    format!(
        "{}: proof {}, yield {}, tensile {} MPa",
        range(
            strength.least_diameter_mm,
            strength.over_least_diameter,
            strength.greatest_diameter_mm
        ),
        stress(strength.proof_stress_mpa),
        stress(strength.yield_strength_mpa),
        plain(strength.tensile_strength_mpa)
    )
}

/// All nut grades.
pub(crate) fn nuts(list: &ListNutGradesResponse) -> String {
    under(
        &list.edition,
        &list.nut_grades.iter().map(nut).collect::<String>(),
    )
}

fn nut(nut: &NutGrade) -> String {
    let mut shown = format!("{} {}\n", strong(&nut.standard), strong(&nut.designation));
    shown.push_str(&paragraph("  Marking", &nut.marking));
    shown.push_str(&paragraph("  Mates", &nut.mates));
    shown.push_str(&paragraphs("  Proof", nut.proofs.iter().map(proof)));
    shown
}

fn proof(proof: &NutProof) -> String {
    let series = match proof.series.as_str() {
        "" => String::new(),
        series => format!(", {series}"),
    };
    format!(
        "{}{series}: {} MPa",
        range(
            proof.least_diameter_mm,
            proof.over_least_diameter,
            proof.greatest_diameter_mm
        ),
        plain(proof.proof_stress_mpa)
    )
}

fn range(least: f64, over: bool, greatest: f64) -> String {
    let over = if over { "over " } else { "" };
    format!("{over}{} to {} mm", plain(least), plain(greatest))
}

/// All conditions.
pub(crate) fn conditions(list: &ListConditionsResponse) -> String {
    let rows: Vec<_> = list.conditions.iter().map(condition).collect();
    under(
        &list.edition,
        &table(["condition", "K", "reported", "also understood"], &rows),
    )
}

fn condition(condition: &Condition) -> [String; 4] {
    let display = match condition.display_name.as_str() {
        "" => name::id(&condition.name),
        display => display,
    };
    [
        display.to_owned(),
        plain(condition.nut_factor),
        format!(
            "{} to {}",
            plain(condition.low_nut_factor),
            plain(condition.high_nut_factor)
        ),
        condition.aliases.join(", "),
    ]
}

fn under(edition: &str, list: &str) -> String {
    format!("{list}\nCatalogue edition {edition}.\n")
}
