//! A question with several things wrong is told all of them at once, an unknown purpose among them.

use clampbook_api::v1::many_answer::Outcome;
use clampbook_api::v1::{
    AlignCastellatedNutRequest, CheckJointRequest, ComputeLongFormTorqueRequest,
    ComputeStretchRequest, ComputeTorqueRequest, ComputeTorquesRequest, FitLengthRequest,
    GripLayer, GripStack, Layout, PlanTighteningRequest, Purpose, RenderChartRequest,
    RestateTorqueRequest, SetWrenchRequest, UsedLockNut,
};

use crate::support::{Refusal, Shop};

/// No purpose has this number.
const UNKNOWN: i32 = 9_999;

/// Purpose, thread and grade are wrong.
fn ask() -> ComputeTorqueRequest {
    ComputeTorqueRequest {
        thread: "7/16-21".into(),
        grade: "cheese".into(),
        lubrication: "oiled".into(),
        purpose: UNKNOWN,
        ..Default::default()
    }
}

/// The one layer's metal is wrong.
fn stack() -> Option<GripStack> {
    Some(GripStack {
        layers: vec![GripLayer {
            metal: "butter".into(),
            thickness_mm: 12.0,
            outer_diameter_mm: None,
        }],
        bolt_length_mm: Some(30.0),
        ..Default::default()
    })
}

fn stretch() -> ComputeStretchRequest {
    ComputeStretchRequest {
        torque: Some(ask()),
        stack: stack(),
        loading_plane: Some(2.0),
        ..Default::default()
    }
}

#[track_caller]
fn names<A: std::fmt::Debug>(outcome: Result<A, tonic::Status>, fields: &[&str]) {
    Refusal::of(&outcome.expect_err("it is wrong")).names(fields);
}

#[tokio::test]
async fn torques_and_charts_tell_everything() {
    let shop = Shop::open();
    let outcome = shop.torque().compute_torque(ask()).await;
    names(outcome, &["purpose", "thread", "grade"]);
    let long = ComputeLongFormTorqueRequest {
        thread: "7/16-21".into(),
        grade: "cheese".into(),
        thread_friction: f64::NAN,
        bearing_friction: 0.12,
        purpose: UNKNOWN,
        ..Default::default()
    };
    let outcome = shop.torque().compute_long_form_torque(long).await;
    names(outcome, &["purpose", "thread", "grade", "thread_friction"]);
    let chart = RenderChartRequest {
        ask: Some(ask()),
        torque_unit: UNKNOWN,
    };
    let outcome = shop.torque().render_chart(chart).await;
    names(
        outcome,
        &["torque_unit", "ask.purpose", "ask.thread", "ask.grade"],
    );
    let nothing = RenderChartRequest {
        ask: None,
        torque_unit: UNKNOWN,
    };
    let outcome = shop.torque().render_chart(nothing).await;
    names(outcome, &["torque_unit", "ask"]);
}

#[tokio::test]
async fn a_published_torque_tells_everything() {
    let shop = Shop::open();
    let request = |torque: &str| RestateTorqueRequest {
        thread: "7/16-21".into(),
        torque: torque.into(),
        published_lubrication: "honey".into(),
        flat_seats: true,
        purpose: UNKNOWN,
        ..Default::default()
    };
    let rest = ["purpose", "thread", "published_lubrication"];
    let outcome = shop.torque().restate_torque(request("50 lbf·ft")).await;
    names(outcome, &rest);
    for unread in ["", "50", "NaN N·m", "1e300 N·m"] {
        let outcome = shop.torque().restate_torque(request(unread)).await;
        names(outcome, &[&rest[..], &["torque"]].concat());
    }
}

