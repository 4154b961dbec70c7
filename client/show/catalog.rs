//! Rows of the catalogue.

use clampbook_api::v1::{
    Basis, Grade, ListGradesResponse, ListLubricationsResponse, ListNutGradesResponse,
    ListThreadsResponse, Lubrication, NutGrade, Thread,
};

use super::{
    cite::{once, sources},
    text::{paragraph, paragraphs, strong, table, unbroken},
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
                unbroken(&thread.major_diameter_text),
                unbroken(&thread.tensile_stress_area_text),
            ]
        })
        .collect();
    under(
        &list.edition,
        &table(["thread", "series", "diameter", "stress area"], &rows),
    )
}

/// One thread with its sources.
pub(crate) fn thread(thread: &Thread) -> String {
    let mut shown = format!("{}\n", strong(&thread.designation));
    let area = match thread.published_stress_area_text.as_str() {
        "" => thread.tensile_stress_area_text.clone(),
        printed => format!("{}, {printed} as printed", thread.tensile_stress_area_text),
    };
    for (heading, said) in [
        ("Series", &thread.series),
        ("Diameter", &thread.major_diameter_text),
        ("Pitch", &thread.pitch_text),
        ("Pitch dia.", &thread.pitch_diameter_text),
        ("Minor dia.", &thread.minor_diameter_text),
        ("Stress area", &area),
        ("Flanks", &thread.flank_angle_text),
    ] {
        if !said.is_empty() {
            shown.push_str(&paragraph(heading, said));
        }
    }
    if let Some(hole) = &thread.insert_hole {
        shown.push_str(&paragraph("Insert hole", &hole.text));
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
        grade.strengths.iter().map(|strength| &strength.text),
    ));
    if !grade.not_computed.is_empty() {
        shown.push_str(&paragraph("  Mind", &grade.not_computed));
    }
    shown
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
    shown.push_str(&paragraphs(
        "  Proof",
        nut.proofs.iter().map(|proof| &proof.text),
    ));
    shown
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
        lubrication.nut_factor_text.clone(),
        lubrication.reported_text.clone(),
        unbroken(&lubrication.scatter_text),
    ]
}

fn under(edition: &str, list: &str) -> String {
    format!("{list}\nCatalogue edition {edition}.\n")
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Source, Strength};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_thread_shows_its_geometry_and_where_it_is_from() {
        let example = Thread {
            name: "threads/unf-7-16-20".to_owned(),
            designation: "7/16-20 UNF".to_owned(),
            series: "UNF".to_owned(),
            major_diameter_text: "11.1125 mm".to_owned(),
            pitch_text: "1.27 mm, 20 threads per inch".to_owned(),
            pitch_diameter_text: "10.2876 mm".to_owned(),
            minor_diameter_text: "9.5544 mm".to_owned(),
            tensile_stress_area_text: "76.58 mm²".to_owned(),
            published_stress_area_text: "76.6 mm²".to_owned(),
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
                    text: "over 1 in to 1-1/2 in: proof not given, yield 558, tensile 724 MPa"
                        .to_owned(),
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
                nut_factor_text: "0.20".to_owned(),
                reported_text: "0.15 to 0.30".to_owned(),
                scatter_text: "± 35 %".to_owned(),
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
