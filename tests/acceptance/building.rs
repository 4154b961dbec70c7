//! How a joint is built: the weaker partner is a finding on the joint, cleared by what was done about it.

use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::{
    CastellatedNut, GripLayer, GripStack, HoleKind, Joint, JointBuild, JointTarget, RemovalOutcome,
    Severity, SheetFormat, TappedHole,
};

use crate::support::shop::{JointAt, fresh_id, ordinary_joint};
use crate::support::{Refusal, Server, Shop, cli};

/// An M10 of 8.8 through 12 mm of steel into a blind hole in cast aluminium.
fn sump(job: &str) -> Joint {
    Joint {
        hole_kind: HoleKind::TappedBlind.into(),
        target: Some(JointTarget {
            thread: "M10".into(),
            grade: "8.8".into(),
            lubrication: "oiled".into(),
            ..Default::default()
        }),
        build: Some(Box::new(JointBuild {
            stack: Some(GripStack {
                layers: vec![layer("mild steel", 12.0)],
                tapped: Some(TappedHole {
                    metal: "cast aluminium".into(),
                    full_thread_mm: 14.0,
                    blind: true,
                    ..Default::default()
                }),
                bolt_length_mm: Some(21.5),
                ..Default::default()
            }),
            parent_state: "first turn pulled".into(),
            ..Default::default()
        })),
        ..ordinary_joint(job, "sump")
    }
}

fn layer(metal: &str, thickness_mm: f64) -> GripLayer {
    GripLayer {
        metal: metal.into(),
        thickness_mm,
        outer_diameter_mm: None,
    }
}

/// Text without its line ends.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

async fn comes_out(joint: &JointAt<'_>, hole: i32, length: &str) {
    joint
        .takes_out(hole, RemovalOutcome::Normal)
        .and(|removal| {
            removal.length_seen = Some(LengthSeen::Length(length.into()));
            removal.grade = "8.8".into();
        })
        .await;
}

/// FED-STD-H28/2B with the limits of ISO 965-2: 9.5 mm in aluminium of 110 MPa bear 22.4 kN, and 0.75 of proof is 25.2 kN; an
/// insert in its hole of 11.949 mm (ASME B18.29.1, from memory) makes it 26.8 kN.
#[tokio::test]
async fn soft_metal_that_strips_stops_the_joint_until_an_insert_is_in() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let sump_joint = job
        .joint_like("sump", |joint| *joint = sump(&job.name))
        .await;
    for hole in 1..=4 {
        comes_out(&sump_joint, hole, "21.5 mm").await;
    }
    let flags = job.flags().await;
    let strips = flags
        .iter()
        .find(|flag| flag.rule == "thread-strips")
        .expect("a finding on the joint");
    assert_eq!((strips.position, strips.severity()), (0, Severity::Stop));
    assert_eq!(
        strips.cause,
        "the tapped thread (cast aluminium) carries 22.4 kN with 9.5 mm engaged; the target is 25.2 kN"
    );
    assert!(strips.clears.contains("insert"), "{}", strips.clears);

    let sheet = job.sheet().await;
    let told = &sheet.joints[0];
    for row in &told.rows {
        assert!(row.stopped && row.torque_nm.is_none(), "{row:?}");
        assert!(row.torque.starts_with("STOP: the tapped thread"), "{row:?}");
    }
    let build = told.build.as_ref().expect("how it is built");
    let weakest = build.weakest_partner.as_ref().expect("the weakest");
    assert_eq!(weakest.partner, "tapped-thread");
    let engagement = build.engagement.as_ref().expect("engagement");
    assert_eq!(engagement.available_mm, Some(9.5));
    assert_eq!(engagement.by_trade_mm, Some(20.0));
    assert_eq!(build.lengths.as_ref().expect("lengths").needed_mm, 32.0);

    let mut repaired = sump(&job.name);
    repaired.name = sump_joint.name.clone();
    let build = repaired.build.as_mut().expect("a build");
    build.parent_state = String::new();
    let stack = build.stack.as_mut().expect("a stack");
    stack.tapped.as_mut().expect("tapped").insert = true;
    let added = job.entries().await;
    let added = added.iter().find(|entry| entry.kind == "joint-added");
    let entry = added.expect("the joint was added").name.clone();
    let answer = job
        .corrects(&entry, Correction::Joint(repaired))
        .await
        .await;
    assert!(
        answer
            .flags
            .iter()
            .all(|flag| flag.severity() != Severity::Stop),
        "{:?}",
        answer.flags
    );
    let joint = sump_joint.look().await;
    let stack = joint.build.expect("a build").stack.expect("a stack");
    assert!(stack.tapped.expect("tapped").insert);

    let sheet = job.sheet().await;
    for row in &sheet.joints[0].rows {
        assert!(!row.stopped && row.torque_nm.is_some(), "{row:?}");
        assert!(row.torque.contains("COMPUTED, NOT MAKER'S"), "{row:?}");
    }
    let text = unwrapped(&job.print(SheetFormat::Text).await);
    for line in [
        "Length 21.5 mm (wants at least 32 mm; bottoms beyond 24.5 mm): engages 9.5 mm;",
        "Tapped into cast aluminium: helical insert.",
        "Weakest: the tapped thread carries 26.8 kN; the target is 25.2 kN.",
        "FED-STD-H28/2",
    ] {
        assert!(text.contains(line), "{line}\n{text}");
    }
    assert!(
        text.contains("(thread-strips)"),
        "with the scatter it may still: {text}"
    );
    let csv = job.print(SheetFormat::Csv).await;
    assert!(
        csv.lines()
            .all(|line| line.starts_with("step,") || line.contains(",32,9.5,tapped-thread,")),
        "{csv}"
    );
}

