//! The checked rows, and the checks of their single fields.

use super::{Complaint, INCH, Row};
use crate::rows::positive;
use std::collections::BTreeSet;

/// Where a row comes from.
pub(crate) struct Origin {
    pub(crate) sources: Vec<String>,
    pub(crate) basis: &'static str,
    pub(crate) note: String,
}

pub(crate) struct Source {
    pub(crate) id: String,
    pub(crate) citation: String,
}

pub(crate) struct Thread {
    pub(crate) id: String,
    pub(crate) system: &'static str,
    pub(crate) series: &'static str,
    pub(crate) designation: String,
    pub(crate) size: String,
    pub(crate) diameter_mm: f64,
    pub(crate) pitch_mm: f64,
    pub(crate) threads_per_inch: Option<f64>,
    /// The value printed and half of its last digit.
    pub(crate) published: Option<(f64, f64)>,
    pub(crate) origin: Origin,
}

/// Diameters, in mm from (open or closed) to (closed).
pub(crate) struct Range {
    pub(crate) from_mm: f64,
    pub(crate) from_is_open: bool,
    pub(crate) to_mm: f64,
}

pub(crate) struct Strength {
    pub(crate) range: Range,
    pub(crate) proof: Option<f64>,
    pub(crate) yields: Option<f64>,
    pub(crate) tensile: f64,
    pub(crate) hardness: String,
    pub(crate) minimum_hrc: Option<f64>,
    pub(crate) origin: Origin,
}

pub(crate) struct Grade {
    pub(crate) id: String,
    pub(crate) standard: String,
    pub(crate) name: String,
    pub(crate) aliases: Vec<String>,
    pub(crate) system: &'static str,
    pub(crate) head_marking: String,
    pub(crate) material: String,
    pub(crate) restriction: Option<&'static str>,
    pub(crate) strengths: Vec<Strength>,
}

pub(crate) struct NutProof {
    pub(crate) range: Range,
    pub(crate) series: Vec<&'static str>,
    pub(crate) proof: f64,
    pub(crate) origin: Origin,
}

pub(crate) struct Nut {
    pub(crate) id: String,
    pub(crate) standard: String,
    pub(crate) name: String,
    pub(crate) aliases: Vec<String>,
    pub(crate) style: String,
    pub(crate) system: &'static str,
    pub(crate) marking: String,
    pub(crate) mates: Vec<String>,
    pub(crate) proofs: Vec<NutProof>,
}

pub(crate) struct Lubrication {
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) aliases: Vec<String>,
    /// Typical, low, high.
    pub(crate) nut_factors: [f64; 3],
    pub(crate) lubricated: bool,
    pub(crate) electroplated: bool,
    pub(crate) origin: Origin,
}

impl Origin {
    /// Most sources one row may cite; an answer has room for no more.
    const MOST_SOURCES: usize = 3;

    pub(crate) fn of(row: &Row, known: &BTreeSet<&str>) -> Result<Self, Complaint> {
        row.needed("sources")?;
        let sources = row.words("sources");
        if let Some(s) = sources.iter().find(|s| !known.contains(s.as_str())) {
            return Err(row.bad(format_args!("source \"{s}\" is not in sources.csv")));
        }
        if sources.len() > Self::MOST_SOURCES {
            return Err(row.bad("more than three sources"));
        }
        let basis = match row.needed("basis")? {
            "found" => "Found",
            "computed" => "Computed",
            "found+computed" => "FoundAndComputed",
            "memory" => "Memory",
            "common practice" => "CommonPractice",
            other => return Err(row.bad(format_args!("basis \"{other}\" is unknown"))),
        };
        Ok(Self {
            sources,
            basis,
            note: row.text("note").to_owned(),
        })
    }
}

