//! Rows of the catalogue.

use clampbook_api::v1::{
    Basis, Grade, ListGradesResponse, ListLubricationsResponse, ListNutGradesResponse,
    ListThreadsResponse, Lubrication, NutGrade, NutProof, Strength, Thread,
};

use super::{
    cite::{once, sources},
    quantity::{at_most, inch_size, nut_factor, plain, three_figures},
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
                length(thread.major_diameter_mm),
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
        format!("{} mm", length(thread.major_diameter_mm)),
    );
    let per_inch = thread.threads_per_inch.map_or_else(String::new, |count| {
        format!(", {} threads per inch", plain(count))
    });
    row("Pitch", format!("{} mm{per_inch}", length(thread.pitch_mm)));
    row(
        "Pitch dia.",
        format!("{} mm", length(thread.pitch_diameter_mm)),
    );
    row(
        "Minor dia.",
        format!("{} mm", length(thread.minor_diameter_mm)),
    );
    let printed = thread
        .published_stress_area_mm2
        .map_or_else(String::new, |area| {
            format!(", {} mm² as printed", at_most(2, area))
        });
    row(
        "Stress area",
        format!(
            "{} mm²{printed}",
            at_most(2, thread.tensile_stress_area_mm2)
        ),
    );
    if thread.flank_angle_degrees > 0.0 {
        shown.push_str(&paragraph(
            "Flanks",
            &format!("{}°", plain(thread.flank_angle_degrees)),
        ));
    }
    if let Some(hole) = &thread.insert_hole {
        let text = format!(
            "major {} mm, pitch {} mm, minor {} mm at least; the parent metal shears over {} times the length (from memory)",
            length(hole.major_diameter_mm),
            length(hole.pitch_diameter_mm),
            length(hole.minor_diameter_mm),
            three_figures(hole.shear_ratio)
        );
        shown.push_str(&paragraph("Insert hole", &text));
    }
    if !thread.note.is_empty() {
        shown.push_str(&paragraph("Note", &thread.note));
    }
    shown.push_str(&sources(&thread.sources));
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
    if !grade.not_computed.is_empty() {
        shown.push_str(&paragraph("  Mind", &grade.not_computed));
    }
    shown
}

fn strength(strength: &Strength) -> String {
    let note = match strength.note.as_str() {
        "" => String::new(),
        note => format!(". {note}"),
    };
    let stress = |value: Option<f64>| value.map_or_else(|| "not given".to_owned(), megapascals);
    format!(
        "{}: proof {}, yield {}, tensile {} MPa{note}",
        range(
            strength.minimum_diameter_mm,
            strength.over_minimum_diameter,
            strength.maximum_diameter_mm
        ),
        stress(strength.proof_stress_mpa),
        stress(strength.yield_strength_mpa),
        megapascals(strength.tensile_strength_mpa)
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
    shown.push_str(&paragraph("  Marking", &nut.head_marking));
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
            proof.minimum_diameter_mm,
            proof.over_minimum_diameter,
            proof.maximum_diameter_mm
        ),
        megapascals(proof.proof_stress_mpa)
    )
}

/// A length in millimetres.
fn length(millimetres: f64) -> String {
    at_most(4, millimetres)
}

/// A stress in megapascals; inch standards do not come out even.
fn megapascals(stress: f64) -> String {
    at_most(1, stress)
}

/// Sizes of threads: in inches where both ends are sizes of inch threads.
fn range(minimum: f64, over: bool, maximum: f64) -> String {
    let over = if over { "over " } else { "" };
    match inch_size(minimum).zip(inch_size(maximum)) {
        Some((minimum, maximum)) => format!("{over}{minimum} to {maximum}"),
        None => format!("{over}{} to {} mm", length(minimum), length(maximum)),
    }
}

/// All lubrications: numbers under each other, then what else is understood and where they are from.
pub(crate) fn lubrications(list: &ListLubricationsResponse) -> String {
    let rows: Vec<_> = list.lubrications.iter().map(lubrication).collect();
    let aliases = list
        .lubrications
        .iter()
        .filter(|c| !c.aliases.is_empty())
        .map(|c| format!("{}: {}.", called(c), c.aliases.join(", ")));
    let is_remembered = |c: &&Lubrication| c.sources.iter().any(|s| s.basis() == Basis::Memory);
    let remembered = list.lubrications.iter().filter(is_remembered).map(called);
    let remembered = remembered.collect::<Vec<_>>().join(", ");
    let memory = match remembered.as_str() {
        "" => String::new(),
        names => paragraph(
            "From memory",
            &format!("{names}: measure, or give a nut factor of your own."),
        ),
    };
    under(
        &list.edition,
        &format!(
            "{}\n{}{memory}{}",
            table(["lubrication", "K", "reported", "clamp load"], &rows),
            paragraphs("Also said", aliases),
            once(list.lubrications.iter().flat_map(|c| &c.sources)),
        ),
    )
}

