//! Hexagon parts, metals, and printed clamp loads and turns.

use clampbook_api::v1::{
    AcrossFlats, ListAcrossFlatsResponse, ListParentMetalsResponse, ListPublishedTargetsResponse,
    ParentMetal, PublishedTarget,
};

use super::{
    cite,
    quantity::{UNBROKEN, at_most, inches, plain, three_figures},
    text::{paragraph, paragraphs, strong, table, wrap},
};

/// Hexagon heads, nuts and holes by size; inch sizes in inches.
pub(crate) fn hexagons(list: &ListAcrossFlatsResponse) -> String {
    let (inch, metric): (Vec<_>, Vec<_>) = list
        .across_flats
        .iter()
        .partition(|part| part.size.ends_with(" in"));
    let notes = list
        .across_flats
        .iter()
        .filter(|part| !part.note.is_empty())
        .map(|part| format!("{}: {}.", part.size, part.note));
    format!(
        "{}{}{}{}{}",
        sizes("Metric sizes, in mm", &metric, |mm| at_most(2, mm)),
        sizes("Inch sizes, in inches", &inch, inches),
        paragraphs("Notes", notes),
        cite::once(list.across_flats.iter().flat_map(|part| &part.sources)),
        edition(&list.edition)
    )
}

fn sizes(title: &str, parts: &[&AcrossFlats], length: fn(f64) -> String) -> String {
    if parts.is_empty() {
        return String::new();
    }
    let head = [
        "size",
        "flats",
        "head",
        "bearing face",
        "nut",
        "hole",
        "slots, pin",
    ];
    let rows: Vec<_> = parts.iter().map(|part| hexagon(part, length)).collect();
    format!("{}\n{}\n", strong(title), table(head, &rows))
}

fn hexagon(part: &AcrossFlats, length: fn(f64) -> String) -> [String; 7] {
    let castle = match (part.castle_slots, part.cross_hole_mm) {
        (Some(slots), Some(hole)) => format!("{slots}, {}", length(hole)),
        _ => String::new(),
    };
    [
        part.size.trim_end_matches(" in").to_owned(),
        length(part.across_flats_mm),
        length(part.head_height_mm),
        length(part.bearing_diameter_mm),
        length(part.nut_height_mm),
        length(part.clearance_hole_mm),
        castle,
    ]
}

/// Metals that are clamped or tapped.
pub(crate) fn metals(list: &ListParentMetalsResponse) -> String {
    let rows: Vec<_> = list.parent_metals.iter().map(metal).collect();
    let head = [
        "metal",
        "shear MPa",
        "bearing MPa",
        "E MPa",
        "engaged",
        "also",
    ];
    let notes = list
        .parent_metals
        .iter()
        .filter(|metal| !metal.note.is_empty())
        .map(|metal| format!("{}: {}.", metal.display_name, metal.note));
    format!(
        "{}\n{}{}{}",
        table(head, &rows),
        paragraphs("Notes", notes),
        cite::once(list.parent_metals.iter().flat_map(|metal| &metal.sources)),
        edition(&list.edition)
    )
}

fn metal(metal: &ParentMetal) -> [String; 6] {
    [
        metal.display_name.clone(),
        plain(metal.shear_mpa),
        plain(metal.bearing_mpa),
        plain(metal.modulus_mpa),
        format!("{}{UNBROKEN}d", plain(metal.trade_engagement)),
        metal.aliases.join(", "),
    ]
}

/// Printed clamp loads and turns, each group under what it holds for and with its rule.
pub(crate) fn targets(list: &ListPublishedTargetsResponse) -> String {
    let mut groups: Vec<(String, &str, Vec<[String; 3]>)> = Vec::new();
    for target in &list.published_targets {
        let head = format!("{}, {}", target.grade, target.lubrication);
        let rule = target.rule.as_str();
        match groups.iter_mut().find(|g| (&g.0, g.1) == (&head, rule)) {
            Some((.., rows)) => rows.push(row(target)),
            None => groups.push((head, rule, vec![row(target)])),
        }
    }
    let group = |(head, rule, rows): (String, &str, Vec<[String; 3]>)| {
        format!(
            "{}{}{}\n",
            wrap("", 0, &strong(&head)),
            loads(rows),
            paragraph("Rule", &format!("{rule}."))
        )
    };
    format!(
        "{}{}\nPublished, never computed. The maker's value takes precedence over them.{}",
        groups.into_iter().map(group).collect::<String>(),
        cite::once(list.published_targets.iter().flat_map(|t| &t.sources)),
        edition(&list.edition)
    )
}

/// A turn has no load, so turns have no column for it.
fn loads(rows: Vec<[String; 3]>) -> String {
    if rows.iter().any(|[_, _, load]| !load.is_empty()) {
        return table(["bolt", "as printed", "kN"], &rows);
    }
    let turns: Vec<_> = rows
        .into_iter()
        .map(|[bolt, turn, _]| [bolt, turn])
        .collect();
    table(["bolt", "as printed"], &turns)
}