#[tokio::test]
async fn a_long_bolt_that_bottoms_is_stopped_at_its_own_hole() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let mut described = sump(&job.name);
    let stack = described.build.as_mut().and_then(|b| b.stack.as_mut());
    let stack = stack.expect("a stack");
    stack.bolt_length_mm = Some(32.0);
    stack.tapped.as_mut().expect("tapped").full_thread_mm = 24.0;
    let plate = job.joint_like("sump", |joint| *joint = described).await;
    for (hole, length) in [(1, "32 mm"), (2, "32 mm"), (3, "40 mm"), (4, "32 mm")] {
        comes_out(&plate, hole, length).await;
    }
    let stops: Vec<(String, i32)> = job
        .flags()
        .await
        .into_iter()
        .filter(|flag| flag.severity() == Severity::Stop)
        .map(|flag| (flag.rule, flag.position))
        .collect();
    assert_eq!(stops, [("bottoms".to_owned(), 3)]);
}

#[test]
fn the_same_through_the_command_line() {
    let server = Server::start();
    let described = |extra: &[&'static str]| {
        let mut words = vec![
            "--assembly",
            "hub",
            "--name",
            "Sump",
            "--layout",
            "ring",
            "--positions",
            "4",
            "--class",
            "B",
            "--hole-kind",
            "tapped-blind",
            "--thread",
            "M10",
            "--grade",
            "8.8",
            "--lubrication",
            "oiled",
            "--layer",
            "mild steel:12",
            "--tapped",
            "cast aluminium:14",
            "--blind",
            "--bolt-length-mm",
            "21.5",
        ];
        words.extend(extra);
        words
    };
    cli(
        &server,
        &["jobs", "create", "tractor", "--name", "Orchard tractor"],
    )
    .output();
    cli(
        &server,
        &["assemblies", "add", "tractor", "hub", "--name", "Hub"],
    )
    .output();
    let add = [vec!["joints", "add", "tractor", "sump"], described(&[])].concat();
    let shown = cli(&server, &add);
    assert!(
        unwrapped(shown.output()).contains(
            "mild steel 12 mm; tapped cast aluminium; full thread 14 mm; blind; bolt 21.5 mm"
        ),
        "{shown:#?}"
    );
    cli(&server, &["removal", "alike", "tractor", "sump", "normal"]).output();
    let stopped = cli(&server, &["sheet", "tractor"]);
    assert!(
        stopped.output().contains("STOP: the tapped thread"),
        "{stopped:#?}"
    );
    let explained = cli(&server, &["flags", "explain", "thread-strips"]);
    assert!(
        explained.output().contains("FED-STD-H28/2B"),
        "{explained:#?}"
    );

    let correct = [
        vec!["correct", "joint", "tractor", "3", "sump"],
        described(&["--insert", "--reason", "insert fitted"]),
    ]
    .concat();
    cli(&server, &correct).output();
    let sheet = cli(&server, &["sheet", "tractor"]);
    assert!(
        !sheet.output().contains("STOP: the tapped thread"),
        "{sheet:#?}"
    );
    assert!(
        sheet.output().contains("COMPUTED, NOT MAKER'S"),
        "{sheet:#?}"
    );
}

#[tokio::test]
async fn every_fault_of_a_build_is_named_beside_those_of_the_joint() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let mut wrong = sump(&job.name);
    wrong.display_name = String::new();
    wrong.lock = "x".repeat(201);
    let build = wrong.build.as_mut().expect("a build");
    build.fit = 9_999;
    build.castellated_nut = Some(CastellatedNut::default());
    let stack = build.stack.as_mut().expect("a stack");
    stack.layers[0].thickness_mm = f64::NAN;
    stack.tapped.as_mut().expect("tapped").metal = "butter".into();
    let request = clampbook_api::v1::CreateJointRequest {
        parent: job.name.clone(),
        joint_id: "sump".into(),
        joint: Some(wrong),
        request_id: fresh_id(),
        said_time: None,
    };
    let status = shop
        .jobs()
        .create_joint(request)
        .await
        .expect_err("it is wrong");
    Refusal::of(&status).names(&[
        "joint.display_name",
        "joint.lock",
        "joint.build.fit",
        "joint.build.castellated_nut",
        "joint.build.stack.layers[0].thickness_mm",
        "joint.build.stack.tapped.metal",
    ]);
}
