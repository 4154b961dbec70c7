//! Writes the parts of a joint as Rust statics.

use super::{origin, table};
use crate::check::{AcrossFlats, ParentMetal, Tables};

/// The statics of hexagon parts and metals.
pub(crate) fn tables(out: &mut String, tables: &Tables) {
    table(
        out,
        "HEX_PARTS",
        "AcrossFlatsRow",
        "Hexagon heads, nuts and their holes, by size.",
        &tables.across_flats,
        across_flats,
    );
    table(
        out,
        "PARENT_METALS",
        "ParentMetalRow",
        "Metals that are clamped or tapped.",
        &tables.parent_metals,
        parent_metal,
    );
}

fn across_flats(h: &AcrossFlats) -> String {
    let [d, flats, head, bearing, nut, hole] = h.lengths_mm;
    format!(
        "AcrossFlatsRow {{ id: {:?}, system: System::{}, size: {:?}, diameter_mm: {d:?}, \
         across_flats_mm: {flats:?}, head_height_mm: {head:?}, bearing_diameter_mm: {bearing:?}, \
         nut_height_mm: {nut:?}, clearance_hole_mm: {hole:?}, castle_slots: {:?}, \
         cross_hole_mm: {:?}, {} }},\n",
        h.id,
        h.system,
        h.size,
        h.castle_slots,
        h.cross_hole_mm,
        origin(&h.origin),
    )
}

fn parent_metal(m: &ParentMetal) -> String {
    let [shear, bearing, modulus] = m.stresses_mpa;
    format!(
        "ParentMetalRow {{ id: {:?}, name: {:?}, aliases: &{:?}, shear_mpa: {shear:?}, \
         bearing_mpa: {bearing:?}, modulus_mpa: {modulus:?}, trade_engagement: {:?}, {} }},\n",
        m.id,
        m.name,
        m.aliases,
        m.trade_engagement,
        origin(&m.origin),
    )
}