#[tokio::test]
async fn questions_about_joints_tell_everything() {
    let shop = Shop::open();
    let joint = CheckJointRequest {
        torque: Some(ask()),
        stack: stack(),
        fit: UNKNOWN,
        shear_plane_mm: Some(-1.0),
    };
    let outcome = shop.torque().check_joint(joint).await;
    let of_torque = ["torque.purpose", "torque.thread", "torque.grade"];
    let of_stack = ["stack.layers[0].metal", "fit", "shear_plane_mm"];
    names(outcome, &[&of_torque[..], &of_stack[..]].concat());
    let outcome = shop
        .torque()
        .check_joint(CheckJointRequest::default())
        .await;
    names(outcome, &["torque", "stack"]);
    let length = FitLengthRequest {
        thread: "7/16-21".into(),
        stack: None,
        shear_plane_mm: Some(-1.0),
    };
    let outcome = shop.torque().fit_length(length).await;
    names(outcome, &["thread", "stack", "shear_plane_mm"]);
    let outcome = shop.torque().compute_stretch(stretch()).await;
    let of_stretch = ["stack.layers[0].metal", "loading_plane"];
    names(outcome, &[&of_torque[..], &of_stretch[..]].concat());
}

#[tokio::test]
async fn a_castellated_nut_tells_everything() {
    let shop = Shop::open();
    let nut = |joint| AlignCastellatedNutRequest {
        joint,
        slots: Some(5),
        minimum_torque_nm: f64::NAN,
        ..Default::default()
    };
    let outcome = shop
        .torque()
        .align_castellated_nut(nut(Some(stretch())))
        .await;
    let of_joint = [
        "joint.torque.purpose",
        "joint.torque.thread",
        "joint.torque.grade",
        "joint.stack.layers[0].metal",
        "joint.loading_plane",
    ];
    let of_nut = ["slots", "minimum_torque_nm"];
    names(outcome, &[&of_joint[..], &of_nut[..]].concat());
    let outcome = shop.torque().align_castellated_nut(nut(None)).await;
    names(outcome, &[&["joint"], &of_nut[..]].concat());
}

#[tokio::test]
async fn one_of_many_tells_everything_in_its_place() {
    let shop = Shop::open();
    let chunk = ComputeTorquesRequest { asks: vec![ask()] };
    let stream = shop
        .torque()
        .compute_torques(tokio_stream::once(chunk))
        .await;
    let mut stream = stream.expect("a stream").into_inner();
    let answer = stream.message().await.expect("no error").expect("a chunk");
    let Some(Outcome::Fault(fault)) = &answer.answers[0].outcome else {
        panic!("{answer:?}");
    };
    let fields: Vec<&str> = fault.fields.iter().map(|f| f.field.as_str()).collect();
    assert_eq!(fields, ["purpose", "thread", "grade"]);
}

/// What is wrong with the layout hides nothing of what procedure, torque, angle and thread are.
#[tokio::test]
async fn plans_and_settings_tell_everything() {
    let shop = Shop::open();
    let plan = PlanTighteningRequest {
        procedure: "by feel".into(),
        layout: Layout::Ring.into(),
        position_count: 1,
        row_count: 3,
        torque: "60".into(),
        back_off_degrees: Some(0.0),
        thread: "7/16-21".into(),
        purpose: UNKNOWN,
        ..Default::default()
    };
    let outcome = shop.torque().plan_tightening(plan).await;
    names(
        outcome,
        &[
            "purpose",
            "torque",
            "position_count",
            "row_count",
            "procedure",
            "back_off_degrees",
            "thread",
        ],
    );
    // A torque where none of ours is put in is told beside the layout.
    let makers = PlanTighteningRequest {
        purpose: Purpose::WheelBearing.into(),
        layout: Layout::Grid.into(),
        position_count: 6,
        row_count: 4,
        torque: "60 N·m".into(),
        ..Default::default()
    };
    let outcome = shop.torque().plan_tightening(makers).await;
    names(outcome, &["row_count", "torque"]);

    let setting = SetWrenchRequest {
        torque: "60".into(),
        used_lock_nut: Some(UsedLockNut {
            thread: "7/16-21".into(),
            ..Default::default()
        }),
        ..Default::default()
    };
    let outcome = shop.torque().set_wrench(setting).await;
    names(
        outcome,
        &["torque", "prevailing_torque", "used_lock_nut.thread"],
    );
}
