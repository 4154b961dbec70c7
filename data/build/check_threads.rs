//! Checks of thread rows: sizes that exist once, areas that agree with the standard's formula.

use super::{Complaint, INCH, Origin, Row, Thread, once, parts, read};
use std::collections::BTreeSet;

pub(crate) fn unified(
    text: &str,
    known: &BTreeSet<&str>,
    ids: &mut BTreeSet<String>,
) -> Result<Vec<Thread>, Complaint> {
    let columns = [
        "id",
        "series",
        "size",
        "threads_per_inch",
        "published_stress_area_in2",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("threads_unified.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            let (size, series) = (row.needed("size")?, row.needed("series")?);
            let inches = parts::inches(size)
                .ok_or_else(|| row.bad(format_args!("size \"{size}\" is no inch size")))?;
            let tpi = row.number("threads_per_inch")?;
            once(row, &mut seen, &format!("{size}-{tpi}"))?;
            // The formula of ASME B1.1 guards against a misprinted or mistyped area.
            let formula = std::f64::consts::FRAC_PI_4 * (inches - 0.9743 / tpi).powi(2);
            Ok(Thread {
                id: new_id(row, ids)?,
                system: "Inch",
                series: parts::series(row, series)?,
                designation: format!("{size}-{tpi} {series}"),
                size: size.to_owned(),
                diameter_mm: inches * INCH,
                pitch_mm: INCH / tpi,
                threads_per_inch: Some(tpi),
                published: parts::area(row, "published_stress_area_in2", formula)?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

pub(crate) fn metric(
    text: &str,
    known: &BTreeSet<&str>,
    ids: &mut BTreeSet<String>,
) -> Result<Vec<Thread>, Complaint> {
    let columns = [
        "id",
        "series",
        "diameter_mm",
        "pitch_mm",
        "published_stress_area_mm2",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("threads_metric.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            let (d, p) = (row.number("diameter_mm")?, row.number("pitch_mm")?);
            let designation = format!("M{d}x{p}");
            once(row, &mut seen, &designation)?;
            if p * 3.0 > d {
                return Err(row.bad(format_args!("pitch {p} is too coarse for {d} mm")));
            }
            let formula = std::f64::consts::FRAC_PI_4 * (d - 0.938_194 * p).powi(2);
            Ok(Thread {
                id: new_id(row, ids)?,
                system: "Metric",
                series: parts::series(row, row.needed("series")?)?,
                designation,
                size: row.needed("diameter_mm")?.to_owned(),
                diameter_mm: d,
                pitch_mm: p,
                threads_per_inch: None,
                published: parts::area(row, "published_stress_area_mm2", formula)?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

pub(crate) fn british(
    text: &str,
    known: &BTreeSet<&str>,
    ids: &mut BTreeSet<String>,
) -> Result<Vec<Thread>, Complaint> {
    let columns = [
        "id",
        "series",
        "size",
        "diameter_mm",
        "threads_per_inch",
        "pitch_mm",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("threads_british.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            let (size, series) = (row.needed("size")?, row.needed("series")?);
            // BA threads are metric by their standard, the others are inch threads.
            let (diameter_mm, pitch_mm, tpi) = match series {
                "BA" => (row.number("diameter_mm")?, row.number("pitch_mm")?, None),
                _ => {
                    let inches = parts::inches(size)
                        .ok_or_else(|| row.bad(format_args!("size \"{size}\" is no inch size")))?;
                    let tpi = row.number("threads_per_inch")?;
                    (inches * INCH, INCH / tpi, Some(tpi))
                }
            };
            once(row, &mut seen, &format!("{series} {size} {pitch_mm}"))?;
            if pitch_mm * 3.0 > diameter_mm {
                return Err(row.bad(format_args!(
                    "pitch {pitch_mm} is too coarse for {diameter_mm} mm"
                )));
            }
            Ok(Thread {
                id: new_id(row, ids)?,
                system: "British",
                series: parts::series(row, series)?,
                designation: match tpi {
                    Some(tpi) => format!("{size}-{tpi} {series}"),
                    None => format!("{size} {series}"),
                },
                size: size.to_owned(),
                diameter_mm,
                pitch_mm,
                threads_per_inch: tpi,
                published: None,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

/// The id of a row, which no row of any table of threads has had before.
fn new_id(row: &Row, ids: &mut BTreeSet<String>) -> Result<String, Complaint> {
    let id = row.id("id")?;
    once(row, ids, &id)?;
    Ok(id)
}
