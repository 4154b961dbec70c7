//! At the bench: a published torque for another lubricant, what the wrench is set to, the steps, the picture, the table.

use clampbook_api::reason;
use clampbook_api::v1::{
    Adapter, Calibration, Layout, PlanTighteningRequest, Purpose, RestateTorqueRequest,
    SetWrenchRequest, Severity, ShownTorque, StepKind, TorqueUnit, UnitCheck, UsedLockNut, Wrench,
};
use tonic::Code;

use crate::support::cli::cli_fed;
use crate::support::{Refusal, Server, Shop, cli};

const FOOT: f64 = 1.355_817_948;

fn published(torque: &str) -> RestateTorqueRequest {
    RestateTorqueRequest {
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        torque: torque.into(),
        published_lubrication: "dry".into(),
        lubrication: "oiled".into(),
        flat_seats: true,
        ..Default::default()
    }
}

fn wrench(label: &str, scale: &str, step: &str, calibration: Calibration) -> Wrench {
    Wrench {
        label: label.into(),
        maximum_torque: scale.into(),
        graduation: step.into(),
        calibration: calibration.into(),
        ..Default::default()
    }
}

#[tokio::test]
async fn a_published_torque_is_restated_for_another_lubricant() {
    let shop = Shop::open();
    let answer = shop.torque().restate_torque(published("60 lbf·ft")).await;
    let answer = answer.expect("an answer").into_inner();
    assert_eq!(answer.unit_check(), UnitCheck::Believable);
    // K 0.18 for 0.20: 54 lbf ft.
    let restated = answer.restated.expect("restated");
    assert!((restated.torque_nm / FOOT - 54.0).abs() < 0.01);
    assert!(!answer.sources.is_empty() && !answer.assumptions.is_empty());
    assert!(
        answer
            .cautions
            .iter()
            .any(|c| c.contains("published value takes precedence"))
    );
}

#[tokio::test]
async fn a_doubtful_unit_is_a_question_and_not_a_number() {
    let shop = Shop::open();
    let answer = shop.torque().restate_torque(published("60 lbf·in")).await;
    let answer = answer.expect("an answer").into_inner();
    assert_eq!(answer.unit_check(), UnitCheck::Ask);
    assert_eq!(answer.restated, None);
    let feet = answer
        .readings
        .iter()
        .find(|r| r.unit() == TorqueUnit::PoundForceFoot);
    assert!(feet.is_some_and(|r| (r.factor - 12.0).abs() < 1e-9));
    let confirmed = RestateTorqueRequest {
        unit_confirmed: true,
        ..published("60 lbf·in")
    };
    let answer = shop.torque().restate_torque(confirmed).await;
    let answer = answer.expect("an answer").into_inner();
    assert_eq!(answer.unit_check(), UnitCheck::Confirmed);
    assert!(answer.restated.is_some());
}

#[tokio::test]
async fn wheel_nuts_and_cone_seats_are_never_restated() {
    let shop = Shop::open();
    let wheel = RestateTorqueRequest {
        purpose: Purpose::WheelNut.into(),
        ..published("60 lbf·ft")
    };
    let cone = RestateTorqueRequest {
        flat_seats: false,
        ..published("60 lbf·ft")
    };
    for request in [wheel, cone] {
        let refused = shop.torque().restate_torque(request).await;
        Refusal::of(&refused.expect_err("refused"))
            .is(Code::FailedPrecondition, reason::PURPOSE_REFUSED);
    }
    let unknown = RestateTorqueRequest {
        thread: "7/16-21".into(),
        published_lubrication: String::new(),
        ..published("60 lbf·ft")
    };
    let refused = shop.torque().restate_torque(unknown).await;
    Refusal::of(&refused.expect_err("refused")).names(&["thread", "published_lubrication"]);
}

