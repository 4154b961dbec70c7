//! `torque-long`, `joint-check`, `length`, `stretch`, `castle-nut`.

use clampbook_api::v1::{
    AlignCastellatedNutRequest, CheckJointRequest, ComputeLongFormTorqueRequest,
    ComputeStretchRequest, FitLengthRequest, TorqueUnit,
    torque_service_client::TorqueServiceClient,
};

use crate::{
    args::{CastleArgs, JointCheckArgs, LengthArgs, LongArgs, StretchArgs, StretchedArgs},
    call::Server,
    error::Failure,
    out::Out,
    show,
};

pub(super) async fn long_form(args: LongArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    let request = ComputeLongFormTorqueRequest {
        thread: args.thread,
        grade: args.grade,
        thread_friction: args.thread_friction,
        bearing_friction: args.bearing_friction,
        friction_low: args.friction_low,
        friction_high: args.friction_high,
        bearing_diameter_mm: args.bearing_diameter_mm,
        cone_half_angle_degrees: args.cone_half_angle_degrees,
        lubricated: args.lubricated,
        proof_share: args.proof_share,
        yield_share: args.yield_share,
        clamp_load_n: args.clamp_load_n,
        purpose: args.purpose.unwrap_or_default().into(),
        torque_unit: unit.into(),
    };
    let answer = server
        .torque(TorqueServiceClient::compute_long_form_torque, request)
        .await?;
    out.answer(&answer, show::strength::long_form)
}

pub(super) async fn joint(args: JointCheckArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    let request = CheckJointRequest {
        torque: Some(args.tighten.into_wire(unit)),
        stack: Some(args.stack.into_wire()),
        fit: args.fit.unwrap_or_default().into(),
        shear_plane_mm: args.shear_plane_mm,
    };
    let answer = server
        .torque(TorqueServiceClient::check_joint, request)
        .await?;
    out.answer(&answer, show::strength::joint)
}

pub(super) async fn length(args: LengthArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let request = FitLengthRequest {
        thread: args.thread,
        stack: Some(args.stack.into_wire()),
        shear_plane_mm: args.shear_plane_mm,
    };
    let answer = server
        .torque(TorqueServiceClient::fit_length, request)
        .await?;
    out.answer(&answer, show::strength::length)
}

pub(super) async fn stretch(args: StretchArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    let answer = server
        .torque(
            TorqueServiceClient::compute_stretch,
            stretched(args.joint, unit),
        )
        .await?;
    out.answer(&answer, show::stretch::stretch)
}

pub(super) async fn castle(args: CastleArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    let request = AlignCastellatedNutRequest {
        joint: Some(stretched(args.joint, unit)),
        slots: args.slots,
        holes: args.holes,
        minimum_torque_nm: args.minimum_torque_nm,
        maximum_torque_nm: args.maximum_torque_nm,
        prevailing_torque_nm: args.prevailing_torque_nm,
        to_slot_degrees: args.to_slot_degrees,
    };
    let answer = server
        .torque(TorqueServiceClient::align_castellated_nut, request)
        .await?;
    out.answer(&answer, show::stretch::castle)
}

fn stretched(args: StretchedArgs, unit: TorqueUnit) -> ComputeStretchRequest {
    ComputeStretchRequest {
        torque: Some(args.tighten.into_wire(unit)),
        stack: Some(args.stack.into_wire()),
        bolt_modulus_mpa: args.bolt_modulus_mpa,
        loading_plane: args.loading_plane,
        roughness: args.roughness.unwrap_or_default().into(),
    }
}