fn called(lubrication: &Lubrication) -> &str {
    match lubrication.display_name.as_str() {
        "" => name::id(&lubrication.name),
        display => display,
    }
}

fn lubrication(lubrication: &Lubrication) -> [String; 4] {
    let own = if lubrication.own.is_some() {
        " (own)"
    } else {
        ""
    };
    [
        format!("{}{own}", called(lubrication)),
        nut_factor(lubrication.nut_factor),
        format!(
            "{} to {}",
            nut_factor(lubrication.low_nut_factor),
            nut_factor(lubrication.high_nut_factor)
        ),
        format!("± {} %", at_most(0, lubrication.relative_scatter * 100.0)),
    ]
}

fn under(edition: &str, list: &str) -> String {
    format!("{list}\nCatalogue edition {edition}.\n")
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Source;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_thread_shows_its_geometry_and_where_it_is_from() {
        let example = Thread {
            name: "threads/unf-7-16-20".to_owned(),
            designation: "7/16-20 UNF".to_owned(),
            series: "UNF".to_owned(),
            major_diameter_mm: 11.1125,
            pitch_mm: 1.27,
            pitch_diameter_mm: 10.287_611,
            minor_diameter_mm: 9.554_368,
            tensile_stress_area_mm2: 76.580_1,
            published_stress_area_mm2: Some(76.6),
            threads_per_inch: Some(20.0),
            sources: vec![Source {
                citation: "ASME B1.1, table 1".to_owned(),
                basis: Basis::FoundAndComputed.into(),
                ..Source::default()
            }],
            ..Thread::default()
        };
        assert_snapshot!(finish(&thread(&example), Look::default()), @r"
        7/16-20 UNF
        Series       UNF
        Diameter     11.1125 mm
        Pitch        1.27 mm, 20 threads per inch
        Pitch dia.   10.2876 mm
        Minor dia.   9.5544 mm
        Stress area  76.58 mm², 76.6 mm² as printed
        Sources      ASME B1.1, table 1
        ");
    }

    #[test]
    fn a_grade_shows_its_strength_by_size() {
        let list = ListGradesResponse {
            grades: vec![Grade {
                standard: "SAE J429".to_owned(),
                designation: "5".to_owned(),
                head_marking: "three radial lines".to_owned(),
                strengths: vec![Strength {
                    minimum_diameter_mm: 25.4,
                    over_minimum_diameter: true,
                    maximum_diameter_mm: 38.1,
                    yield_strength_mpa: Some(558.0),
                    tensile_strength_mpa: 724.0,
                    ..Strength::default()
                }],
                ..Grade::default()
            }],
            edition: "2026-11".to_owned(),
            ..ListGradesResponse::default()
        };
        assert_snapshot!(finish(&grades(&list), Look::default()), @r"
        SAE J429 5
          Head       three radial lines
          Strength   over 1 in to 1-1/2 in: proof not given, yield 558, tensile 724 MPa

        Catalogue edition 2026-11.
        ");
    }

    #[test]
    fn lubrications_are_listed_with_what_else_is_understood() {
        let list = ListLubricationsResponse {
            lubrications: vec![Lubrication {
                name: "lubrications/dry".to_owned(),
                display_name: "dry".to_owned(),
                aliases: vec!["as received".to_owned(), "no lubricant".to_owned()],
                nut_factor: 0.2,
                low_nut_factor: 0.15,
                high_nut_factor: 0.3,
                relative_scatter: 0.35,
                sources: vec![Source {
                    citation: "a chart".to_owned(),
                    basis: Basis::Memory.into(),
                    ..Source::default()
                }],
                ..Lubrication::default()
            }],
            edition: "2026-11".to_owned(),
            ..ListLubricationsResponse::default()
        };
        assert_snapshot!(finish(&lubrications(&list), Look::default()), @r"
        lubrication  K     reported      clamp load
        dry          0.20  0.15 to 0.30  ± 35 %

        Also said    dry: as received, no lubricant.
        From memory  dry: measure, or give a nut factor of your own.
        Sources      a chart (FROM MEMORY)

        Catalogue edition 2026-11.
        ");
    }
}
