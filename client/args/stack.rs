//! What is clamped and how it is tightened: flags that several commands about a joint share.

use clampbook_api::v1::{
    ComputeTorqueRequest, GripLayer, GripStack, Purpose, TappedHole, TorqueUnit,
};

use super::{Word, shared::AimArgs};

/// What is clamped, layer by layer.
#[derive(Debug, clap::Args)]
pub(crate) struct StackArgs {
    /// A clamped layer, in order from the head: metal such as "mild steel" or "cast aluminium", thickness in mm and, for a
    /// washer, its outer diameter in mm.
    #[arg(long = "layer", value_name = "METAL:MM[:MM]", required = true, value_parser = layer)]
    layers: Vec<GripLayer>,
    #[command(flatten)]
    hold: HoldArgs,
}

impl StackArgs {
    /// The stack as sent.
    pub(crate) fn into_wire(self) -> GripStack {
        self.hold.around(self.layers)
    }
}

/// What holds the far end, and the sizes that go with it.
#[derive(Debug, clap::Args)]
pub(crate) struct HoldArgs {
    /// The bolt is screwed into a tapped hole: its metal and depth of full thread in mm.
    #[arg(long, value_name = "METAL:MM", value_parser = tapped, conflicts_with = "nut_height_mm")]
    tapped: Option<TappedHole>,
    /// The tapped hole has a bottom.
    #[arg(long, requires = "tapped")]
    blind: bool,
    /// The tapped hole has a helical insert.
    #[arg(long, requires = "tapped")]
    insert: bool,
    /// Shear strength of the tapped metal in MPa, when you have a better source than the catalogue.
    #[arg(
        long,
        value_name = "MPA",
        requires = "tapped",
        allow_negative_numbers = true
    )]
    shear_mpa: Option<f64>,
    /// Length of the bolt under its head, in mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    bolt_length_mm: Option<f64>,
    /// Length of its thread, in mm; that of the standard's bolt when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    thread_length_mm: Option<f64>,
    /// Height of the nut, in mm; that of the standard's when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    nut_height_mm: Option<f64>,
    /// Outer diameter of the bearing face, in mm; the hexagon's when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    bearing_diameter_mm: Option<f64>,
    /// Diameter of the clearance hole, in mm; the medium series when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    hole_diameter_mm: Option<f64>,
    /// Height of the head, in mm; the hexagon's when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    head_height_mm: Option<f64>,
    /// Maximum diameter of the head, in mm; across the hexagon's corners when not given.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    head_diameter_mm: Option<f64>,
    /// Free height above the head's face, in mm, to see whether the head goes in.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    head_room_mm: Option<f64>,
    /// Free diameter around the head, in mm, to see whether the head goes in.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    head_space_mm: Option<f64>,
}

impl HoldArgs {
    /// The stack of these layers as sent.
    pub(crate) fn around(self, layers: Vec<GripLayer>) -> GripStack {
        GripStack {
            layers,
            tapped: self.tapped.map(|tapped| TappedHole {
                shear_mpa: self.shear_mpa,
                blind: self.blind,
                insert: self.insert,
                ..tapped
            }),
            bolt_length_mm: self.bolt_length_mm,
            thread_length_mm: self.thread_length_mm,
            nut_height_mm: self.nut_height_mm,
            bearing_diameter_mm: self.bearing_diameter_mm,
            hole_diameter_mm: self.hole_diameter_mm,
            head_height_mm: self.head_height_mm,
            head_diameter_mm: self.head_diameter_mm,
            head_room_mm: self.head_room_mm,
            head_space_mm: self.head_space_mm,
        }
    }
}