#[tokio::test]
async fn a_setting_counts_run_on_then_adapter_then_the_wrench() {
    let shop = Shop::open();
    let request = SetWrenchRequest {
        torque: "30 lbf·ft".into(),
        prevailing_torque: "5 lbf·ft".into(),
        prevailing_torque_excluded: true,
        adapter: Some(Adapter {
            wrench_length: "12 in".into(),
            adapter_length: "3 in".into(),
            angle_degrees: 0.0,
        }),
        wrenches: vec![
            wrench("long", "250 lbf·ft", "5 lbf·ft", Calibration::InDate),
            wrench("bad", "50 lbf·ft", "0.5 lbf·ft", Calibration::KnownBad),
            wrench("late", "50 lbf·ft", "0.5 lbf·ft", Calibration::Overdue),
        ],
        ..Default::default()
    };
    let set = shop.torque().set_wrench(request.clone()).await;
    let set = set.expect("an answer").into_inner();
    assert!((set.fastener_torque_nm / FOOT - 35.0).abs() < 1e-6);
    assert!((set.setting_nm / FOOT - 28.0).abs() < 1e-6);
    // 28 is below a fifth of 250; of the other two one is known to be bad.
    assert_eq!(set.chosen, "late");
    let objections = |index: usize| -> Vec<&str> {
        let fit = &set.fits[index];
        fit.objections
            .iter()
            .map(|o| o.objection.as_str())
            .collect()
    };
    assert!(objections(0).contains(&"wrench-below-a-fifth"));
    assert_eq!(objections(1), ["wrench-known-bad"]);
    assert_eq!(objections(2), ["wrench-overdue"]);
    assert_eq!(set.fits[1].set_torque_nm, None);
    assert_eq!(set.fits[2].deviation_share, 0.04);
    // In the wrench's own unit and on one of its marks; at the nut in the same unit.
    let read = |shown: Option<ShownTorque>| shown.map(|s| (s.value, s.unit(), s.text));
    let feet = |value: f64, text: &str| Some((value, TorqueUnit::PoundForceFoot, text.to_owned()));
    assert_eq!(read(set.set), feet(28.0, "28.0 lbf·ft"));
    assert_eq!(read(set.at_fastener), feet(35.0, "35 lbf·ft (47.5 N·m)"));
    assert_eq!(set.fits[1].set, None);

    let kept_out = SetWrenchRequest {
        prevailing_torque_excluded: false,
        ..request
    };
    let set = shop.torque().set_wrench(kept_out).await;
    let set = set.expect("an answer").into_inner();
    assert!((set.setting_nm / FOOT - 24.0).abs() < 1e-6);
    assert!(set.cautions.iter().any(|c| c.contains("was not added")));
}

#[tokio::test]
async fn a_setting_is_read_in_the_unit_of_the_wrench_and_never_as_two_equal_numbers() {
    let shop = Shop::open();
    // 60 lbf ft are 81.3 N m; a graduation of 2.5 makes it 82.5.
    for (torque, scale, step, set, at_fastener) in [
        (
            "60 lbf·ft",
            "150 lbf·ft",
            "1 lbf·ft",
            Some("60 lbf·ft"),
            None,
        ),
        (
            "60.4 lbf·ft",
            "150 lbf·ft",
            "0.25 lbf·ft",
            Some("60.50 lbf·ft"),
            Some("60.4 lbf·ft (81.9 N·m)"),
        ),
        (
            "60 lbf·ft",
            "200 N·m",
            "2.5 N·m",
            Some("82.5 N·m"),
            Some("81.3 N·m (60 lbf·ft)"),
        ),
        (
            "90 lbf·in",
            "150 lbf·in",
            "1 lbf·in",
            Some("90 lbf·in (10.2 N·m)"),
            None,
        ),
        ("60 lbf·ft", "", "", Some("60 lbf·ft (81.3 N·m)"), None),
        (
            "60 lbf·ft",
            "50 N·m",
            "1 N·m",
            None,
            Some("60 lbf·ft (81.3 N·m)"),
        ),
    ] {
        let wrenches = match scale {
            "" => Vec::new(),
            scale => vec![wrench("A", scale, step, Calibration::InDate)],
        };
        let request = SetWrenchRequest {
            torque: torque.into(),
            wrenches,
            ..Default::default()
        };
        let answer = shop.torque().set_wrench(request).await;
        let answer = answer.expect("an answer").into_inner();
        let read = |shown: &Option<ShownTorque>| shown.as_ref().map(|s| s.text.clone());
        assert_eq!(read(&answer.set).as_deref(), set, "{torque} on {scale}");
        assert_eq!(
            read(&answer.at_fastener).as_deref(),
            at_fastener,
            "{torque} on {scale}"
        );
    }
}

/// FAA AC 43.13-1B, table 7-2: 18 lbf in at 5/8-18.
#[tokio::test]
async fn a_used_lock_nut_that_hardly_grips_is_replaced() {
    let shop = Shop::open();
    let request = |prevailing_torque: &str| SetWrenchRequest {
        torque: "100 lbf·ft".into(),
        prevailing_torque: prevailing_torque.into(),
        used_lock_nut: Some(UsedLockNut {
            thread: "5/8-18".into(),
            kind: 0,
        }),
        ..Default::default()
    };
    let judged = async |prevailing_torque: &str| {
        let set = shop.torque().set_wrench(request(prevailing_torque)).await;
        set.expect("an answer").into_inner().lock_nut
    };
    let loose = judged("17 lbf·in").await.expect("an objection");
    assert_eq!(loose.severity(), Severity::Stop);
    assert_eq!(judged("40 lbf·in").await, None);
    let unmeasured = shop.torque().set_wrench(request("")).await;
    Refusal::of(&unmeasured.expect_err("refused")).names(&["prevailing_torque"]);
}

#[tokio::test]
async fn all_that_is_wrong_with_a_setting_is_said_at_once() {
    let shop = Shop::open();
    let request = SetWrenchRequest {
        torque: "60".into(),
        adapter: Some(Adapter {
            wrench_length: "12 in".into(),
            adapter_length: "13 in".into(),
            angle_degrees: f64::NAN,
        }),
        wrenches: vec![
            wrench("a", "", "1 N·m", Calibration::InDate),
            wrench("a", "10 N·m", "20 N·m", Calibration::InDate),
        ],
        ..Default::default()
    };
    let refused = shop.torque().set_wrench(request).await;
    Refusal::of(&refused.expect_err("refused")).names(&[
        "torque",
        "adapter.angle_degrees",
        "wrenches[1]",
        "wrenches[0].maximum_torque",
        "wrenches[1].graduation",
    ]);
}

