//! A joint as described: its positions, what it is specified for, how it is built.

use super::Spoken;
use super::fastener::purpose;
use super::told::Told;
use crate::record::fact::{
    CastellatedNut, GripLayer, JointAdded, JointBuild, Layout, TappedHole, Target,
};

impl Spoken for JointAdded {
    fn text(&self) -> String {
        let published = self
            .specification
            .as_ref()
            .map(|followed| format!("{} revision {}", followed.specification, followed.revision));
        let told = Told::of(format!("{}, {}", self.assembly, self.joint))
            .say(&self.display_name)
            .named("class", self.criticality.spoken())
            .say(layout(self))
            .say(labels(&self.labels))
            .say(self.hole_kind.spoken())
            .named("purpose", purpose(&self.purpose))
            .value("published", published);
        let told = match &self.target {
            Some(target) => specified(told, target),
            None => told,
        };
        let told = match &self.build {
            Some(build) => built(told, build),
            None => told,
        };
        told.named("preparation", &self.preparation)
            .named("lock", &self.lock)
            .named(
                "computed torque approved by",
                &self.computed_torque_approver,
            )
            .text()
    }
}

fn layout(joint: &JointAdded) -> String {
    let count = joint.labels.len();
    match joint.layout {
        Layout::Ring => format!("ring of {count}"),
        Layout::Grid { rows } => format!("grid of {count} in {rows} rows"),
        Layout::Line => format!("line of {count}"),
        Layout::Single => "one position".to_owned(),
    }
}

/// Positions that have a name: `1 upper rear, 2 lower rear`.
fn labels(labels: &[String]) -> String {
    let named = labels
        .iter()
        .zip(1..)
        .filter(|(label, _)| !label.is_empty());
    let said = named.map(|(label, number)| format!("{number} {label}"));
    said.collect::<Vec<String>>().join(", ")
}

fn specified(told: Told, target: &Target) -> Told {
    told.named("for", format!("{}, {}", target.thread, target.grade))
        .named("lubrication", &target.lubrication)
        .value("nut", target.nut_grade.as_ref())
        .value("K", target.nut_factor)
        .value("share of proof load", target.proof_share)
        .value("clamp load", target.clamp_load_n.map(|n| format!("{n} N")))
        .when(target.baked, "baked after plating")
}

/// How it is built, from the head on.
fn built(told: Told, build: &JointBuild) -> Told {
    let layers: Vec<String> = build.stack.layers.iter().map(layer).collect();
    let told = told.named("clamps", layers.join(", "));
    let told = match (&build.stack.tapped, &build.castle) {
        (Some(hole), _) => tapped(told, hole),
        (None, Some(nut)) => castle(told, nut),
        (None, None) => told.say("nut"),
    };
    told.named("tapped metal as found", &build.stack.parent_state)
        .mm("bolt", build.stack.bolt_length_mm)
        .mm("its thread", build.stack.thread_length_mm)
        .mm("nut height", build.stack.nut_height_mm)
        .mm("bearing face", build.stack.bearing_diameter_mm)
        .mm("hole", build.stack.hole_diameter_mm)
        .mm("head height", build.stack.head_height_mm)
        .mm("head across", build.stack.head_diameter_mm)
        .mm("room above its face", build.stack.head_room_mm)
        .mm("space around it", build.stack.head_space_mm)
        .when(build.close_fit, "close thread fit")
        .mm("shear plane at", build.shear_plane_mm)
}

fn layer(layer: &GripLayer) -> String {
    let washer = layer.outer_diameter_mm;
    let washer = washer.map(|mm| format!(" washer of {mm} mm"));
    let (metal, thickness) = (&layer.metal, layer.thickness_mm);
    format!("{metal} {thickness} mm{}", washer.unwrap_or_default())
}

fn tapped(told: Told, hole: &TappedHole) -> Told {
    told.named("tapped", &hole.metal)
        .value("shear strength", hole.shear_mpa.map(|p| format!("{p} MPa")))
        .mm("full thread", Some(hole.full_thread_mm))
        .when(hole.blind, "blind")
        .when(hole.insert, "helical insert")
}

fn castle(told: Told, nut: &CastellatedNut) -> Told {
    let nm = |torque: Option<f64>| torque.map(|nm| format!("{nm} N·m"));
    told.say("castellated nut")
        .value("slots", nut.slots)
        .value("cross holes", nut.holes)
        .value("minimum torque", nm(nut.minimum_torque_nm))
        .value("maximum torque", nm(nut.maximum_torque_nm))
}
