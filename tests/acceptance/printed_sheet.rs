//! The reassembly sheet: what is read before anything else, hole by hole in the order it is done, with nothing guessed.

use clampbook_api::v1::fitted_piece::What;
use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::{
    Criticality, DecisionKind, FittedPiece, GetSheetRequest, HeatColour, HoleCheck, HoleKind,
    Layout, Position, PositionState, Purpose, RemovalMethod, RemovalOutcome, RenderSheetRequest,
    Severity, SheetFormat, SmallPartKind, TighteningStep, TorqueUnit,
};

use crate::support::{JobAt, JointAt, Shop, cli};

/// A job with all that a sheet can show: stops, an odd one that is explained, a refused purpose, and work half done.
async fn half_done(shop: &Shop) -> JobAt<'_> {
    let job = shop.job("tractor").await;
    let cover = job
        .joint_like("cover", |joint| {
            joint.criticality = Criticality::C.into();
            joint.positions = vec![Position::default(); 6];
            if let Some(target) = &mut joint.target {
                target.thread = "1/4-20 UNC".into();
                target.grade = "SAE J429 2".into();
            }
        })
        .await;
    for hole in 1..=6 {
        cover
            .takes_out(hole, RemovalOutcome::Normal)
            .and(|removal| {
                removal.grade = "SAE J429 2".into();
                removal.kept_in = "tin 1".into();
            })
            .await;
    }
    let nut = job
        .joint_like("bearing-nut", |joint| {
            joint.layout = Layout::Single.into();
            joint.positions = vec![Position::default()];
            joint.hole_kind = HoleKind::Stud.into();
            joint.purpose = Purpose::WheelBearing.into();
            joint.target = None;
            joint.lock = "split pin 5/32 in, new".into();
        })
        .await;
    nut.takes_out(1, RemovalOutcome::Normal).await;
    let plate = job
        .joint_like("plate", |joint| {
            joint.criticality = Criticality::A.into();
            joint.computed_torque_approver = "Ida".into();
            joint.preparation = "thread clean, one drop of oil".into();
            joint.lock = "tab plate, new".into();
            for (position, label) in joint.positions.iter_mut().zip([
                "upper front",
                "upper rear",
                "lower rear",
                "lower front",
            ]) {
                position.label = label.into();
            }
        })
        .await;
    strip_plate(&plate).await;
    job
}

async fn strip_plate(plate: &JointAt<'_>) {
    plate.takes_out(1, RemovalOutcome::Normal).await;
    plate
        .takes_out(2, RemovalOutcome::Seized)
        .and(|removal| {
            removal.methods = vec![RemovalMethod::Heat.into()];
            removal.heat_colour = HeatColour::Red.into();
        })
        .await;
    plate
        .takes_out(3, RemovalOutcome::Rounded)
        .and(|removal| removal.length_seen = Some(LengthSeen::Length("1-3/4 in".into())))
        .await;
    plate.takes_out(4, RemovalOutcome::Normal).await;
    plate
        .decides(3, DecisionKind::Replace)
        .await
        .and(|decision| {
            decision.hole_check = HoleCheck::RunsInByHand.into();
            decision.citation = "parts book, plate 14: bracket under this bolt".into();
            if let Some(part) = &mut decision.replacement {
                part.length = "1-3/4 in".into();
            }
        })
        .await;
    plate
        .puts_back(1)
        .and(|refit| refit.fitted_pieces = vec![new_lock()])
        .await;
    plate.tightens(&[1], TighteningStep::Final).await;
    plate.puts_back(4).await;
    plate.tightens(&[4], TighteningStep::Snug).await;
}

fn new_lock() -> FittedPiece {
    FittedPiece {
        what: Some(What::SmallPart(SmallPartKind::Lock.into())),
        count: 1,
        new: true,
        text: String::new(),
    }
}

/// What changes from day to day, taken out.
fn timeless(text: &str) -> String {
    let (before, foot) = text.rsplit_once("Made ").expect("a foot");
    let (_, rest) = foot.split_once(" from entry ").expect("a time");
    let (entry, rest) = rest.split_once("chain ").expect("a chain head");
    assert!(rest[..12].bytes().all(|b| b.is_ascii_hexdigit()), "{rest}");
    let (_, rest) = rest[12..].split_once("catalogue ").expect("an edition");
    let end = rest.split_once('.').map_or("", |_| "");
    format!("{before}Made TIME from entry {entry}chain HASH; catalogue EDITION.{end}\n")
}

