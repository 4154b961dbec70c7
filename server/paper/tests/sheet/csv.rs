//! As a table: every value in its own column.

use crate::full::{full, stopped};
use clampbook_book::sheet::Sheet;
use clampbook_paper::csv::render;

/// The columns in order, and what the first hole of the full joint says in each.
const SAID: [(&str, &str); 23] = [
    ("step", "2"),
    ("joint", "Left hub: drum to flange"),
    ("class", "A"),
    ("position", "11"),
    ("label", "at the valve"),
    ("fastener", "M10 x 40, class 8.8"),
    ("odd_length", "longer"),
    ("reuse", "new part"),
    ("preparation", "wire brush"),
    ("torque", "35.9 lbf·ft (48.6 N·m) COMPUTED, NOT MAKER'S"),
    ("torque_nm", "48.625"),
    ("lock", "tab bent over"),
    ("state", "started"),
    ("needed_length_mm", "33.25"),
    ("engagement_mm", "14.75"),
    ("weakest_partner", "tapped-thread"),
    ("marks", "paint stripe"),
    ("stack", "plain washer, shim"),
    ("small_parts", "split pin missing"),
    ("specification", "drum-bolts"),
    ("revision", "41"),
    ("citation", "workshop manual, page 42"),
    ("joint_marks", "chisel mark to the valve"),
];

/// Rows as columns with their cells, read by somebody else's reader.
fn table(sheet: &Sheet) -> Vec<Vec<(String, String)>> {
    let text = render(sheet).expect("it can be put together");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let rows = reader.records().map(|row| {
        let row = row.expect("as many cells as columns");
        let cells = header.iter().zip(row.iter());
        cells.map(|(a, b)| (a.to_owned(), b.to_owned())).collect()
    });
    rows.collect()
}

fn cell<'r>(row: &'r [(String, String)], column: &str) -> &'r str {
    let found = row.iter().find(|(name, _)| name == column);
    found.map_or_else(|| panic!("no column {column}"), |(_, cell)| cell)
}

#[test]
fn every_value_stands_in_its_own_column() {
    let rows = table(&full());
    let said = rows[1].iter().map(|(a, b)| (a.as_str(), b.as_str()));
    assert_eq!(said.collect::<Vec<_>>(), SAID);
}

#[test]
fn what_is_not_said_is_an_empty_cell() {
    let rows = table(&full());
    let bare: Vec<_> = rows[0]
        .iter()
        .filter(|(_, cell)| !cell.is_empty())
        .collect();
    let named: Vec<_> = bare.iter().map(|(a, b)| (a.as_str(), b.as_str())).collect();
    assert_eq!(
        named,
        [
            ("step", "1"),
            ("joint", "Axle: cap"),
            ("class", "A"),
            ("position", "1"),
            ("fastener", "plain bolt"),
            ("torque", "no torque asked"),
            ("state", "empty"),
        ]
    );
}

#[test]
fn every_hole_says_where_it_stands() {
    let rows = table(&full());
    let states: Vec<_> = rows[1..]
        .iter()
        .map(|row| (cell(row, "position"), cell(row, "state")))
        .collect();
    assert_eq!(
        states,
        [
            ("11", "started"),
            ("12", "snug"),
            ("13", "final"),
            ("14", "empty"),
            ("15", "left-out"),
            ("16", "in-place"),
            ("17", "empty"),
        ]
    );
}

#[test]
fn a_stop_has_no_number() {
    let (made_up, of_job) = (table(&full()), table(&stopped()));
    for row in [&made_up[7], &of_job[0]] {
        let torque = cell(row, "torque");
        assert!(torque.starts_with("STOP"), "{torque}");
        assert!(!torque.contains(|c: char| c.is_ascii_digit()), "{torque}");
        assert_eq!(cell(row, "torque_nm"), "");
    }
}

/// A cell that a table program would take for a formula stays text.
#[test]
fn no_cell_is_a_formula() {
    for sign in ['=', '+', '-', '@'] {
        let mut sheet = full();
        sheet.joints[1].rows[0].label = format!("{sign}1+1");
        assert_eq!(cell(&table(&sheet)[1], "label"), format!("'{sign}1+1"));
    }
}
