//! One cover, three bolts: one goes out to be plated and baked, one is made, one is left out; and what the sheet says of each.

use crate::support::{Server, cli};

/// Text without its line ends.
fn said(server: &Server, line: &str, more: &[&str]) -> String {
    let words: Vec<&str> = line.split(' ').chain(more.iter().copied()).collect();
    let told = cli(server, &words).output().to_owned();
    told.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn one_is_plated_one_is_made_and_one_is_left_out() {
    let server = Server::start();
    said(&server, "jobs create tractor --name", &["Orchard tractor"]);
    said(&server, "assemblies add tractor hub --name", &["Hub"]);
    let joint = "joints add tractor cover --assembly hub --layout line --positions 3 --class C --hole-kind through \
                 --thread M12 --grade 10.9 --lubrication oiled --approver Ida --name";
    said(&server, joint, &["Cover to hub"]);
    for hole in ["1", "2", "3"] {
        let out = ["--grade", "12.9", "--length", "50 mm"];
        said(
            &server,
            &format!("removal log tractor cover {hole} normal"),
            &out,
        );
    }

    said(
        &server,
        "decide tractor cover 1 plate-and-bake --reason",
        &["rusty, threads sound"],
    );
    let make = "decide tractor cover 2 make --thread M12 --reason";
    said(&server, make, &["no longer made", "--length", "50 mm"]);
    let leave = "decide tractor cover 3 leave-out --left-out-by";
    let told = said(
        &server,
        leave,
        &["Ida Holm", "--reason", "the bracket is gone"],
    );
    assert!(told.contains("by Ida Holm"), "{told}");

    let away = "M12 x 50 mm, ISO 898-1 12.9, from plating and baking";
    let sheet = said(&server, "sheet tractor", &[]);
    assert!(sheet.contains("0 of 2 positions are back"), "{sheet}");
    assert!(sheet.contains("2 empty; 1 left out on purpose."), "{sheet}");
    assert!(sheet.contains(&format!("1 of 1 x {away}")), "{sheet}");
    assert!(sheet.contains("grade not shown, to be made"), "{sheet}");
    assert!(
        sheet.contains("left out by Ida Holm: the bracket is gone"),
        "{sheet}"
    );
    assert!(sheet.contains("LEFT OUT: no torque"), "{sheet}");
    let refit = ["refit", "tractor", "cover", "3", "original"];
    let refused = cli(&server, &refit);
    refused.ends_with(4);
    assert!(refused.stderr.contains("decide again"), "{refused:?}");

    let flags = said(&server, "flags list tractor", &[]);
    assert!(flags.contains("plated-hard-unbaked"), "{flags}");
    said(&server, "parts arrive tractor hub", &[away, "1"]);
    let shown = "decide tractor cover 1 plate-and-bake --baking-shown --reason back --citation";
    said(&server, shown, &["certificate 118"]);
    let flags = said(&server, "flags list tractor", &[]);
    assert!(!flags.contains("STOP"), "{flags}");
    let sheet = said(&server, "sheet tractor", &[]);
    assert!(sheet.contains("baking shown by certificate 118"), "{sheet}");
}
