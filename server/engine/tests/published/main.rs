//! Published values against ours. Every expected value is a literal in a CSV file beside this one,
//! with its source; tolerance is half of the last digit printed, or the difference is explained.

#![allow(clippy::unwrap_used)] // a test may panic

mod counted;
mod geometry;
mod joints;
mod naming;
mod old_iron;
mod procedures;
mod strength;
mod tables;
mod worked_examples;
mod wrenches;

use clampbook_engine::{Answer, Ask, Catalogue, compute, units::NEWTONS_PER_POUND_FORCE};
use std::{cell::Cell, collections::BTreeMap, fmt::Debug};

/// One published row, its fields by column.
struct Published(BTreeMap<String, String>);

impl Published {
    fn text(&self, column: &str) -> &str {
        self.0
            .get(column)
            .unwrap_or_else(|| panic!("no column {column}"))
    }

    fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse()
            .unwrap_or_else(|_| panic!("{column} is {text:?}"))
    }

    /// Half of the last digit as printed.
    fn half_last_digit(&self, column: &str) -> f64 {
        let decimals = self
            .text(column)
            .split_once('.')
            .map_or(0, |(_, d)| d.len());
        0.5 * 10_f64.powi(-i32::try_from(decimals).unwrap())
    }
}

fn rows(text: &str) -> Vec<Published> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().unwrap().clone();
    let rows: Vec<Published> = reader
        .records()
        .map(|record| {
            let record = record.unwrap();
            let fields = head.iter().zip(record.iter());
            Published(fields.map(|(c, f)| (c.to_owned(), f.to_owned())).collect())
        })
        .collect();
    for row in &rows {
        assert!(!row.text("source").is_empty() && !row.text("basis").is_empty());
    }
    rows
}

/// Answers a question that has no fault.
fn answer<'c>(catalogue: &'c Catalogue, ask: &Ask<'_>) -> Answer<'c> {
    match catalogue.resolve(ask) {
        Ok(question) => compute(&question),
        Err(faults) => panic!("{ask:?}: {faults:?}"),
    }
}

fn lbf(newtons: f64) -> f64 {
    newtons / NEWTONS_PER_POUND_FORCE
}

thread_local! {
    /// Published values that were compared so far; `counted` tells how many by area.
    static COMPARED: Cell<u32> = const { Cell::new(0) };
}

/// Ours is a published number, within the rounding of its print.
#[track_caller]
fn close(ours: f64, published: f64, tolerance: f64, what: &str) {
    COMPARED.set(COMPARED.get() + 1);
    reckoned(ours, published, tolerance, what);
}

/// Ours is what is published: a name, a verdict, an order, a whole number.
#[track_caller]
fn same<T: PartialEq + Debug>(ours: T, published: T, what: &str) {
    COMPARED.set(COMPARED.get() + 1);
    assert_eq!(ours, published, "{what}");
}

/// Ours is what somebody reckons by hand from published numbers; not counted as published.
#[track_caller]
fn reckoned(ours: f64, expected: f64, tolerance: f64, what: &str) {
    // Half a digit may be a hair off in binary.
    let allowed = tolerance * (1.0 + 1e-9);
    assert!(
        (ours - expected).abs() <= allowed,
        "{what}: {ours} is not {expected} within {tolerance}"
    );
}
