//! Writes printed clamp loads and turns of the nut as Rust statics.

use super::{origin, table};
use crate::check::{PublishedTarget, Tables};

/// The statics of printed targets.
pub(crate) fn tables(out: &mut String, tables: &Tables) {
    table(
        out,
        "PUBLISHED_TARGETS",
        "PublishedTargetRow",
        "Clamp loads and turns of the nut as printed.",
        &tables.published_targets,
        published_target,
    );
}

fn published_target(t: &PublishedTarget) -> String {
    format!(
        "PublishedTargetRow {{ id: {:?}, size: {:?}, thread: {:?}, grade: {:?}, lubrication: {:?}, \
         low: {:?}, nominal: {:?}, high: {:?}, unit: TargetUnit::{}, rule: {:?}, {} }},\n",
        t.id,
        t.size,
        t.thread,
        t.grade,
        t.lubrication,
        t.low,
        t.nominal,
        t.high,
        t.unit,
        t.rule,
        origin(&t.origin),
    )
}
