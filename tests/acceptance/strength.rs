//! Whether a joint holds: long form, weaker partner, lengths, stretch and slots, against published values.

use clampbook_api::v1::{
    AlignCastellatedNutRequest, CheckJointRequest, ComputeLongFormTorqueRequest,
    ComputeStretchRequest, ComputeTorqueRequest, FitLengthRequest, GripLayer, GripStack, Purpose,
    Severity, SlotVerdict, TappedHole,
};
use tonic::Code;

use crate::support::{Refusal, Server, Shop, cli};

fn tighten(thread: &str, grade: &str) -> Option<ComputeTorqueRequest> {
    Some(ComputeTorqueRequest {
        thread: thread.into(),
        grade: grade.into(),
        lubrication: "dry".into(),
        ..Default::default()
    })
}

fn layer(metal: &str, thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: metal.into(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

#[track_caller]
fn near(found: f64, published: f64, tolerance: f64) {
    assert!(
        (found - published).abs() <= tolerance,
        "{found}, published {published}"
    );
}

#[tokio::test]
async fn the_long_form_gives_what_vdi_prints() {
    let shop = Shop::open();
    // VDI 2230 part 1 (2003): M12-8.8 at 0.14, 0.90 of yield: 41.9 kN and 93 N·m, K 0.185.
    let request = ComputeLongFormTorqueRequest {
        thread: "M12".into(),
        grade: "8.8".into(),
        thread_friction: 0.14,
        bearing_friction: 0.14,
        yield_share: Some(0.90),
        ..Default::default()
    };
    let answer = shop.torque().compute_long_form_torque(request).await;
    let answer = answer.expect("an answer").into_inner();
    near(answer.clamp_load_n, 41_900.0, 100.0);
    near(answer.torque_nm, 93.0, 0.5);
    near(answer.equivalent_nut_factor, 0.185, 0.001);
    assert_eq!(answer.governed_by, "combined-yield-of-bolt");
    let parts = answer.helix_torque_nm + answer.thread_torque_nm + answer.bearing_torque_nm;
    near(parts, answer.torque_nm, 1e-9);
}

/// An M10-10.9 into aluminium: FED-STD-H28/2 wants about twice the diameter, the trade as well.
#[tokio::test]
async fn a_blind_hole_too_shallow_is_a_stop_and_a_weak_thread_a_finding() {
    let shop = Shop::open();
    let request = CheckJointRequest {
        torque: tighten("M10", "10.9"),
        stack: Some(GripStack {
            layers: vec![layer("alloy steel", 12.0)],
            tapped: Some(TappedHole {
                metal: "cast aluminium".into(),
                full_thread_mm: 18.0,
                blind: true,
                ..Default::default()
            }),
            bolt_length_mm: Some(35.0),
            ..Default::default()
        }),
        ..Default::default()
    };
    let answer = shop.torque().check_joint(request).await;
    let answer = answer.expect("an answer").into_inner();
    assert_eq!(answer.partners[0].partner, "tapped-thread");
    let first = &answer.checks[0];
    assert_eq!(
        (first.check.as_str(), first.severity()),
        ("bottoming", Severity::Stop)
    );
    let named = |id: &str| answer.checks.iter().any(|check| check.check == id);
    assert!(named("engagement-by-strength") && named("engagement-by-trade"));
    let engagement = answer.engagement.expect("engagement");
    near(engagement.by_trade_mm.expect("by trade"), 20.0, 1e-9);
}

/// ISO 4014, M10x80: body 46.5, full thread from 54 mm.
#[tokio::test]
async fn lengths_come_out_of_the_standard() {
    let shop = Shop::open();
    let request = FitLengthRequest {
        thread: "M10".into(),
        stack: Some(GripStack {
            layers: vec![layer("mild steel", 60.0)],
            bolt_length_mm: Some(80.0),
            ..Default::default()
        }),
        shear_plane_mm: Some(50.0),
    };
    let answer = shop.torque().fit_length(request).await;
    let answer = answer.expect("an answer").into_inner();
    let lengths = answer.lengths.expect("lengths");
    // 60 + 8.4 (ISO 4032) + 1.5 is 69.9: a 70.
    near(lengths.needed_mm, 69.9, 1e-9);
    assert_eq!(lengths.standard_mm, Some(70.0));
    let bolt = lengths.at_hand.expect("the bolt at hand");
    assert_eq!((bolt.body_mm, bolt.grip_length_mm), (46.5, 54.0));
    assert!(bolt.thread_in_shear_plane);
}

fn half_inch_joint(clamped_mm: f64) -> ComputeStretchRequest {
    ComputeStretchRequest {
        torque: tighten("1/2-20", "SAE J429 5"),
        stack: Some(GripStack {
            layers: vec![layer("mild steel", clamped_mm)],
            bolt_length_mm: Some(clamped_mm + 25.0),
            ..Default::default()
        }),
        ..Default::default()
    }
}

#[tokio::test]
async fn a_longer_bolt_gives_more_and_settling_costs_it_less() {
    let shop = Shop::open();
    let stretch = async |mm| {
        let answer = shop.torque().compute_stretch(half_inch_joint(mm)).await;
        answer.expect("an answer").into_inner()
    };
    let (short, long) = (stretch(15.0).await, stretch(60.0).await);
    assert!(long.angle_degrees > short.angle_degrees && long.elongation_mm > short.elongation_mm);
    assert!(long.settling_loss_n < short.settling_loss_n);
    assert!(short.load_share > 0.0 && short.load_share < 1.0);
}

/// AC 43.13-1B 7-40: start at the minimum, go on to a slot, never beyond the maximum; else another washer.
#[tokio::test]
async fn a_slot_is_gone_on_to_or_the_washers_change_or_no_answer_is_given() {
    let shop = Shop::open();
    let align = async |maximum_torque_nm, to_slot_degrees| {
        let request = AlignCastellatedNutRequest {
            joint: Some(half_inch_joint(40.0)),
            minimum_torque_nm: 80.0,
            maximum_torque_nm,
            to_slot_degrees,
            ..Default::default()
        };
        let answer = shop.torque().align_castellated_nut(request).await;
        answer.expect("an answer").into_inner()
    };
    let near_slot = align(Some(110.0), Some(5.0)).await;
    assert_eq!(near_slot.verdict(), SlotVerdict::Advance);
    let at_slot = near_slot.slot_torque_nm.expect("a torque");
    assert!((80.0..=110.0).contains(&at_slot), "{at_slot}");
    // One step of six slots would take this bolt beyond yield: no number.
    assert_eq!(near_slot.load_per_step_n, None);

    let far_slot = align(Some(110.0), Some(25.0)).await;
    assert_eq!(far_slot.verdict(), SlotVerdict::ChangeWasher);
    let thinner = far_slot.thinner.expect("a change");
    // Thinner by all of 25 degrees brings the slot to the minimum torque: 1.27 mm x 25/360.
    near(thinner.to_mm, 1.27 * 25.0 / 360.0, 1e-9);
    assert_eq!(far_slot.slot_torque_nm, None);

    assert_eq!(
        align(Some(110.0), None).await.verdict(),
        SlotVerdict::Measure
    );
    let refused = align(None, Some(5.0)).await;
    assert_eq!(refused.verdict(), SlotVerdict::Refuse);
    assert!(!refused.why.is_empty() && !refused.instead.is_empty());
}

#[tokio::test]
async fn a_refused_purpose_is_refused_here_too() {
    let shop = Shop::open();
    let mut request = half_inch_joint(40.0);
    if let Some(torque) = &mut request.torque {
        torque.purpose = Purpose::TaperedBallStud.into();
    }
    let outcome = shop.torque().compute_stretch(request).await;
    let refusal = Refusal::of(&outcome.expect_err("it is refused"));
    assert_eq!(refusal.code, Code::FailedPrecondition);
}

#[test]
fn the_command_line_shows_the_finding_first() {
    let server = Server::start();
    let told = cli(
        &server,
        &[
            "joint-check",
            "M10",
            "8.8",
            "oiled",
            "--layer",
            "mild steel:12",
            "--tapped",
            "cast aluminium:15",
            "--blind",
            "--bolt-length-mm",
            "35",
        ],
    );
    assert!(
        told.stdout.contains("STOP The bolt reaches"),
        "{}",
        told.stdout
    );
    let told = cli(&server, &["length", "M10", "--layer", "mild steel:32"]);
    assert!(told.stdout.starts_with("45 mm"), "{}", told.stdout);
}
