//! Checks of look-alikes, spanners and published torques.

use super::{Complaint, INCH, Origin, Thread, once, parts, read};
use crate::rows::Row;
use std::collections::BTreeSet;

pub(crate) struct LookAlike {
    pub(crate) id: String,
    pub(crate) external: String,
    pub(crate) internal: String,
    pub(crate) half: &'static str,
    pub(crate) what_happens: String,
    pub(crate) how_to_tell: String,
    pub(crate) origin: Origin,
}

pub(crate) struct Spanner {
    pub(crate) id: String,
    pub(crate) series: &'static str,
    pub(crate) size: String,
    pub(crate) across_flats_mm: f64,
    pub(crate) stamped: String,
    pub(crate) origin: Origin,
}

pub(crate) struct PublishedTorque {
    pub(crate) id: String,
    pub(crate) purpose: String,
    pub(crate) size: String,
    pub(crate) thread: String,
    pub(crate) seat: String,
    pub(crate) material: String,
    pub(crate) lubrication: String,
    pub(crate) low: f64,
    pub(crate) high: f64,
    pub(crate) unit: &'static str,
    pub(crate) rule: String,
    pub(crate) origin: Origin,
}

/// Why no torque is computed with a grade.
pub(crate) fn restriction(row: &Row) -> Result<Option<&'static str>, Complaint> {
    match row.text("use") {
        "" => Ok(None),
        "structural" => Ok(Some("Structural")),
        "unproven" => Ok(Some("Unproven")),
        other => Err(row.bad(format_args!(
            "use is \"{other}\", must be empty, structural or unproven"
        ))),
    }
}

pub(crate) fn look_alikes(
    text: &str,
    threads: &BTreeSet<String>,
    known: &BTreeSet<&str>,
) -> Result<Vec<LookAlike>, Complaint> {
    let columns = [
        "id",
        "external",
        "internal",
        "half",
        "what_happens",
        "how_to_tell",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("look_alikes.csv", text, &columns)?;
    let thread = |row: &Row, column| {
        let id = row.id(column)?;
        match threads.contains(&id) {
            true => Ok(id),
            false => Err(row.bad(format_args!(
                "{column} is \"{}\", which is no thread id",
                row.text(column)
            ))),
        }
    };
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            Ok(LookAlike {
                id: row.needed("id")?.to_owned(),
                external: thread(row, "external")?,
                internal: thread(row, "internal")?,
                half: match row.needed("half")? {
                    "kind" => "Kind",
                    "cruel" => "Cruel",
                    other => {
                        let what = format_args!("half is \"{other}\", must be kind or cruel");
                        return Err(row.bad(what));
                    }
                },
                what_happens: row.needed("what_happens")?.to_owned(),
                how_to_tell: row.needed("how_to_tell")?.to_owned(),
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

pub(crate) fn spanners(
    text: &str,
    threads: &[Thread],
    known: &BTreeSet<&str>,
) -> Result<Vec<Spanner>, Complaint> {
    let columns = [
        "id",
        "series",
        "size",
        "across_flats_in",
        "stamped",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("spanners.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            let series = parts::series(row, row.needed("series")?)?;
            let size = row.needed("size")?;
            if !threads.iter().any(|t| t.series == series && t.size == size) {
                return Err(row.bad(format_args!("no thread of size \"{size}\" in its series")));
            }
            Ok(Spanner {
                id: row.needed("id")?.to_owned(),
                series,
                size: size.to_owned(),
                across_flats_mm: row.number("across_flats_in")? * INCH,
                stamped: row.needed("stamped")?.to_owned(),
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

pub(crate) fn published_torques(
    text: &str,
    known: &BTreeSet<&str>,
) -> Result<Vec<PublishedTorque>, Complaint> {
    let columns = [
        "id",
        "purpose",
        "size",
        "thread",
        "seat",
        "material",
        "lubrication",
        "low",
        "high",
        "unit",
        "rule",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("published_torques.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            let (low, high) = (row.number("low")?, row.number("high")?);
            if low > high {
                return Err(row.bad("low is above high"));
            }
            let text = |column| Ok::<_, Complaint>(row.needed(column)?.to_owned());
            Ok(PublishedTorque {
                id: row.needed("id")?.to_owned(),
                purpose: text("purpose")?,
                size: text("size")?,
                thread: row.text("thread").to_owned(),
                seat: text("seat")?,
                material: text("material")?,
                lubrication: text("lubrication")?,
                low,
                high,
                unit: match row.needed("unit")? {
                    "lbf-ft" => "PoundForceFeet",
                    "lbf-in" => "PoundForceInches",
                    "N-m" => "NewtonMetres",
                    other => {
                        let what =
                            format_args!("unit is \"{other}\", must be lbf-ft, lbf-in or N-m");
                        return Err(row.bad(what));
                    }
                },
                rule: text("rule")?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}
