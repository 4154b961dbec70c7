//! One number is one text: on the sheet, in a flag, in an answer, on the command line and in the picture.
//!
//! By hand, 7/16-20 of SAE J429 5, oiled: proof load 85 ksi x 0.1187 sq in (ASME B1.1) is 10,090 lbf; 0.75 of it is 7,567 lbf,
//! and 0.18 x 0.4375 in x 7,567 lbf / 12 is 49.7 lbf·ft, times 1.355818 (NIST SP 811) 67.3 N·m. Grade 2 proves 55 ksi, 6,529 lbf.

use clampbook_api::v1::{ComputeTorqueRequest, GetSheetRequest, RenderChartRequest, TorqueUnit};

use crate::support::{Server, Shop, cli};

const TORQUE: &str = "49.7 lbf·ft (67.3 N·m)";
const PROOF: &str = "10100 lbf";

/// The text without its line ends.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A plate by that bolt, one of whose two bolts turns out to be of grade 2.
fn stripped(server: &Server) {
    let say = |words: &[&str]| cli(server, words).output().to_owned();
    let job = ["jobs", "create", "tractor", "--name", "Orchard tractor"];
    say(&[&job[..], &["--unit", "lbf-ft"]].concat());
    say(&["assemblies", "add", "tractor", "hub", "--name", "Left hub"]);
    let joint = [
        "joints",
        "add",
        "tractor",
        "plate",
        "--assembly",
        "hub",
        "--name",
        "Brake plate",
    ];
    let place = [
        "--layout",
        "line",
        "--positions",
        "2",
        "--class",
        "B",
        "--hole-kind",
        "tapped-through",
    ];
    let bolt = [
        "--thread",
        "7/16-20",
        "--grade",
        "SAE J429 5",
        "--lubrication",
        "oiled",
    ];
    say(&[&joint[..], &place, &bolt].concat());
    for (hole, grade) in [("1", "SAE J429 5"), ("2", "SAE J429 2")] {
        let out = ["removal", "log", "tractor", "plate", hole, "normal"];
        say(&[&out[..], &["--grade", grade, "--length", "1-1/4 in"]].concat());
    }
}

#[tokio::test]
async fn sheet_flag_answer_picture_and_command_line_show_a_number_alike() {
    let shop = Shop::open();
    let server = &shop.server;
    stripped(server);
    let say = |words: &[&str]| flowing(cli(server, words).output());

    let ask = ComputeTorqueRequest {
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        lubrication: "oiled".into(),
        torque_unit: TorqueUnit::PoundForceFoot.into(),
        ..Default::default()
    };
    let answer = shop.torque().compute_torque(ask).await;
    let answer = answer.expect("an answer").into_inner();
    assert_eq!(answer.torque_text, TORQUE);
    assert_eq!(answer.working_load_text, PROOF);
    assert_eq!(answer.clamp_load_text, "7570 lbf");
    // A quarter either way when oiled.
    assert_eq!(answer.scatter.expect("a band").text, "5680 to 9460 lbf");
    // Shigley, table 8-15.
    assert_eq!(answer.nut_factor_text, "0.18");

    let desk = [
        "torque",
        "7/16-20",
        "SAE J429 5",
        "oiled",
        "--unit",
        "lbf-ft",
    ];
    let desk = say(&desk);
    assert!(desk.starts_with(&format!("{TORQUE} COMPUTED")), "{desk}");
    for said in [PROOF, "7570 lbf, governed", "5680 to 9460 lbf at", "K 0.18"] {
        assert!(desk.contains(said), "{said}: {desk}");
    }

    let value = say(&["specs", "effective", "tractor", "plate"]);
    assert!(value.contains(&format!("{TORQUE} COMPUTED")), "{value}");

    let request = GetSheetRequest {
        name: "jobs/tractor".into(),
        ..Default::default()
    };
    let sheet = shop.sheets().get_sheet(request).await;
    let sheet = sheet.expect("a sheet").into_inner();
    let row = &sheet.joints[0].rows[0];
    assert!(
        row.torque.starts_with(&format!("{TORQUE} COMPUTED")),
        "{}",
        row.torque
    );
    let paper = say(&["sheet", "tractor"]);
    for said in [TORQUE, "5680 to 9460 lbf, aiming at 7570 lbf"] {
        assert!(paper.contains(said), "{said}: {paper}");
    }

    let flags = say(&["flags", "list", "tractor"]);
    let weaker = format!(
        "SAE J429 2 carries 6530 lbf proof load on 7/16-20 UNF, specified SAE J429 5 carries {PROOF}"
    );
    for told in [&flags, &paper] {
        assert!(told.contains(&weaker), "{told}");
    }
}

/// The unit is the job's, else the one asked for; without either an inch thread gets lbf·ft and a metric one N·m. Small torques
/// carry inches in their brackets.
///
/// By hand, M10 of 8.8, oiled: 0.18 x 10 mm x 0.75 x 580 MPa x 57.99 mm² (ISO 898-1) is 45.4 N·m, 33.5 lbf·ft.
#[tokio::test]
async fn without_a_chosen_unit_each_thread_has_its_own_on_every_face() {
    const METRIC: &str = "45.4 N·m (33.5 lbf·ft)";
    const SMALL: &str = "4.92 lbf·ft (59.1 lbf·in)";
    let shop = Shop::open();
    let server = &shop.server;
    let say = |words: &str| {
        let words: Vec<&str> = words.split('|').collect();
        flowing(cli(server, &words).output())
    };
    say("jobs|create|tractor|--name|Orchard tractor");
    say("assemblies|add|tractor|hub|--name|Left hub");
    let bolts = [
        ("plate", "7/16-20", "SAE J429 5", TORQUE),
        ("cover", "1/4-20", "SAE J429 2", SMALL),
        ("cap", "M10", "8.8", METRIC),
    ];
    for (joint, thread, grade, torque) in bolts {
        say(&format!(
            "joints|add|tractor|{joint}|--assembly|hub|--name|{joint}|--layout|single|--positions|1|--class|B|--hole-kind|\
             tapped-through|--thread|{thread}|--grade|{grade}|--lubrication|oiled"
        ));
        say(&format!("removal|log|tractor|{joint}|1|normal"));
        let desk = say(&format!("torque|{thread}|{grade}|oiled"));
        assert!(desk.starts_with(&format!("{torque} COMPUTED")), "{desk}");
        let value = say(&format!("specs|effective|tractor|{joint}"));
        assert!(value.contains(&format!("{torque} COMPUTED")), "{value}");
        let sheet = say("sheet|tractor");
        assert!(sheet.contains(&format!("{torque} COMPUTED")), "{sheet}");
        let number = torque.split(' ').next().expect("a number");
        let ask = ComputeTorqueRequest {
            thread: thread.into(),
            grade: grade.into(),
            lubrication: "oiled".into(),
            ..Default::default()
        };
        let chart = RenderChartRequest {
            ask: Some(ask),
            torque_unit: 0,
        };
        let chart = shop.torque().render_chart(chart).await;
        let chart = chart.expect("a picture").into_inner();
        let unit = if thread == "M10" { "N·m" } else { "lbf·ft" };
        let said = format!("{number} {unit}");
        assert!(chart.description.contains(&said), "{}", chart.description);
        let plan = say(&format!("plan|--torque|{number} {unit}"));
        assert!(plan.contains(&format!("{said} (")), "{plan}");
    }
    // The one that is asked for takes precedence.
    let asked = say("torque|M10|8.8|oiled|--unit|lbf-ft");
    assert!(asked.starts_with("33.5 lbf·ft (45.4 N·m)"), "{asked}");
}
