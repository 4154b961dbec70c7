//! Rows of printed tables on the wire: hexagon parts, metals, torques, clamp loads and turns.

use super::sources;
use crate::words::Word;
use clampbook_api::v1 as wire;
use clampbook_app::names;
use clampbook_engine::hex::AcrossFlats;
use clampbook_engine::metal::Metal;
use clampbook_engine::published_rows::PublishedTorque;
use clampbook_engine::published_targets::{PublishedTarget, Target};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;
use clampbook_engine::units::Millimetres;

/// Hexagon parts of one size on the wire.
pub(super) fn across_flats(part: &AcrossFlats) -> wire::AcrossFlats {
    let text = |length: Millimetres| show::dimension(length.get(), part.system());
    wire::AcrossFlats {
        name: names::row("hexParts", part.id()),
        size: part.to_string(),
        diameter_mm: part.diameter().get(),
        across_flats_mm: part.across_flats().get(),
        head_height_mm: part.head_height().get(),
        bearing_diameter_mm: part.bearing_diameter().get(),
        nut_height_mm: part.nut_height().get(),
        clearance_hole_mm: part.clearance_hole().get(),
        // Six or eight.
        castle_slots: part.castle_slots().and_then(|slots| slots.try_into().ok()),
        cross_hole_mm: part.cross_hole().map(|hole| hole.get()),
        across_flats_text: text(part.across_flats()),
        head_height_text: text(part.head_height()),
        bearing_diameter_text: text(part.bearing_diameter()),
        nut_height_text: text(part.nut_height()),
        clearance_hole_text: text(part.clearance_hole()),
        cross_hole_text: part.cross_hole().map(text).unwrap_or_default(),
        note: part.origin().note.into(),
        sources: sources(part.origin()),
    }
}

/// A metal on the wire.
pub(super) fn metal(metal: &Metal) -> wire::ParentMetal {
    wire::ParentMetal {
        name: names::row("parentMetals", metal.id()),
        display_name: metal.to_string(),
        aliases: metal.aliases().iter().map(|a| (*a).to_owned()).collect(),
        shear_mpa: metal.shear().get(),
        bearing_mpa: metal.bearing().get(),
        modulus_mpa: metal.modulus_mpa(),
        trade_engagement: metal.trade_engagement(),
        note: metal.origin().note.into(),
        sources: sources(metal.origin()),
    }
}

/// A printed clamp load or turn on the wire.
pub(super) fn target(row: &PublishedTarget) -> wire::PublishedTarget {
    let mut target = wire::PublishedTarget {
        name: names::row("publishedTargets", row.id()),
        size: row.size().into(),
        thread: row.thread().into(),
        grade: row.grade().into(),
        lubrication: row.lubrication().into(),
        printed: row.printed(),
        rule: row.rule().into(),
        note: row.origin().note.into(),
        sources: sources(row.origin()),
        ..wire::PublishedTarget::default()
    };
    match row.target() {
        Target::ClampLoad {
            minimum,
            nominal,
            maximum,
        } => {
            target.clamp_load_text = match maximum {
                Some(maximum) => show::load_range(minimum, maximum, TorqueUnit::NewtonMetre),
                None => show::load(minimum, TorqueUnit::NewtonMetre),
            };
            target.minimum_clamp_load_n = Some(minimum.get());
            target.nominal_clamp_load_n = nominal.map(|load| load.get());
            target.maximum_clamp_load_n = maximum.map(|load| load.get());
        }
        Target::Turn(angle) => target.turn_degrees = Some(angle.get()),
    }
    target
}

/// A printed torque on the wire.
pub(super) fn published(row: &PublishedTorque) -> wire::PublishedTorque {
    let (low, high) = row.range();
    wire::PublishedTorque {
        name: names::row("publishedTorques", row.id()),
        purpose: row.purpose().number(),
        size: row.size().into(),
        thread: row.thread().into(),
        seat: row.seat().into(),
        material: row.material().into(),
        lubrication: row.lubrication().into(),
        low_torque_nm: low.get(),
        range_text: show::newton_metres(low, high),
        high_torque_nm: high.get(),
        printed: row.printed(),
        rule: row.rule().into(),
        note: row.origin().note.into(),
        sources: sources(row.origin()),
    }
}