/// How the joint is tightened.
#[derive(Debug, clap::Args)]
pub(crate) struct TightenArgs {
    /// Thread, for instance 7/16-20, M10x1.25, "5/16 UNC".
    thread: String,
    /// Grade of the bolt: "SAE J429 5", 8.8, A2-70.
    grade: String,
    /// Lubrication and finish: dry, oiled; may be left out with --nut-factor.
    lubrication: Option<String>,
    #[command(flatten)]
    aim: AimArgs,
    /// What the fastener is for; for some purposes nothing is computed.
    #[arg(long, value_parser = Purpose::parser())]
    purpose: Option<Purpose>,
}

impl TightenArgs {
    /// The question as sent.
    pub(crate) fn into_wire(self, unit: TorqueUnit) -> ComputeTorqueRequest {
        ComputeTorqueRequest {
            thread: self.thread,
            grade: self.grade,
            lubrication: self.lubrication.unwrap_or_default(),
            proof_share: self.aim.proof_share,
            clamp_load_n: self.aim.clamp_load_n,
            nut_factor: self.aim.nut_factor,
            nut_grade: self.aim.nut_grade,
            purpose: self.purpose.unwrap_or_default().into(),
            baked: self.aim.baked,
            torque_unit: unit.into(),
        }
    }
}

/// A layer as typed.
///
/// # Errors
/// What is wrong with it, in words.
pub(crate) fn layer(text: &str) -> Result<GripLayer, String> {
    let parts: Vec<&str> = text.split(':').collect();
    let (metal, thickness, outer) = match parts[..] {
        [metal, thickness] => (metal, thickness, None),
        [metal, thickness, outer] => (metal, thickness, Some(millimetres(outer)?)),
        _ => return Err("say metal:thickness, for instance \"mild steel:12\"".to_owned()),
    };
    Ok(GripLayer {
        metal: metal.to_owned(),
        thickness_mm: millimetres(thickness)?,
        outer_diameter_mm: outer,
    })
}

fn tapped(text: &str) -> Result<TappedHole, String> {
    let (metal, depth) = text
        .split_once(':')
        .ok_or("say metal:depth, for instance \"cast aluminium:25\"")?;
    Ok(TappedHole {
        metal: metal.to_owned(),
        full_thread_mm: millimetres(depth)?,
        ..TappedHole::default()
    })
}

fn millimetres(text: &str) -> Result<f64, String> {
    text.trim()
        .parse()
        .map_err(|_| format!("\"{text}\" is not a number of millimetres"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn layers_and_holes_are_read_as_typed() {
        let washer = layer("alloy steel:2.5:24").unwrap();
        assert_eq!(
            (
                washer.metal.as_str(),
                washer.thickness_mm,
                washer.outer_diameter_mm
            ),
            ("alloy steel", 2.5, Some(24.0))
        );
        assert_eq!(layer("mild steel:12").unwrap().outer_diameter_mm, None);
        assert_eq!(tapped("cast aluminium:25").unwrap().full_thread_mm, 25.0);
    }

    proptest::proptest! {
        /// Whatever is typed is a layer of the metal before the first colon, or is refused in words.
        #[test]
        fn any_text_is_a_layer_or_is_refused(text in "([\\PC]{0,20}:?){0,4}|[a-z ]{1,12}:[0-9.eE+-]{1,9}(:[0-9.]{1,6})?") {
            match layer(&text) {
                Ok(read) => proptest::prop_assert_eq!(Some(read.metal.as_str()), text.split(':').next()),
                Err(why) => proptest::prop_assert!(!why.is_empty()),
            }
            match tapped(&text) {
                Ok(read) => proptest::prop_assert_eq!(Some(read.metal.as_str()), text.split(':').next()),
                Err(why) => proptest::prop_assert!(!why.is_empty()),
            }
        }
    }

    #[test]
    fn what_is_wrong_is_said() {
        assert!(layer("mild steel").unwrap_err().contains("metal:thickness"));
        assert!(layer("mild steel:thick").unwrap_err().contains("\"thick\""));
        assert!(layer("a:1:2:3").is_err());
        assert!(tapped("iron").unwrap_err().contains("metal:depth"));
    }
}