impl Range {
    pub(crate) fn of(row: &Row, system: &str) -> Result<Self, Complaint> {
        let unit = if system == "Metric" { 1.0 } else { INCH };
        let from = row.needed("size_min")?;
        let number = positive(from.trim_start_matches('>'))
            .ok_or_else(|| row.bad(format_args!("size_min is \"{from}\", must be a size")))?;
        let range = Self {
            from_mm: number * unit,
            from_is_open: from.starts_with('>'),
            to_mm: row.number("size_max")? * unit,
        };
        match range.from_mm <= range.to_mm {
            true => Ok(range),
            false => Err(row.bad("size_min is above size_max")),
        }
    }

    /// Ranges of one grade follow each other without overlap.
    pub(crate) fn clear_of<'a>(
        &self,
        row: &Row,
        before: impl Iterator<Item = &'a Self>,
    ) -> Result<(), Complaint> {
        for earlier in before {
            let touches = earlier.to_mm == self.from_mm && self.from_is_open;
            if earlier.to_mm >= self.from_mm && !touches {
                return Err(row.bad("its sizes overlap with a row above"));
            }
        }
        Ok(())
    }
}

impl Grade {
    pub(crate) fn same_head(&self, other: &Self) -> bool {
        (&self.standard, &self.name, &self.aliases, self.system)
            == (&other.standard, &other.name, &other.aliases, other.system)
            && (&self.head_marking, &self.material, self.restriction)
                == (&other.head_marking, &other.material, other.restriction)
    }
}

impl Nut {
    pub(crate) fn same_head(&self, other: &Self) -> bool {
        (&self.standard, &self.name, &self.aliases, self.system)
            == (&other.standard, &other.name, &other.aliases, other.system)
            && (&self.style, &self.marking, &self.mates)
                == (&other.style, &other.marking, &other.mates)
    }
}

pub(crate) fn system(row: &Row) -> Result<&'static str, Complaint> {
    match row.needed("system")? {
        "inch" => Ok("Inch"),
        "metric" => Ok("Metric"),
        "british" => Ok("British"),
        other => Err(row.bad(format_args!(
            "system is \"{other}\", must be inch or metric or british"
        ))),
    }
}

pub(crate) fn series(row: &Row, name: &str) -> Result<&'static str, Complaint> {
    match name {
        "UNC" => Ok("Unc"),
        "UNF" => Ok("Unf"),
        "UNEF" => Ok("Unef"),
        "UN" => Ok("Un"),
        "UNS" => Ok("Uns"),
        "coarse" => Ok("MetricCoarse"),
        "fine" => Ok("MetricFine"),
        "BSW" => Ok("Bsw"),
        "BSF" => Ok("Bsf"),
        "BA" => Ok("Ba"),
        "BSC" => Ok("Bsc"),
        other => Err(row.bad(format_args!("series \"{other}\" is unknown"))),
    }
}

/// Inches of `7/16`, `1-1/4`, `2` or a number size (`#10` is 0.060 in + 10 x 0.013 in).
pub(crate) fn inches(size: &str) -> Option<f64> {
    if let Some(number) = size.strip_prefix('#') {
        let number: u8 = number.parse().ok()?;
        return (number <= 12).then(|| f64::from(60 + 13 * u16::from(number)) / 1000.0);
    }
    let (whole, fraction) = match size.split_once('-') {
        Some((whole, fraction)) => (positive(whole)?, fraction),
        None if size.contains('/') => (0.0, size),
        None => return positive(size),
    };
    let (top, bottom) = fraction.split_once('/')?;
    Some(whole + positive(top)? / positive(bottom)?)
}

/// A printed stress area and half of its last digit; it must lie within 0.6 % of the formula.
pub(crate) fn area(row: &Row, column: &str, formula: f64) -> Result<Option<(f64, f64)>, Complaint> {
    let Some(value) = row.number_if_any(column)? else {
        return Ok(None);
    };
    if ((value - formula) / formula).abs() > 0.006 {
        return Err(row.bad(format_args!(
            "{column} is {value}, the formula gives {formula:.5}"
        )));
    }
    let decimals = row.text(column).split_once('.').map_or(0, |(_, d)| d.len());
    let half_last_digit = format!("5e-{}", decimals + 1).parse().unwrap_or(0.5);
    Ok(Some((value, half_last_digit)))
}
