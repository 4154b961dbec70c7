//! Hexagon parts, metals, and printed clamp loads and turns.

use clampbook_api::v1::{
    HexPart, ListHexPartsResponse, ListParentMetalsResponse, ListPublishedTargetsResponse,
    ParentMetal, PublishedTarget,
};

use super::{
    cite,
    quantity::{UNBROKEN, at_most, plain, three_figures},
    text::{paragraphs, table},
};

/// Hexagon heads, nuts and holes by size.
pub(crate) fn hexagons(list: &ListHexPartsResponse) -> String {
    let rows: Vec<_> = list.hex_parts.iter().map(hexagon).collect();
    let head = [
        "size",
        "flats mm",
        "head mm",
        "bears on mm",
        "nut mm",
        "hole mm",
        "slots, pin mm",
    ];
    let notes = list
        .hex_parts
        .iter()
        .filter(|part| !part.note.is_empty())
        .map(|part| format!("{}: {}.", part.size, part.note));
    format!(
        "{}\n{}{}{}",
        table(head, &rows),
        paragraphs("Notes", notes),
        cite::once(list.hex_parts.iter().flat_map(|part| &part.sources)),
        edition(&list.edition)
    )
}

fn hexagon(part: &HexPart) -> [String; 7] {
    let length = |mm| at_most(2, mm);
    let castle = match (part.castle_slots, part.cross_hole_mm) {
        (Some(slots), Some(hole)) => format!("{slots}, {}", length(hole)),
        _ => String::new(),
    };
    [
        part.size.clone(),
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
        "bears MPa",
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

/// Printed clamp loads and turns, with their rules once.
pub(crate) fn targets(list: &ListPublishedTargetsResponse) -> String {
    let rows: Vec<_> = list.published_targets.iter().map(target).collect();
    let mut rules: Vec<&str> = Vec::new();
    for target in &list.published_targets {
        if !rules.contains(&target.rule.as_str()) {
            rules.push(&target.rule);
        }
    }
    format!(
        "{}\n{}{}\nPublished, never computed. The maker's value stands above them.{}",
        table(["bolt", "grade", "holds for", "as printed", "kN"], &rows),
        paragraphs("Rules", rules.iter().map(|rule| format!("{rule}."))),
        cite::once(list.published_targets.iter().flat_map(|t| &t.sources)),
        edition(&list.edition)
    )
}

fn target(target: &PublishedTarget) -> [String; 5] {
    let kilonewtons = |newtons: f64| three_figures(newtons / 1000.0);
    let load = match (target.least_clamp_load_n, target.greatest_clamp_load_n) {
        (Some(least), Some(greatest)) => {
            format!("{} to {}", kilonewtons(least), kilonewtons(greatest))
        }
        (Some(least), None) => kilonewtons(least),
        _ => String::new(),
    };
    let bolt = match target.thread.as_str() {
        "" => &target.size,
        thread => thread,
    };
    let unbroken = |text: &str| text.replace(' ', &UNBROKEN.to_string());
    [
        bolt.to_owned(),
        target.grade.clone(),
        target.condition.clone(),
        unbroken(&target.printed),
        unbroken(&load),
    ]
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
        let part = |size: &str, note: &str| HexPart {
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
            ..HexPart::default()
        };
        let list = ListHexPartsResponse {
            hex_parts: vec![part("M10", "17 mm by the older standard"), part("M3", "")],
            edition: "2026.11".to_owned(),
            ..ListHexPartsResponse::default()
        };
        assert_snapshot!(finish(&hexagons(&list), Look::default()), @r#"
        size  flats mm  head mm  bears on mm  nut mm  hole mm  slots, pin mm
        M10   16        6.4      14.63        8.4     11       6, 2.5
        M3    16        6.4      14.63        8.4     11       6, 2.5

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
        metal           shear MPa  bears MPa  E MPa   engaged  also
        grey cast iron  200        700        110000  1.25 d   cast iron

        Sources      ISO 4014 (FROM MEMORY)

        Catalogue edition 2026.11.
        "#);
    }

    #[test]
    fn a_turn_has_no_load_and_a_rule_stands_once() {
        let target = PublishedTarget {
            thread: "7/8-9".to_owned(),
            grade: "ASTM A325".to_owned(),
            condition: "pretensioned".to_owned(),
            least_clamp_load_n: Some(173_480.0),
            printed: "39 kip".to_owned(),
            rule: "Steel structures only".to_owned(),
            ..PublishedTarget::default()
        };
        let turn = PublishedTarget {
            size: "to 4 diameters long".to_owned(),
            turn_degrees: Some(120.0),
            printed: "120 degrees".to_owned(),
            least_clamp_load_n: None,
            thread: String::new(),
            ..target.clone()
        };
        let list = ListPublishedTargetsResponse {
            published_targets: vec![target, turn],
            edition: "2026.11".to_owned(),
            ..ListPublishedTargetsResponse::default()
        };
        assert_snapshot!(finish(&targets(&list), Look::default()), @r#"
        bolt                 grade      holds for     as printed   kN
        7/8-9                ASTM A325  pretensioned  39 kip       173
        to 4 diameters long  ASTM A325  pretensioned  120 degrees

        Rules        Steel structures only.

        Published, never computed. The maker's value stands above them.
        Catalogue edition 2026.11.
        "#);
    }
}
