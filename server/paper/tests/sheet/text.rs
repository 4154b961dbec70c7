//! As text: every value stands on the sheet, and at its hole.

use crate::full::{full, stopped};
use clampbook_book::sheet::{CAUTIONS, Sheet};
use clampbook_paper::text::render;

/// The sheet in one line, as somebody reads it who does not mind where lines end.
fn read(sheet: &Sheet) -> String {
    in_one_line(&render(sheet))
}

fn in_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What is said of a hole, up to the next one, of the step.
fn hole(sheet: &Sheet, step: usize, position: u16) -> String {
    let text = render(sheet);
    let step = text.split("\nSTEP ").nth(step).expect("a step");
    let from = step.split(&format!("[ ] HOLE {position} ")).nth(1);
    let said = from.expect("the hole").split("\n\n").next();
    in_one_line(said.expect("its lines"))
}

#[test]
fn the_head_says_what_it_is_for_and_counts_its_holes() {
    let text = read(&full());
    for said in [
        "REASSEMBLY SHEET Orchard tractor of the museum Machine: narrow tractor, red Record: jobs/orchard-tractor",
        "34 of 99 positions are back and at final torque; 33 in but NOT TORQUED; 32 empty; 35 left out on purpose.",
        "WHAT STOPS THE JOB (1) STOP Left hub: drum to flange, hole 17 It came out with force. (seized-out) Clears: A decision by a person.",
        "STILL WAITED FOR * grease seal, two pieces",
        "FOUND ON PARTS * spindle worn on the left",
        "Made 2027-01-15 08:00 UTC from entry 36 of jobs/orchard-tractor; chain a0a1a2a3a4a5;",
    ] {
        assert!(text.contains(said), "{said} in {text}");
    }
    for caution in CAUTIONS {
        assert!(text.contains(caution), "{caution}");
    }
}

#[test]
fn what_all_holes_of_a_joint_share_stands_over_them_in_order() {
    let text = read(&full());
    let over = "STEP 2 Left hub: drum to flange (class A life and limb) Marks: chisel mark to the valve Photo: drum \
                before parting Published: workshop manual, page 42 (specifications/drum-bolts, revision 41). Stated for \
                8.8, oiled threads. Allowed at the end: 61 N·m (45 lbf·ft) or less. Ends dry. Length wanted: at least \
                33.3 mm; take 35 mm. Nobody said which length belongs here: only measured ones are checked. Weakest: the \
                tapped thread carries 51 kN; the target is 40 kN. Pass 1 of 3: 30° further. ! Keep heat from the seal. \
                [ ] HOLE 11";
    assert!(text.contains(over), "{text}");
}

#[test]
fn every_value_of_a_hole_stands_at_it() {
    assert_eq!(
        hole(&full(), 2, 11),
        "at the valve LONGER THAN ITS NEIGHBOURS: M10 x 40, class 8.8 35.9 lbf·ft (48.6 N·m) COMPUTED, NOT MAKER'S marks: paint stripe from the \
         head on: plain washer, shim with it, as found: split pin missing new part | prepare: wire brush | lock: tab bent \
         over | IN BUT NOT TORQUED: started by hand"
    );
}

#[test]
fn every_hole_says_where_it_stands() {
    for (position, standing) in [
        (12, "IN BUT NOT TORQUED: snug"),
        (13, "in, at final torque"),
        (14, "empty"),
        (15, "empty on purpose"),
        (16, "not taken out"),
    ] {
        let said = format!("plain bolt no torque asked {standing}");
        assert_eq!(hole(&full(), 2, position), said);
    }
}

/// Started by hand and snug are both in and not tight; nothing else is.
#[test]
fn what_is_in_and_not_tight_stands_above_all_else() {
    let text = render(&full());
    let listed: Vec<&str> = text
        .lines()
        .filter(|l| l.starts_with("NOT TORQUED"))
        .collect();
    assert_eq!(
        listed,
        ["NOT TORQUED  Left hub: drum to flange, hole 11, 12"]
    );
    assert!(text.find("NOT TORQUED  ") < text.find("WHAT STOPS THE JOB"));
}

#[test]
fn a_stop_has_no_number() {
    for said in [hole(&full(), 2, 17), hole(&stopped(), 1, 1)] {
        let (_, torque) = said.split_once("STOP").expect("it is stopped");
        let torque = torque.split('|').next().unwrap_or_default();
        assert!(!torque.contains(|c: char| c.is_ascii_digit()), "{said}");
        assert!(!said.contains("N·m") && !said.contains("lbf"), "{said}");
    }
}

#[test]
fn sources_are_numbered_once_and_cited_by_their_number() {
    let text = read(&full());
    for said in [
        "Computed from sources 1 at the end. ",
        "Loads computed from sources 2, 3 at the end.",
        "SOURCES OF COMPUTED VALUES 1 Third handbook, 1973. 2 First handbook, 1951. 3 Second handbook, 1962.",
    ] {
        assert!(text.contains(said), "{said} in {text}");
    }
}
