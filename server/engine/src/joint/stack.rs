//! The clamped layers and the far end, looked up.

use super::{
    grip::{GripLayer, GripStack},
    head::Head,
};
use crate::{
    fault::{Fault, FaultReason},
    hex::AcrossFlats,
    joint::{reach::standard_thread_length, tapped::Tapped},
    metal::Metal,
    remarks::Remarks,
    source::{Basis, UsedFor},
    stretch::stiffness::{self, FarEnd},
    thread::Thread,
    units::{Millimetres, lesser, within},
};
use clampbook_data::cite;

/// Most layers a grip may have.
pub const MOST_LAYERS: usize = 8;

/// A layer looked up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Layer {
    pub(crate) metal: Metal,
    pub(crate) thickness: Millimetres,
    pub(crate) outer: Option<Millimetres>,
}

/// A stack looked up; every number checked.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Stack {
    pub(crate) layers: Vec<Layer>,
    pub(crate) tapped: Option<Tapped>,
    pub(crate) bolt_length: Option<Millimetres>,
    /// Of the given bolt.
    pub(crate) thread_length: Option<Millimetres>,
    pub(crate) thread_length_was_given: bool,
    pub(crate) nut_height: Millimetres,
    pub(crate) bearing: Millimetres,
    pub(crate) hole: Millimetres,
    /// The standard part, where something was taken from it.
    pub(crate) hex: Option<AcrossFlats>,
    /// The head, where its room was said.
    pub(crate) head: Option<Head>,
}

/// Field names of a list; a stack has no more layers than these.
macro_rules! layer_fields {
    ($name:ident, $field:literal) => {
        const $name: [&str; MOST_LAYERS] = [
            concat!("stack.layers[0].", $field),
            concat!("stack.layers[1].", $field),
            concat!("stack.layers[2].", $field),
            concat!("stack.layers[3].", $field),
            concat!("stack.layers[4].", $field),
            concat!("stack.layers[5].", $field),
            concat!("stack.layers[6].", $field),
            concat!("stack.layers[7].", $field),
        ];
    };
}

layer_fields!(METAL, "metal");
layer_fields!(THICKNESS, "thickness_mm");
layer_fields!(OUTER, "outer_diameter_mm");

/// Thickest layer and longest bolt, in mm; longer ones are no bolts of this book. Common practice.
const LONGEST_MM: f64 = 3000.0;

pub(super) fn length(what: &'static str, given: f64) -> Result<Millimetres, FaultReason> {
    Ok(within(what, given, (Millimetres::LOW, LONGEST_MM), "mm").map(Millimetres::computed)?)
}

impl Stack {
    /// Looks up a stack. Without the thread only what does not hang on it is checked.
    pub(crate) fn resolve(
        ask: &GripStack,
        thread: Option<&Thread>,
        faults: &mut Vec<Fault>,
    ) -> Option<Self> {
        let before = faults.len();
        let layers = layers(&ask.layers, thread, faults);
        let tapped = (ask.tapped.as_ref()).map(|tapped| Tapped::resolve(tapped, thread, faults));
        let mut optional = |field, what, value: Option<f64>| {
            value.map(|value| Fault::keep(faults, field, length(what, value)))
        };
        let bolt_length = optional("stack.bolt_length_mm", "bolt length", ask.bolt_length_mm);
        let own_thread = optional(
            "stack.thread_length_mm",
            "thread length",
            ask.thread_length_mm,
        );
        let nut_height = optional("stack.nut_height_mm", "nut height", ask.nut_height_mm);
        if let (Some(Some(thread)), Some(Some(bolt))) = (own_thread, bolt_length)
            && thread > bolt
        {
            let why = "is longer than the bolt";
            faults.push(Fault::new(
                "stack.thread_length_mm",
                FaultReason::Contradicts { why },
            ));
        }
        let head = Head::resolve(ask, thread, faults);
        let thread = thread?;
        let d = thread.diameter().get();
        let wide = |field, value: f64, faults: &mut Vec<Fault>| {
            let checked = within("diameter", value, (d, 10.0 * d), "mm");
            Fault::keep(faults, field, checked).map(Millimetres::computed)
        };
        let bearing = ask
            .bearing_diameter_mm
            .map(|v| wide("stack.bearing_diameter_mm", v, faults));
        let hole = ask
            .hole_diameter_mm
            .map(|v| wide("stack.hole_diameter_mm", v, faults));
        let all_given =
            bearing.is_some() && hole.is_some() && (nut_height.is_some() || ask.tapped.is_some());
        let hex = if all_given {
            None
        } else {
            AcrossFlats::of(thread)
        };
        if !all_given && hex.is_none() {
            faults.push(Fault::new(
                "stack.bearing_diameter_mm",
                FaultReason::NoAcrossFlats {
                    thread: thread.to_string(),
                    instead: "bearing_diameter_mm, hole_diameter_mm and nut_height_mm",
                },
            ));
            return None;
        }
        let standard = |given: Option<Option<Millimetres>>, of: fn(&AcrossFlats) -> Millimetres| {
            given.unwrap_or_else(|| hex.as_ref().map(of))
        };
        let bearing = standard(bearing, AcrossFlats::bearing_diameter)?;
        let hole = standard(hole, AcrossFlats::clearance_hole)?;
        // A tapped hole has no nut; its height is never read.
        let nut_height = match &ask.tapped {
            Some(_) => Some(Millimetres::computed(0.0)),
            None => standard(nut_height, AcrossFlats::nut_height),
        }?;
        if hole >= bearing {
            let why = "the hole is as wide as the bearing face: nothing is left to press on";
            faults.push(Fault::new(
                "stack.hole_diameter_mm",
                FaultReason::Contradicts { why },
            ));
        }
        if faults.len() > before {
            return None;
        }
        let bolt_length = bolt_length.flatten();
        Some(Self {
            layers,
            tapped: tapped.flatten(),
            bolt_length,
            thread_length: own_thread.flatten().or_else(|| {
                bolt_length.map(|length| {
                    standard_thread_length(thread.system(), thread.diameter(), length)
                })
            }),
            thread_length_was_given: own_thread.is_some(),
            nut_height,
            bearing,
            hole,
            hex: hex.or_else(|| head.and_then(|_| AcrossFlats::of(thread))),
            head,
        })
    }

