//! How a joint is built: flags of the commands that describe one.

use clampbook_api::v1::{CastellatedNut, GripLayer, GripStack, JointBuild, ThreadFit};

use super::Word;
use super::stack::{HoldArgs, layer};

/// How it is built; without it, only the target is checked.
#[derive(Debug, clap::Args)]
#[command(next_help_heading = "How it is built")]
pub(crate) struct BuildArgs {
    /// A clamped layer, in order from the head: metal, thickness in mm and, for a washer, its outer diameter in mm.
    #[arg(long = "layer", value_name = "METAL:MM[:MM]", value_parser = layer)]
    layers: Vec<GripLayer>,
    #[command(flatten)]
    hold: HoldArgs,
    /// Condition of the tapped metal, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    parent_state: String,
    /// How closely the threads fit; medium when not given.
    #[arg(long, value_parser = ThreadFit::parser())]
    fit: Option<ThreadFit>,
    /// Distance of a shear plane from the head's bearing face, in mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    shear_plane_mm: Option<f64>,
    /// The nut is castellated.
    #[arg(long)]
    castellated: bool,
    /// Slots of the castellated nut; the standard's when not given.
    #[arg(
        long,
        value_name = "N",
        requires = "castellated",
        allow_negative_numbers = true
    )]
    slots: Option<i32>,
    /// Cross holes through the bolt; 1 when not given.
    #[arg(
        long,
        value_name = "N",
        requires = "castellated",
        allow_negative_numbers = true
    )]
    cross_holes: Option<i32>,
    /// Published minimum torque of the castellated nut, in N·m.
    #[arg(
        long,
        value_name = "NM",
        requires = "castellated",
        allow_negative_numbers = true
    )]
    minimum_torque_nm: Option<f64>,
    /// Published maximum torque of the castellated nut, in N·m.
    #[arg(
        long,
        value_name = "NM",
        requires = "castellated",
        allow_negative_numbers = true
    )]
    maximum_torque_nm: Option<f64>,
}

impl BuildArgs {
    /// The build as sent; nothing when none of its flags was given. Whether it is whole is the server's to say.
    pub(crate) fn into_wire(self) -> Option<JointBuild> {
        let build = JointBuild {
            stack: Some(self.hold.around(self.layers)),
            fit: self.fit.unwrap_or_default().into(),
            shear_plane_mm: self.shear_plane_mm,
            parent_state: self.parent_state,
            castellated_nut: self.castellated.then_some(CastellatedNut {
                slots: self.slots,
                holes: self.cross_holes,
                minimum_torque_nm: self.minimum_torque_nm,
                maximum_torque_nm: self.maximum_torque_nm,
            }),
        };
        let nothing = JointBuild {
            stack: Some(GripStack::default()),
            ..JointBuild::default()
        };
        (build != nothing).then_some(build)
    }
}
