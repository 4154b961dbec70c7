//! Checks of printed clamp loads and turns of the nut.

use super::{Complaint, Origin, once, read};
use std::collections::BTreeSet;

pub(crate) struct PublishedTarget {
    pub(crate) id: String,
    pub(crate) size: String,
    pub(crate) thread: String,
    pub(crate) grade: String,
    pub(crate) lubrication: String,
    pub(crate) low: f64,
    pub(crate) nominal: Option<f64>,
    pub(crate) high: Option<f64>,
    pub(crate) unit: &'static str,
    pub(crate) rule: String,
    pub(crate) origin: Origin,
}

pub(crate) fn published_targets(
    text: &str,
    known: &BTreeSet<&str>,
) -> Result<Vec<PublishedTarget>, Complaint> {
    let columns = [
        "id",
        "size",
        "thread",
        "grade",
        "lubrication",
        "low",
        "nominal",
        "high",
        "unit",
        "rule",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("published_targets.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            let low = row.number("low")?;
            let (nominal, high) = (row.number_if_any("nominal")?, row.number_if_any("high")?);
            let ladder = [Some(low), nominal, high];
            if !ladder.iter().flatten().is_sorted_by(|a, b| a < b) {
                return Err(row.bad("low, nominal and high must rise in that order"));
            }
            let text = |column| Ok::<_, Complaint>(row.needed(column)?.to_owned());
            Ok(PublishedTarget {
                id: text("id")?,
                size: text("size")?,
                thread: row.text("thread").to_owned(),
                grade: text("grade")?,
                lubrication: text("lubrication")?,
                low,
                nominal,
                high,
                unit: match row.needed("unit")? {
                    "lbf" => "PoundForce",
                    "kip" => "Kip",
                    "degrees" => "Degrees",
                    other => {
                        let what = format_args!("unit is \"{other}\", must be lbf, kip or degrees");
                        return Err(row.bad(what));
                    }
                },
                rule: text("rule")?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}
