//! One number is one text: on the sheet, in a flag, in an answer, on the command line and in the picture.
//!
//! By hand, 7/16-20 of SAE J429 5, oiled: proof load 85 ksi x 0.1187 sq in (ASME B1.1) is 10,090 lbf; 0.75 of it is 7,567 lbf,
//! and 0.18 x 0.4375 in x 7,567 lbf / 12 is 49.7 lbf·ft, times 1.355818 (NIST SP 811) 67.3 N·m. Grade 2 proves 55 ksi, 6,529 lbf.

use clampbook_api::v1::{ComputeTorqueRequest, GetSheetRequest, TorqueUnit};

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
    assert_eq!(answer.proof_load_text, PROOF);
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
