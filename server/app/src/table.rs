//! Comma separated text as people keep it in table programs: a header line that names the columns, then one item a line.
//!
//! What is wrong is noted with line and column, all of it at once.

use crate::{Validator, words};
use clampbook_book::bounds;
use csv::StringRecord;

/// The columns of a table, in any order.
pub(crate) struct Columns {
    /// All columns, the required ones first.
    pub(crate) all: &'static [&'static str],
    /// How many are required.
    pub(crate) required: usize,
    /// What a line holds, for people.
    pub(crate) item: &'static str,
}

/// What each line holds, as `take` reads it; lines that something is wrong with are left out.
pub(crate) fn lines<T>(
    check: &mut Validator,
    columns: &Columns,
    text: &str,
    mut take: impl FnMut(Line<'_>) -> Option<T>,
) -> Option<Vec<T>> {
    let count = text.chars().count();
    if count == 0 || count > bounds::IMPORT {
        check.wrong(
            "csv",
            format!(
                "has {count} characters; allowed are 1 to {}",
                bounds::IMPORT
            ),
        );
        return None;
    }
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(text.strip_prefix('\u{feff}').unwrap_or(text).as_bytes());
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(error) => {
            check.wrong("csv", format!("line 1: {error}"));
            return None;
        }
    };
    if !header_is_right(check, columns, &header) {
        return None;
    }
    let mut lines = Vec::new();
    let mut read = 0;
    for record in reader.records() {
        read += 1;
        if read > bounds::IMPORT_LINES {
            check.wrong(
                "csv",
                format!("has more than {} lines", bounds::IMPORT_LINES),
            );
            return None;
        }
        match record {
            Ok(record) => {
                let number = record.position().map_or(0, csv::Position::line);
                let before = check.count();
                let taken = take(Line {
                    check: &mut *check,
                    header: &header,
                    record: &record,
                    number,
                });
                lines.extend(taken.filter(|_| check.count() == before));
            }
            Err(error) => check.wrong("csv", torn(&error)),
        }
    }
    if read == 0 {
        let item = columns.item;
        check.wrong("csv", format!("holds no {item} below its header line"));
    }
    Some(lines)
}

/// Why a line could not even be split into its cells.
fn torn(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::UnequalLengths {
            pos,
            expected_len,
            len,
        } => format!(
            "line {}: has {len} cells; the header line has {expected_len}",
            pos.as_ref().map_or(0, csv::Position::line)
        ),
        _ => error.to_string(),
    }
}

fn header_is_right(check: &mut Validator, columns: &Columns, header: &StringRecord) -> bool {
    let mut right = true;
    for (i, name) in header.iter().enumerate() {
        let twice = header.iter().take(i).any(|earlier| earlier == name);
        if !columns.all.contains(&name) || twice {
            let why = if twice {
                "appears twice"
            } else {
                "is not a column"
            };
            check.wrong(
                "csv",
                format!(
                    "line 1: {name} {why}; columns are {}",
                    columns.all.join(", ")
                ),
            );
            right = false;
        }
    }
    for name in &columns.all[..columns.required] {
        if !header.iter().any(|given| given == *name) {
            check.wrong(
                "csv",
                format!("line 1: column {name} is required and missing"),
            );
            right = false;
        }
    }
    right
}

/// One line of a table.
pub(crate) struct Line<'a> {
    check: &'a mut Validator,
    header: &'a StringRecord,
    record: &'a StringRecord,
    /// Its number in the text, counted from 1 with the header.
    pub(crate) number: u64,
}

impl Line<'_> {
    pub(crate) fn text(&mut self, column: &str, most: usize) -> String {
        let said = self.cell(column).to_owned();
        self.within(column, |check, field| check.text(field, &said, most))
    }

    pub(crate) fn words<W: Copy + PartialEq>(
        &mut self,
        column: &str,
        all: &[W],
        id: fn(W) -> &'static str,
    ) -> Vec<W> {
        let said = self.cell(column).to_owned();
        let words: Vec<W> = said
            .split(';')
            .map(str::trim)
            .filter(|word| !word.is_empty())
            .filter_map(|word| self.known(column, word, all, id))
            .collect();
        self.within(column, |check, field| check.distinct(field, &words));
        words
    }

    pub(crate) fn word<W: Copy>(
        &mut self,
        column: &str,
        all: &[W],
        id: fn(W) -> &'static str,
    ) -> Option<W> {
        let said = self.cell(column).to_owned();
        if said.is_empty() {
            return None;
        }
        self.known(column, &said, all, id)
    }

    fn known<W: Copy>(
        &mut self,
        column: &str,
        said: &str,
        all: &[W],
        id: fn(W) -> &'static str,
    ) -> Option<W> {
        words::spelled(said, all, id)
            .map_err(|why| self.wrong(column, &why))
            .ok()
    }

    pub(crate) fn cell(&self, column: &str) -> &str {
        self.header
            .iter()
            .position(|name| name == column)
            .and_then(|i| self.record.get(i))
            .unwrap_or_default()
    }

    pub(crate) fn wrong(&mut self, column: &str, why: &str) {
        let place = self.place(column);
        self.check.wrong("csv", format!("{place}: {why}"));
    }

    fn place(&self, column: &str) -> String {
        format!("line {}, column {column}", self.number)
    }

    /// Runs a check of a message that is made from the line; fields under `path` are columns.
    pub(crate) fn message<T>(&mut self, path: &str, run: impl FnOnce(&mut Validator) -> T) -> T {
        let mut inner = Validator::default();
        let value = run(&mut inner);
        let wrong = inner.into_violations();
        self.check.extend(
            wrong
                .iter()
                .map(|one| one.without(path).in_table(self.number)),
        );
        value
    }

    /// Runs a check of a single value and notes what it finds under this line and column.
    pub(crate) fn within<T>(
        &mut self,
        column: &str,
        run: impl FnOnce(&mut Validator, &str) -> T,
    ) -> T {
        let mut inner = Validator::default();
        let value = run(&mut inner, column);
        for violation in inner.into_violations() {
            self.wrong(column, &violation.wrong);
        }
        value
    }
}
