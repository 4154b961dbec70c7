//! Checks of the parts of a joint: hexagon heads and nuts, and metals that are clamped or tapped.

use super::{Complaint, INCH, Origin, once, parts, read};
use crate::rows::Row;
use std::collections::BTreeSet;

pub(crate) struct AcrossFlats {
    pub(crate) id: String,
    pub(crate) system: &'static str,
    pub(crate) size: String,
    /// Diameter, flats, head, bearing diameter, nut, hole, in mm.
    pub(crate) lengths_mm: [f64; 6],
    pub(crate) castle_slots: Option<u32>,
    pub(crate) cross_hole_mm: Option<f64>,
    pub(crate) origin: Origin,
}

pub(crate) struct ParentMetal {
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) aliases: Vec<String>,
    /// Shear strength, allowed surface pressure and modulus, in MPa.
    pub(crate) stresses_mpa: [f64; 3],
    pub(crate) trade_engagement: f64,
    pub(crate) origin: Origin,
}

pub(crate) fn across_flats(
    text: &str,
    known: &BTreeSet<&str>,
) -> Result<Vec<AcrossFlats>, Complaint> {
    let columns = [
        "id",
        "system",
        "size",
        "across_flats",
        "head_height",
        "bearing_diameter",
        "nut_height",
        "clearance_hole",
        "castle_slots",
        "cross_hole",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("across_flats.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            let system = parts::system(row)?;
            let size = row.needed("size")?;
            once(row, &mut seen, &format!("{system} {size}"))?;
            let (unit, d) = if system == "Inch" {
                (INCH, parts::inches(size))
            } else {
                (1.0, size.parse().ok())
            };
            let d = d.ok_or_else(|| row.bad(format_args!("size \"{size}\" is no size")))?;
            let mut lengths_mm = [d * unit; 6];
            for (length, column) in lengths_mm[1..].iter_mut().zip([
                "across_flats",
                "head_height",
                "bearing_diameter",
                "nut_height",
                "clearance_hole",
            ]) {
                *length = row.number(column)? * unit;
            }
            let [d, flats, _, bearing, _, hole] = lengths_mm;
            if !(d < hole && hole < bearing && bearing <= flats) {
                return Err(row.bad(
                    "size, clearance_hole, bearing_diameter, across_flats must rise in that order",
                ));
            }
            Ok(AcrossFlats {
                id: row.needed("id")?.to_owned(),
                system,
                size: size.to_owned(),
                lengths_mm,
                castle_slots: slots(row)?,
                cross_hole_mm: row.number_if_any("cross_hole")?.map(|hole| hole * unit),
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

fn slots(row: &Row) -> Result<Option<u32>, Complaint> {
    match row.text("castle_slots") {
        "" => Ok(None),
        "6" => Ok(Some(6)),
        "8" => Ok(Some(8)),
        other => Err(row.bad(format_args!("castle_slots is \"{other}\", must be 6 or 8"))),
    }
}

pub(crate) fn parent_metals(
    text: &str,
    known: &BTreeSet<&str>,
) -> Result<Vec<ParentMetal>, Complaint> {
    let columns = [
        "id",
        "name",
        "aliases",
        "shear",
        "bearing",
        "modulus",
        "trade_engagement",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("parent_metals.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            Ok(ParentMetal {
                id: row.needed("id")?.to_owned(),
                name: row.needed("name")?.to_owned(),
                aliases: row.phrases("aliases"),
                stresses_mpa: [
                    row.number("shear")?,
                    row.number("bearing")?,
                    row.number("modulus")?,
                ],
                trade_engagement: row.number("trade_engagement")?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}