fn row(target: &PublishedTarget) -> [String; 3] {
    let kilonewtons = |newtons: f64| three_figures(newtons / 1000.0);
    let load = match (target.minimum_clamp_load_n, target.maximum_clamp_load_n) {
        (Some(minimum), Some(maximum)) => {
            format!("{} to {}", kilonewtons(minimum), kilonewtons(maximum))
        }
        (Some(minimum), None) => kilonewtons(minimum),
        _ => String::new(),
    };
    let bolt = match target.thread.as_str() {
        "" => &target.size,
        thread => thread,
    };
    let unbroken = |text: &str| text.replace(' ', &UNBROKEN.to_string());
    [bolt.to_owned(), unbroken(&target.printed), unbroken(&load)]
}

fn edition(edition: &str) -> String {
    format!("\nCatalogue edition {edition}.\n")
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Basis, Source};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn from_memory() -> Vec<Source> {
        vec![Source {
            source: "iso-4014".to_owned(),
            citation: "ISO 4014".to_owned(),
            basis: Basis::Memory.into(),
            ..Source::default()
        }]
    }

    #[test]
    fn hexagons_say_once_where_they_are_from() {
        let part = |size: &str, note: &str| AcrossFlats {
            size: size.to_owned(),
            across_flats_mm: 16.0,
            head_height_mm: 6.4,
            bearing_diameter_mm: 14.63,
            nut_height_mm: 8.4,
            clearance_hole_mm: 11.0,
            castle_slots: Some(6),
            cross_hole_mm: Some(2.5),
            note: note.to_owned(),
            sources: from_memory(),
            ..AcrossFlats::default()
        };
        let quarter = AcrossFlats {
            across_flats_mm: 7.0 / 16.0 * 25.4,
            head_height_mm: 5.0 / 32.0 * 25.4,
            bearing_diameter_mm: 0.4156 * 25.4,
            nut_height_mm: 7.0 / 32.0 * 25.4,
            clearance_hole_mm: 0.281 * 25.4,
            cross_hole_mm: Some(5.0 / 64.0 * 25.4),
            ..part("1/4 in", "")
        };
        let list = ListAcrossFlatsResponse {
            across_flats: vec![part("M10", "17 mm by the older standard"), quarter],
            edition: "2026.11".to_owned(),
            ..ListAcrossFlatsResponse::default()
        };
        assert_snapshot!(finish(&hexagons(&list), Look::default()), @r#"
        Metric sizes, in mm
        size  flats  head  bearing face  nut  hole  slots, pin
        M10   16     6.4   14.63         8.4  11    6, 2.5

        Inch sizes, in inches
        size  flats  head  bearing face  nut   hole   slots, pin
        1/4   7/16   5/32  0.416         7/32  0.281  6, 5/64

        Notes        M10: 17 mm by the older standard.
        Sources      ISO 4014 (FROM MEMORY)

        Catalogue edition 2026.11.
        "#);
    }

    #[test]
    fn metals_say_what_they_are_called_and_bear() {
        let list = ListParentMetalsResponse {
            parent_metals: vec![ParentMetal {
                display_name: "grey cast iron".to_owned(),
                aliases: vec!["cast iron".to_owned()],
                shear_mpa: 200.0,
                bearing_mpa: 700.0,
                modulus_mpa: 110_000.0,
                trade_engagement: 1.25,
                sources: from_memory(),
                ..ParentMetal::default()
            }],
            edition: "2026.11".to_owned(),
            ..ListParentMetalsResponse::default()
        };
        assert_snapshot!(finish(&metals(&list), Look::default()), @r#"
        metal           shear MPa  bearing MPa  E MPa   engaged  also
        grey cast iron  200        700          110000  1.25 d   cast iron

        Sources      ISO 4014 (FROM MEMORY)

        Catalogue edition 2026.11.
        "#);
    }

    #[test]
    fn a_turn_has_no_load_and_a_rule_stands_with_its_group() {
        let target = PublishedTarget {
            thread: "7/8-9".to_owned(),
            grade: "ASTM A325".to_owned(),
            lubrication: "pretensioned".to_owned(),
            minimum_clamp_load_n: Some(173_480.0),
            printed: "39 kip".to_owned(),
            rule: "Steel structures only".to_owned(),
            ..PublishedTarget::default()
        };
        let turn = PublishedTarget {
            size: "to 4 diameters long".to_owned(),
            turn_degrees: Some(120.0),
            printed: "120 degrees".to_owned(),
            minimum_clamp_load_n: None,
            thread: String::new(),
            lubrication: "turned".to_owned(),
            ..target.clone()
        };
        let list = ListPublishedTargetsResponse {
            published_targets: vec![target, turn],
            edition: "2026.11".to_owned(),
            ..ListPublishedTargetsResponse::default()
        };
        assert_snapshot!(finish(&targets(&list), Look::default()), @r#"
        ASTM A325, pretensioned
        bolt   as printed  kN
        7/8-9  39 kip      173
        Rule         Steel structures only.

        ASTM A325, turned
        bolt                 as printed
        to 4 diameters long  120 degrees
        Rule         Steel structures only.


        Published, never computed. The maker's value takes precedence over them.
        Catalogue edition 2026.11.
        "#);
    }
}
