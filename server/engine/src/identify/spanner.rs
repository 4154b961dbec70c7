//! Which threads a spanner is for, and which spanner a thread takes.

use crate::{
    catalogue::Catalogue,
    thread::{Thread, series_name},
    units::Millimetres,
};
use clampbook_data::{HEX_PARTS, Origin, SPANNERS, System};

/// Furthest a spanner may differ from the flats and still be the right one, in mm.
const RIGHT_MM: f64 = 0.15;
/// Furthest it may be too wide and still turn, rounding the corners, in mm.
const LOOSE_MM: f64 = 0.60;

/// How a spanner sits on the flats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SpannerFit {
    /// The right size.
    Right,
    /// Turns, but rounds the corners when tight.
    Loose,
}

/// A size of thread whose head or nut has these flats.
#[derive(Clone, Debug, PartialEq)]
pub struct SpannerMatch {
    /// Size and families, such as `3/8 UNC, UNF` or `5/16 BSF`.
    pub thread_size: String,
    /// Nominal width across flats, in mm.
    pub across_flats_mm: f64,
    /// What is stamped on its spanner, where it is not the width.
    pub stamped: &'static str,
    /// How the spanner asked about sits.
    pub fit: SpannerFit,
    /// Where they come from.
    pub origin: &'static Origin,
}

impl Catalogue {
    /// Sizes whose flats a spanner of this width turns, the right ones first.
    #[must_use]
    pub fn identify_spanner(&self, width: Millimetres) -> Vec<SpannerMatch> {
        let mut found: Vec<_> = all()
            .filter_map(|entry| {
                let over = width.get() - entry.across_flats_mm;
                let fit = if over.abs() <= RIGHT_MM {
                    SpannerFit::Right
                } else if (0.0..=LOOSE_MM).contains(&over) {
                    SpannerFit::Loose
                } else {
                    return None;
                };
                Some(SpannerMatch { fit, ..entry })
            })
            .collect();
        found.sort_by(|a, b| {
            let apart = |m: &SpannerMatch| (m.across_flats_mm - width.get()).abs();
            a.fit.cmp(&b.fit).then(apart(a).total_cmp(&apart(b)))
        });
        found
    }

    /// The flats that the tables give for a thread; empty where they have none.
    #[must_use]
    pub fn spanners_for(&self, thread: &Thread) -> Vec<SpannerMatch> {
        let hexes = HEX_PARTS
            .iter()
            .filter(|h| h.system == thread.system() && h.diameter_mm == thread.diameter().get())
            .map(hex);
        let british = SPANNERS
            .iter()
            .filter(|s| s.series == thread.series() && s.size == thread.size())
            .map(old);
        hexes.chain(british).collect()
    }
}

fn all() -> impl Iterator<Item = SpannerMatch> {
    HEX_PARTS.iter().map(hex).chain(SPANNERS.iter().map(old))
}

fn hex(row: &'static clampbook_data::AcrossFlatsRow) -> SpannerMatch {
    SpannerMatch {
        thread_size: match row.system {
            System::Metric => format!("M{}", row.size),
            System::Inch | System::British => format!("{} UNC, UNF", row.size),
        },
        across_flats_mm: row.across_flats_mm,
        stamped: "",
        fit: SpannerFit::Right,
        origin: &row.origin,
    }
}

fn old(row: &'static clampbook_data::SpannerRow) -> SpannerMatch {
    SpannerMatch {
        thread_size: format!("{} {}", row.size, series_name(row.series)),
        across_flats_mm: row.across_flats_mm,
        stamped: row.stamped,
        fit: SpannerFit::Right,
        origin: &row.origin,
    }
}