    /// Thickness of everything clamped.
    pub(crate) fn grip(&self) -> f64 {
        self.layers.iter().map(|l| l.thickness.get()).sum()
    }

    /// Layers as springs; a tapped part is pressed to half a diameter below its face.
    pub(crate) fn springs(&self, thread: &Thread) -> Vec<stiffness::Layer> {
        let layer = |l: &Layer| stiffness::Layer {
            thickness: l.thickness,
            modulus_mpa: l.metal.modulus_mpa(),
        };
        let mut springs: Vec<_> = self.layers.iter().map(layer).collect();
        if let Some(tapped) = self.tapped {
            let (depth, d) = (tapped.full_thread.get(), thread.diameter().get());
            let pressed = lesser(depth, d) / 2.0;
            springs.push(stiffness::Layer {
                thickness: Millimetres::computed(pressed),
                modulus_mpa: tapped.metal.modulus_mpa(),
            });
        }
        springs
    }

    pub(crate) fn far_end(&self) -> FarEnd {
        match self.tapped {
            None => FarEnd::Nut,
            Some(tapped) => FarEnd::Tapped {
                modulus_mpa: tapped.metal.modulus_mpa(),
            },
        }
    }

    /// Cites what came from tables.
    pub(crate) fn cite(&self, remarks: &mut Remarks<'_>) {
        if let Some(hex) = self.hex {
            remarks.cite_row(hex.origin(), UsedFor::Dimensions);
        }
        let tapped = self.tapped.map(|t| t.metal);
        if self.tapped.is_some_and(|t| t.insert) {
            remarks.cite(&[cite::ASME_B18_29_1], UsedFor::Dimensions, Basis::Memory);
        }
        for metal in self.layers.iter().map(|l| l.metal).chain(tapped) {
            remarks.cite_row(metal.origin(), UsedFor::Metal);
        }
    }
}

fn layers(asked: &[GripLayer], thread: Option<&Thread>, faults: &mut Vec<Fault>) -> Vec<Layer> {
    if asked.is_empty() {
        faults.push(Fault::new("stack.layers", FaultReason::Missing));
    }
    if asked.len() > MOST_LAYERS {
        let why = "more than 8 layers; take layers of one metal together";
        faults.push(Fault::new("stack.layers", FaultReason::Contradicts { why }));
    }
    let minimum = thread.map_or(Millimetres::LOW, |t| t.diameter().get());
    let mut found = Vec::new();
    for (index, layer) in asked.iter().take(MOST_LAYERS).enumerate() {
        let metal = Fault::keep(faults, METAL[index], Metal::called(&layer.metal));
        let thickness = length("thickness", layer.thickness_mm);
        let thickness = Fault::keep(faults, THICKNESS[index], thickness);
        let outer = layer.outer_diameter_mm.map(|outer| {
            let checked = within("outer diameter", outer, (minimum, LONGEST_MM), "mm");
            Fault::keep(faults, OUTER[index], checked).map(Millimetres::computed)
        });
        if let (Some(metal), Some(thickness)) = (metal, thickness) {
            found.push(Layer {
                metal,
                thickness,
                outer: outer.flatten(),
            });
        }
    }
    found
}