#[tokio::test]
async fn the_sheet_in_text_reads_as_it_should() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    let text = job.print(SheetFormat::Text).await;
    insta::assert_snapshot!("sheet.txt", timeless(&text));
}

#[tokio::test]
async fn the_sheet_as_a_table_reads_as_it_should() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    insta::assert_snapshot!("sheet.csv", job.print(SheetFormat::Csv).await);
}

#[tokio::test]
async fn a_line_fits_the_paper() {
    let shop = Shop::open();
    let text = half_done(&shop).await.print(SheetFormat::Text).await;
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
        assert_eq!(line, line.trim_end());
    }
}

#[tokio::test]
async fn joints_come_in_reverse_order_of_removal_and_holes_in_tightening_order() {
    let shop = Shop::open();
    let sheet = half_done(&shop).await.sheet().await;
    let joints: Vec<&str> = sheet
        .joints
        .iter()
        .map(|j| j.joint.rsplit('/').next().unwrap_or(""))
        .collect();
    assert_eq!(joints, ["plate", "bearing-nut", "cover"]);
    let steps: Vec<i32> = sheet.joints.iter().map(|joint| joint.step).collect();
    assert_eq!(steps, [1, 2, 3]);
    let order = |joint: usize| {
        sheet.joints[joint]
            .rows
            .iter()
            .map(|row| row.position)
            .collect::<Vec<_>>()
    };
    assert_eq!(order(0), [1, 3, 2, 4], "crosswise");
    assert_eq!(order(2), [1, 4, 2, 5, 3, 6], "a star");
}

#[tokio::test]
async fn a_stopped_row_carries_the_reason_and_no_torque() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    let sheet = job.sheet().await;
    assert_eq!(
        sheet
            .stops
            .iter()
            .map(|flag| flag.rule.as_str())
            .collect::<Vec<_>>(),
        ["forced-out", "heated"]
    );
    let plate = &sheet.joints[0];
    for row in &plate.rows {
        assert_eq!(row.stopped, row.position == 2);
        assert_eq!(row.torque_nm.is_none(), row.stopped);
        assert_eq!(
            row.torque.starts_with("STOP"),
            row.stopped,
            "{}",
            row.torque
        );
        assert_eq!(row.severity() == Severity::Stop, row.stopped);
        if row.stopped {
            assert!(!row.torque.contains("N·m"), "{}", row.torque);
        }
    }
    let table = job.print(SheetFormat::Csv).await;
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    let stopped: Vec<_> = rows
        .iter()
        .filter(|row| row[9].starts_with("STOP"))
        .collect();
    assert_eq!(stopped.len(), 1);
    assert_eq!(&stopped[0][10], "", "no number either");
}

#[tokio::test]
async fn what_stops_the_job_stands_above_every_joint() {
    let shop = Shop::open();
    let text = half_done(&shop).await.print(SheetFormat::Text).await;
    let at = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("{words} is not on the sheet"))
    };
    assert!(at("NOT TORQUED") < at("WHAT STOPS THE JOB"));
    assert!(at("WHAT STOPS THE JOB") < at("STEP 1"));
    assert!(at("Machine on stands") < at("STEP 1"));
}