#[tokio::test]
async fn a_gasketed_ring_gets_its_passes_and_orders() {
    let shop = Shop::open();
    let request = PlanTighteningRequest {
        layout: Layout::Ring.into(),
        position_count: 8,
        gasketed: true,
        torque: "90 N·m".into(),
        ..Default::default()
    };
    let plan = shop.torque().plan_tightening(request).await;
    let plan = plan.expect("a plan").into_inner();
    assert_eq!(plan.procedure, "ring-gasketed");
    let passes: Vec<_> = plan
        .steps
        .iter()
        .filter(|s| s.kind() == StepKind::TorqueTo)
        .collect();
    let torques: Vec<_> = passes.iter().filter_map(|s| s.torque_nm).collect();
    assert_eq!(torques, [27.0, 62.999_999_999_999_99, 90.0, 90.0]);
    assert_eq!(passes[0].positions, [1, 5, 3, 7, 2, 6, 4, 8]);
    assert_eq!(passes[3].positions, [1, 2, 3, 4, 5, 6, 7, 8]);
    for step in &plan.steps {
        assert!(
            !step.sources.is_empty() || step.basis() == clampbook_api::v1::Basis::CommonPractice
        );
    }
}

#[tokio::test]
async fn bearings_take_no_number_and_wheel_nuts_only_a_published_one() {
    let shop = Shop::open();
    let request = |purpose: Purpose, torque_published| PlanTighteningRequest {
        purpose: purpose.into(),
        layout: Layout::Ring.into(),
        position_count: 5,
        torque: "80 lbf·ft".into(),
        torque_published,
        ..Default::default()
    };
    for (purpose, published, taken) in [
        (Purpose::WheelBearing, true, false),
        (Purpose::WheelNut, false, false),
        (Purpose::WheelNut, true, true),
    ] {
        let outcome = shop
            .torque()
            .plan_tightening(request(purpose, published))
            .await;
        match outcome {
            Ok(plan) => {
                assert!(taken, "{purpose:?}");
                assert_eq!(plan.into_inner().procedure, "wheel-nuts");
            }
            Err(status) => {
                assert!(!taken, "{status:?}");
                Refusal::of(&status).is(Code::FailedPrecondition, reason::PURPOSE_REFUSED);
            }
        }
    }
}

#[tokio::test]
async fn the_command_line_draws_plans_and_answers_tables() {
    let server = Server::start();
    let folder = tempfile::tempdir().expect("a folder");
    let picture = folder.path().join("hub.svg");
    let path = picture.to_str().expect("a name");
    let args = ["torque", "7/16-20", "SAE J429 5", "dry", "--chart", path];
    assert!(cli(&server, &args).output().starts_with("55.2 lbf·ft"));
    let svg = std::fs::read_to_string(&picture).expect("a picture");
    assert!(svg.starts_with("<svg ") && svg.contains("Clamp load, lbf"));

    let link = folder.path().join("link.svg");
    std::os::unix::fs::symlink(folder.path().join("precious"), &link).expect("a link");
    let twice = folder.path().join("twice.svg");
    std::fs::hard_link(&picture, &twice).expect("a link");
    for linked in [link, twice] {
        let path = linked.to_str().expect("a name");
        let told = cli(
            &server,
            &["torque", "7/16-20", "SAE J429 8", "dry", "--chart", path],
        );
        assert!(told.stderr.contains("it is a link"), "{}", told.stderr);
    }
    assert!(!folder.path().join("precious").exists());
    assert_eq!(std::fs::read_to_string(&picture).expect("as it was"), svg);

    let args = ["plan", "loosening", "--layout", "line", "--positions", "5"];
    assert!(cli(&server, &args).output().contains("Order 5 1 4 2 3."));

    let mut table = "thread,grade,lubrication,nut_factor\n".to_owned();
    for i in 0..600 {
        table.push_str(match i % 300 {
            7 => "7/16-21,SAE J429 5,dry,\n",
            8 => "M10,8.8,dry,plenty\n",
            _ => "7/16-20,SAE J429 5,dry,\n",
        });
    }
    let told = cli_fed(&server, &["torque", "--csv", "-"], table.as_bytes());
    told.ends_with(2);
    assert!(
        told.stderr.contains("4 of 600 lines have no answer"),
        "{}",
        told.stderr
    );
    let lines: Vec<&str> = told.stdout.lines().collect();
    assert_eq!(lines.len(), 601);
    for (index, line) in lines[1..].iter().enumerate() {
        assert!(line.starts_with(&format!("{},", index + 2)), "{line}");
        match index % 300 {
            7 => assert!(line.contains("thread: no thread"), "{line}"),
            8 => assert!(line.contains("is not a number"), "{line}"),
            _ => assert!(line.contains(",74.8 N·m (55.2 lbf·ft),"), "{line}"),
        }
    }
}
