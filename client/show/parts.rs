//! Hexagon parts, metals, and printed clamp loads and turns.

use clampbook_api::v1::{
    AcrossFlats, ListAcrossFlatsResponse, ListParentMetalsResponse, ListPublishedTargetsResponse,
    ParentMetal, PublishedTarget,
};

use super::{
    cite,
    text::{paragraph, paragraphs, strong, table, unbroken, wrap},
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
        sizes("Metric sizes", &metric),
        sizes("Inch sizes", &inch),
        paragraphs("Notes", notes),
        cite::once(list.across_flats.iter().flat_map(|part| &part.sources)),
        edition(&list.edition)
    )
}

fn sizes(title: &str, parts: &[&AcrossFlats]) -> String {
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
    let rows: Vec<_> = parts.iter().map(|part| hexagon(part)).collect();
    format!("{}\n{}\n", strong(title), table(head, &rows))
}

fn hexagon(part: &AcrossFlats) -> [String; 7] {
    let castle = match part.castle_slots {
        Some(slots) if !part.cross_hole_text.is_empty() => {
            format!("{slots}, {}", part.cross_hole_text)
        }
        _ => String::new(),
    };
    [
        &part.size,
        &part.across_flats_text,
        &part.head_height_text,
        &part.bearing_diameter_text,
        &part.nut_height_text,
        &part.clearance_hole_text,
        &castle,
    ]
    .map(|text| unbroken(text))
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
        metal.shear_mpa.to_string(),
        metal.bearing_mpa.to_string(),
        metal.modulus_mpa.to_string(),
        unbroken(&format!("{} d", metal.trade_engagement)),
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
        return table(["bolt", "as printed", "clamp load"], &rows);
    }
    let turns: Vec<_> = rows
        .into_iter()
        .map(|[bolt, turn, _]| [bolt, turn])
        .collect();
    table(["bolt", "as printed"], &turns)
}

fn row(target: &PublishedTarget) -> [String; 3] {
    let bolt = match target.thread.as_str() {
        "" => &target.size,
        thread => thread,
    };
    let texts = [bolt, &target.printed, &target.clamp_load_text];
    texts.map(unbroken)
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
            across_flats_text: "16 mm".to_owned(),
            head_height_text: "6.4 mm".to_owned(),
            bearing_diameter_text: "14.63 mm".to_owned(),
            nut_height_text: "8.4 mm".to_owned(),
            clearance_hole_text: "11 mm".to_owned(),
            castle_slots: Some(6),
            cross_hole_text: "2.5 mm".to_owned(),
            note: note.to_owned(),
            sources: from_memory(),
            ..AcrossFlats::default()
        };
        let quarter = AcrossFlats {
            across_flats_text: "7/16 in".to_owned(),
            head_height_text: "5/32 in".to_owned(),
            bearing_diameter_text: "0.416 in".to_owned(),
            nut_height_text: "7/32 in".to_owned(),
            clearance_hole_text: "0.281 in".to_owned(),
            cross_hole_text: "5/64 in".to_owned(),
            ..part("1/4 in", "")
        };
        let list = ListAcrossFlatsResponse {
            across_flats: vec![part("M10", "17 mm by the older standard"), quarter],
            edition: "2026.11".to_owned(),
            ..ListAcrossFlatsResponse::default()
        };
        assert_snapshot!(finish(&hexagons(&list), Look::default()), @r#"
        Metric sizes
        size  flats  head    bearing face  nut     hole   slots, pin
        M10   16 mm  6.4 mm  14.63 mm      8.4 mm  11 mm  6, 2.5 mm

        Inch sizes
        size    flats    head     bearing face  nut      hole      slots, pin
        1/4 in  7/16 in  5/32 in  0.416 in      7/32 in  0.281 in  6, 5/64 in

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
            clamp_load_text: "173 kN".to_owned(),
            printed: "39 kip".to_owned(),
            rule: "Steel structures only".to_owned(),
            ..PublishedTarget::default()
        };
        let turn = PublishedTarget {
            size: "to 4 diameters long".to_owned(),
            turn_degrees: Some(120.0),
            printed: "120 degrees".to_owned(),
            clamp_load_text: String::new(),
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
        bolt   as printed  clamp load
        7/8-9  39 kip      173 kN
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
