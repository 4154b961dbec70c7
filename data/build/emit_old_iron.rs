//! Writes look-alikes, spanners and published torques as Rust statics.

use super::{origin, table};
use crate::check::{LookAlike, PublishedTorque, Spanner, Tables};

/// The statics of old iron.
pub(crate) fn tables(out: &mut String, tables: &Tables) {
    let doc = "Threads that are taken for each other.";
    let rows = &tables.look_alikes;
    table(out, "LOOK_ALIKES", "LookAlikeRow", doc, rows, look_alike);
    let doc = "Widths across flats of British heads and nuts.";
    table(
        out,
        "SPANNERS",
        "SpannerRow",
        doc,
        &tables.spanners,
        spanner,
    );
    table(
        out,
        "PUBLISHED_TORQUES",
        "PublishedTorqueRow",
        "Torques as printed, for what no torque is computed for.",
        &tables.published_torques,
        published_torque,
    );
}

fn look_alike(l: &LookAlike) -> String {
    format!(
        "LookAlikeRow {{ id: {:?}, external: {:?}, internal: {:?}, half: Half::{}, \
         what_happens: {:?}, how_to_tell: {:?}, {} }},\n",
        l.id,
        l.external,
        l.internal,
        l.half,
        l.what_happens,
        l.how_to_tell,
        origin(&l.origin),
    )
}

fn spanner(s: &Spanner) -> String {
    format!(
        "SpannerRow {{ id: {:?}, series: Series::{}, size: {:?}, across_flats_mm: {:?}, \
         stamped: {:?}, {} }},\n",
        s.id,
        s.series,
        s.size,
        s.across_flats_mm,
        s.stamped,
        origin(&s.origin),
    )
}

fn published_torque(t: &PublishedTorque) -> String {
    format!(
        "PublishedTorqueRow {{ id: {:?}, purpose: {:?}, size: {:?}, thread: {:?}, seat: {:?}, \
         material: {:?}, lubrication: {:?}, low: {:?}, high: {:?}, unit: PublishedUnit::{}, \
         rule: {:?}, {} }},\n",
        t.id,
        t.purpose,
        t.size,
        t.thread,
        t.seat,
        t.material,
        t.lubrication,
        t.low,
        t.high,
        t.unit,
        t.rule,
        origin(&t.origin),
    )
}