#[tokio::test]
async fn every_computed_number_says_that_it_is_computed() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    for unit in [
        TorqueUnit::NewtonMetre,
        TorqueUnit::PoundForceFoot,
        TorqueUnit::PoundForceInch,
        TorqueUnit::KilogramForceMetre,
    ] {
        let request = GetSheetRequest {
            name: job.name.clone(),
            torque_unit: unit.into(),
        };
        let sheet = shop
            .sheets()
            .get_sheet(request)
            .await
            .expect("a sheet")
            .into_inner();
        for joint in &sheet.joints {
            for pass in &joint.passes {
                assert!(pass.text.contains("COMPUTED, NOT MAKER'S"), "{pass:?}");
                assert!(pass.torque_nm.is_some() && !pass.published, "{pass:?}");
            }
            for row in joint.rows.iter().filter(|row| row.torque_nm.is_some()) {
                assert!(
                    row.torque.ends_with(" COMPUTED, NOT MAKER'S"),
                    "{}",
                    row.torque
                );
                assert!(
                    row.torque.starts_with(|c: char| c.is_ascii_digit()),
                    "{}",
                    row.torque
                );
            }
        }
    }
    let text = job.print(SheetFormat::Text).await;
    for forbidden in ["OK", "safe", "approved", "Approved"] {
        assert!(!text.contains(forbidden), "{forbidden}");
    }
}

#[tokio::test]
async fn inches_stand_in_brackets_where_a_slip_would_break_the_bolt() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    let request = GetSheetRequest {
        name: job.name.clone(),
        torque_unit: TorqueUnit::PoundForceFoot.into(),
    };
    let sheet = shop
        .sheets()
        .get_sheet(request)
        .await
        .expect("a sheet")
        .into_inner();
    // 7/16-20 grade 5 oiled: 0.18 x 0.4375 in x 0.75 x 85 ksi x 0.1187 sq in = 49.7 lbf ft.
    let plate = &sheet.joints[0].rows[0];
    assert!(
        plate.torque.starts_with("49.7 lbf·ft (67.3 N·m)"),
        "{}",
        plate.torque
    );
    // 1/4-20 grade 2 oiled: 0.18 x 0.25 in x 0.75 x 55 ksi x 0.0318 sq in = 4.92 lbf ft.
    let cover = &sheet.joints[2].rows[0];
    assert!(
        cover.torque.starts_with("4.92 lbf·ft (59.1 lbf·in)"),
        "{}",
        cover.torque
    );
}

#[tokio::test]
async fn a_joint_with_a_refused_purpose_says_what_to_do_instead_of_a_number() {
    let shop = Shop::open();
    let sheet = half_done(&shop).await.sheet().await;
    let row = &sheet.joints[1].rows[0];
    assert_eq!(row.torque_nm, None);
    assert!(
        row.torque.starts_with("NO COMPUTED TORQUE"),
        "{}",
        row.torque
    );
    assert_eq!(row.lock, "split pin 5/32 in, new");
    assert_eq!(sheet.joints[1].passes, []);
}

#[tokio::test]
async fn the_long_one_is_marked_at_its_hole_even_when_it_is_explained() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    let sheet = job.sheet().await;
    let rows = &sheet.joints[0].rows;
    let odd: Vec<i32> = rows
        .iter()
        .filter(|row| row.odd != 0)
        .map(|row| row.position)
        .collect();
    assert_eq!(odd, [3]);
    let long = rows.iter().find(|row| row.position == 3).expect("hole 3");
    assert!(long.fastener.contains("1-3/4 in"), "{}", long.fastener);
    assert!(long.reuse.contains("new"), "{}", long.reuse);
    assert!(
        job.print(SheetFormat::Text)
            .await
            .contains("LONGER THAN ITS NEIGHBOURS")
    );
}

#[tokio::test]
async fn the_sheet_says_how_far_the_work_is() {
    let shop = Shop::open();
    let sheet = half_done(&shop).await.sheet().await;
    let count = sheet.position_count.expect("a count");
    assert_eq!(
        (count.final_count, count.loose_count, count.empty_count),
        (1, 1, 9)
    );
    let states: Vec<PositionState> = sheet.joints[0].rows.iter().map(|row| row.state()).collect();
    assert_eq!(
        states,
        [
            PositionState::Final,
            PositionState::Empty,
            PositionState::Empty,
            PositionState::Snug
        ]
    );
    assert_eq!(sheet.joints[0].rows[0].label, "upper front");
}

