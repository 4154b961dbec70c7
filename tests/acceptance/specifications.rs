//! The book of published values: kept as printed, revised without losing what was printed before, asked about its unit.

use clampbook_api::v1::{
    GetSpecificationRequest, ImportSpecificationsRequest, ListSpecificationsRequest,
};

use crate::support::cli::cli_fed;
use crate::support::{Refusal, Server, Shop, cli, fresh_id};

const ADD: &[&str] = &[
    "specs",
    "add",
    "brake-plate",
    "--name",
    "Brake plate to knuckle",
    "--thread",
    "7/16-20",
    "--grade",
    "SAE J429 5",
    "--lubrication",
    "dry",
    "--step",
    "55 lbf·ft",
    "--minimum",
    "50 lbf·ft",
    "--citation",
    "Workshop manual, 2nd ed., p. 41",
];

/// The same command with some of its words changed.
fn changed(changes: &[(&str, &'static str)]) -> Vec<&'static str> {
    let mut command = ADD.to_vec();
    for (from, to) in changes {
        let place = command.iter().position(|word| word == from);
        command[place.expect("the word is there")] = to;
    }
    command
}

#[test]
fn the_shop_keeps_what_is_printed_and_what_was_printed_before() {
    let server = Server::start();
    let kept = cli(&server, ADD).output().to_owned();
    let kept = kept.split_whitespace().collect::<Vec<_>>().join(" ");
    for told in [
        "brake-plate revision 1: Brake plate to knuckle",
        "55 lbf·ft",
        "7/16-20, SAE J429 5",
        "Workshop manual, 2nd ed., p. 41",
        "by ida",
    ] {
        assert!(kept.contains(told), "{told}: {kept}");
    }
    let letter = changed(&[
        ("add", "revise"),
        ("55 lbf·ft", "52 lbf·ft"),
        ("Workshop manual, 2nd ed., p. 41", "Service letter 7"),
    ]);
    let revised = cli(&server, &letter).output().to_owned();
    assert!(
        revised.contains("52 lbf·ft") && revised.contains("revision 2"),
        "{revised}"
    );

    let first = cli(
        &server,
        &["specs", "show", "brake-plate", "--revision", "1"],
    )
    .output()
    .to_owned();
    assert!(first.contains("SUPERSEDED by revision 2"), "{first}");
    assert!(
        first.contains("55 lbf·ft") && first.contains("p. 41"),
        "{first}"
    );
    let newest = cli(&server, &["specs", "show", "brake-plate"])
        .output()
        .to_owned();
    assert_eq!(newest, revised);

    let gone = cli(
        &server,
        &[
            "specs",
            "withdraw",
            "brake-plate",
            "--reason",
            "of another year",
        ],
    )
    .output()
    .to_owned();
    assert!(gone.contains("WITHDRAWN: of another year"), "{gone}");
    let again = cli(&server, &letter);
    assert_eq!(again.code, Some(4), "{again:?}");
    let list = cli(&server, &["specs", "list"]).output().to_owned();
    assert!(
        list.contains("brake-plate") && list.contains("WITHDRAWN"),
        "{list}"
    );
    let entries = cli(&server, &["entries", "--shop"]).output().to_owned();
    assert!(
        entries.contains("shop/entries/3  specification-withdrawn"),
        "{entries}"
    );
}

#[test]
fn a_torque_that_no_maker_means_is_asked_which_unit_it_is_in() {
    let server = Server::start();
    // 660 lbf·in is 55 lbf·ft; as lbf·ft it would be nine times the proof load.
    let slip = changed(&[("55 lbf·ft", "660 lbf·ft")]);
    let asked = cli(&server, &slip);
    assert_eq!(asked.code, Some(2));
    for told in [
        "specification.unit_confirmed",
        "897 %",
        "which unit",
        "660 lbf·in is plausible",
    ] {
        assert!(asked.stderr.contains(told), "{told}: {asked:?}");
    }
    assert_eq!(server.entry_count(), 0);
    let mut sure = slip.clone();
    sure.push("--unit-confirmed");
    let kept = cli(&server, &sure).output().to_owned();
    assert!(kept.contains("as published"), "{kept}");
    // What the makers print for an angle is kept step by step.
    let turned = [
        "specs",
        "add",
        "head-bolts",
        "--name",
        "Cylinder head",
        "--thread",
        "M10",
        "--step",
        "40 N·m",
        "--step",
        "90 deg",
        "--step",
        "90°",
        "--citation",
        "Engine manual, p. 12",
    ];
    let kept = cli(&server, &turned).output().to_owned();
    let kept = kept.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        kept.contains("40 N·m, then 90° further, then 90° further"),
        "{kept}"
    );
    assert!(kept.contains("lubrication not stated"), "{kept}");
}

#[tokio::test]
async fn the_list_comes_in_pages_and_outlives_the_server() {
    let mut shop = Shop::open();
    let ids = ["axle", "brake-plate", "drum", "head-bolts", "wheel"];
    for id in ["wheel", "drum", "axle", "head-bolts", "brake-plate"] {
        let mut command = ADD.to_vec();
        command[2] = id;
        cli(&shop.server, &command).output();
    }
    shop.restart(&[]).await;
    let mut names = Vec::new();
    let mut page_token = String::new();
    loop {
        let request = ListSpecificationsRequest {
            page_size: 2,
            page_token,
        };
        let answer = shop.specifications().list_specifications(request).await;
        let page = answer.expect("a page").into_inner();
        assert!(page.specifications.len() <= 2);
        names.extend(page.specifications.into_iter().map(|spec| spec.name));
        page_token = page.next_page_token;
        if page_token.is_empty() {
            break;
        }
    }
    assert_eq!(names, ids.map(|id| format!("specifications/{id}")));
    let request = GetSpecificationRequest {
        name: "specifications/drum".into(),
        revision: 1,
    };
    let drum = shop.specifications().get_specification(request).await;
    let drum = drum.expect("it is kept").into_inner();
    assert_eq!(
        (drum.revision, drum.newest_revision, drum.etag.as_str()),
        (1, 1, "\"2\"")
    );
    assert_eq!(drum.minimum_torque, "50 lbf·ft", "as printed");
}

/// What a museum's library might hold on an invented orchard tractor.
const TABLE: &str = "\
id,display_name,thread,grade,lubrication,purpose,steps,minimum_torque,maximum_torque,citation,unit_confirmed,note
brake-plate,Brake plate to knuckle,7/16-20,SAE J429 5,dry,,55 lbf·ft,50 lbf·ft,60 lbf·ft,\"Workshop manual, 2nd ed., p. 41\",,
brake-union,Union at the wheel cylinder,3/8-24,,,flare-fitting,12 lbf·ft,,,\"Workshop manual, 2nd ed., p. 60\",,\"seat dry; never twice\"
head-bolts,Cylinder head,M10,10.9,,,40 N·m; 90 deg; 90 deg,,,\"Engine manual, p. 12\",yes,
";

#[test]
fn a_whole_file_is_kept_and_comes_out_as_it_went_in() {
    let server = Server::start();
    let import = |flags: &[&str], table: &str| {
        let command = [&["specs", "import", "-"], flags].concat();
        cli_fed(&server, &command, table.as_bytes())
            .output()
            .to_owned()
    };
    let checked = import(&["--dry-run"], TABLE);
    assert!(checked.contains("3 created, 0 revised, 0 unchanged; checked, nothing written"));
    assert_eq!(server.entry_count(), 0);
    assert_eq!(import(&[], TABLE), "3 created, 0 revised, 0 unchanged.\n");
    let exported = cli(&server, &["specs", "export"]).output().to_owned();
    for told in [
        "brake-plate,Brake plate to knuckle,7/16-20,55 lbf·ft,\"Workshop manual, 2nd ed., p. 41\"",
        "head-bolts,Cylinder head,M10,40 N·m; 90 deg; 90 deg",
        "flare-fitting",
        "seat dry; never twice",
    ] {
        assert!(exported.contains(told), "{told}: {exported}");
    }
    let before = server.entry_count();
    assert_eq!(
        import(&[], &exported),
        "0 created, 0 revised, 3 unchanged.\n"
    );
    assert_eq!(server.entry_count(), before, "nothing is given twice");

    let newer = exported.replace("55 lbf·ft", "52 lbf·ft");
    assert_eq!(import(&[], &newer), "0 created, 1 revised, 2 unchanged.\n");
    let plate = cli(&server, &["specs", "show", "brake-plate"])
        .output()
        .to_owned();
    assert!(
        plate.contains("52 lbf·ft") && plate.contains("revision 2"),
        "{plate}"
    );
    // What was withdrawn is not in use, and its name stays taken.
    let gone = [
        "specs",
        "withdraw",
        "brake-union",
        "--reason",
        "of another year",
    ];
    cli(&server, &gone).output();
    let exported = cli(&server, &["specs", "export"]).output().to_owned();
    assert!(!exported.contains("brake-union"), "{exported}");
    let refused = cli_fed(&server, &["specs", "import", "-"], TABLE.as_bytes());
    assert_eq!(refused.code, Some(2), "{refused:?}");
    assert!(
        refused
            .stderr
            .contains("line 3, column id: brake-union was withdrawn"),
        "{refused:?}"
    );
}

#[tokio::test]
async fn every_wrong_line_is_named_and_nothing_of_the_file_is_kept() {
    let shop = Shop::open();
    let request = |csv: String| ImportSpecificationsRequest {
        csv,
        request_id: fresh_id(),
        ..Default::default()
    };
    let spoiled = TABLE
        .replace("7/16-20,", "7/16-21,")
        .replace("55 lbf·ft,50", "55 lbf·ft,58")
        .replace("3/8-24", "3/8-23")
        .replace("90 deg; 90 deg", "900 deg")
        // What cannot even be read stands beside what is judged.
        + "drum,Drum,M10,8.8,,,40 stone,,,p. 1,,\n";
    let outcome = shop
        .specifications()
        .import_specifications(request(spoiled))
        .await;
    let refusal = Refusal::of(&outcome.expect_err("it is refused"));
    let whys: Vec<_> = refusal.wrong.iter().map(|(_, why)| why.as_str()).collect();
    for words in [
        "line 2, column thread: ",
        "line 2, column minimum_torque: ",
        "line 3, column thread: ",
        "line 4, column steps: item 2: is 900",
        "line 5, column steps: item 1: ",
    ] {
        assert!(
            whys.iter().any(|why| why.starts_with(words)),
            "{words}: {whys:#?}"
        );
    }
    assert_eq!(shop.server.entry_count(), 0);

    // Sent again after a lost answer it is kept once.
    let good = request(TABLE.into());
    let mut answers = Vec::new();
    for _ in 0..2 {
        let answer = shop
            .specifications()
            .import_specifications(good.clone())
            .await;
        answers.push(answer.expect("it is taken").into_inner());
    }
    assert_eq!(answers[0], answers[1]);
    assert_eq!(
        (answers[0].created_count, shop.server.entry_count()),
        (3, 3)
    );
    // So is one that had nothing new to say.
    let again = request(TABLE.into());
    for _ in 0..2 {
        let answer = shop
            .specifications()
            .import_specifications(again.clone())
            .await;
        assert_eq!(answer.expect("it is taken").into_inner().unchanged_count, 3);
    }
    assert_eq!(shop.server.entry_count(), 3);
}