#[tokio::test]
async fn a_changed_record_makes_an_older_sheet_detectable() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    let (first, again) = (job.sheet().await, job.sheet().await);
    assert_eq!(
        first.chain_head, again.chain_head,
        "reading changes nothing"
    );
    assert_eq!(
        first.chain_head,
        job.entries().await.last().expect("entries").hash
    );
    let request = clampbook_api::v1::LogRefitRequest {
        refit: Some(clampbook_api::v1::Refit {
            joint: format!("{}/joints/cover", job.name),
            position: 1,
            fitted_part: clampbook_api::v1::FittedPart::Original.into(),
            ..Default::default()
        }),
        ..Default::default()
    };
    shop.jobs().log_refit(request).await.expect("taken");
    let later = job.sheet().await;
    assert_ne!(first.chain_head, later.chain_head);
    assert_eq!(later.entry_count, first.entry_count + 1);
}

#[tokio::test]
async fn one_assembly_has_a_sheet_of_its_own() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("other", "hub").await;
    let here = job.joint("here").await;
    let there = job
        .joint_like("there", |joint| {
            joint.assembly = format!("{}/assemblies/other", job.name)
        })
        .await;
    here.takes_out(1, RemovalOutcome::Normal).await;
    there.takes_out(1, RemovalOutcome::Seized).await;
    let request = GetSheetRequest {
        name: format!("{}/assemblies/hub", job.name),
        torque_unit: 0,
    };
    let sheet = shop
        .sheets()
        .get_sheet(request.clone())
        .await
        .expect("a sheet")
        .into_inner();
    assert_eq!(sheet.name, request.name);
    assert_eq!((sheet.joints.len(), sheet.stops.len()), (1, 0));
    assert_eq!(sheet.joints[0].joint, here.name);
}

#[tokio::test]
async fn a_job_that_is_still_whole_has_an_empty_sheet() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    job.joint("plate").await;
    let sheet = job.sheet().await;
    assert_eq!((sheet.joints.len(), sheet.stops.len()), (0, 0));
    assert!(
        job.print(SheetFormat::Text)
            .await
            .contains("Nothing has been taken apart yet.")
    );
}

#[tokio::test]
async fn what_people_wrote_stays_text_in_a_table_program() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let joint = job
        .joint_like("plate", |joint| {
            joint.lock = "=cmd|' /C calc'!A0".into();
            joint.positions[0].label = "+1, \"quoted\"".into();
        })
        .await;
    joint.takes_out(1, RemovalOutcome::Normal).await;
    let table = job.print(SheetFormat::Csv).await;
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let row = reader.records().next().expect("a row").expect("a row");
    assert_eq!(&row[4], "'+1, \"quoted\"");
    assert_eq!(&row[11], "'=cmd|' /C calc'!A0");
}

#[tokio::test]
async fn the_same_sheet_comes_by_wire_by_table_and_by_command_line() {
    let shop = Shop::open();
    let job = half_done(&shop).await;
    let server = &shop.server;
    let text = cli(server, &["sheet", "tractor"]);
    assert_eq!(
        timeless(text.output()),
        timeless(&job.print(SheetFormat::Text).await)
    );
    let table = cli(server, &["sheet", "tractor", "--format", "csv"]);
    assert_eq!(table.output(), job.print(SheetFormat::Csv).await);
    let json = cli(server, &["sheet", "tractor", "--format", "json"]).json();
    let sheet = job.sheet().await;
    assert_eq!(json["chain_head"], sheet.chain_head);
    assert_eq!(json["joints"].as_array().map(Vec::len), Some(3));
    let rows = json["joints"][0]["rows"].as_array().expect("rows");
    for (shown, row) in rows.iter().zip(&sheet.joints[0].rows) {
        assert_eq!(shown["torque"], row.torque);
        assert_eq!(
            shown.get("torque_nm").and_then(serde_json::Value::as_f64),
            row.torque_nm
        );
    }
}

#[tokio::test]
async fn media_types_say_what_they_are() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    for (format, media_type) in [
        (SheetFormat::Text, "text/plain; charset=utf-8"),
        (SheetFormat::Csv, "text/csv; charset=utf-8; header=present"),
    ] {
        let request = RenderSheetRequest {
            name: job.name.clone(),
            torque_unit: 0,
            format: format.into(),
        };
        let answer = shop
            .sheets()
            .render_sheet(request)
            .await
            .expect("a sheet")
            .into_inner();
        assert_eq!(answer.media_type, media_type);
    }
}
