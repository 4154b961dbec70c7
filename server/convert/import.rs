//! A strip-down as comma separated text.

use super::{Check, assembled};
use clampbook_book::bounds;
use clampbook_book::command::ImportedRemoval;
use clampbook_book::fact::{LengthSeen, Removed};
use clampbook_book::ids::{JobId, JointId, PositionNumber};
use clampbook_book::words::{Compared, Condition, HeatColour, Means, Tick};
use csv::StringRecord;

/// The columns, in any order; the first three are required.
pub(crate) const COLUMNS: [&str; 17] = [
    "joint",
    "position",
    "condition",
    "means",
    "ticks",
    "heat_colour",
    "heated_place",
    "thread",
    "length",
    "marking",
    "grade",
    "breakaway_torque",
    "kept_in",
    "note",
    "marks",
    "stack",
    "small_parts",
];

const REQUIRED: usize = 3;

/// The removals of the text; what is wrong is noted with line and column.
pub(super) fn lines(
    check: &mut Check,
    job: Option<&JobId>,
    text: &str,
) -> Option<Vec<ImportedRemoval>> {
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
    if !header_is_right(check, &header) {
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
                let line = record.position().map_or(0, csv::Position::line);
                let removed = Line {
                    check: &mut *check,
                    header: &header,
                    record: &record,
                    line,
                }
                .removed(job);
                lines.extend(removed.map(|removed| ImportedRemoval { line, removed }));
            }
            Err(error) => check.wrong("csv", torn(&error)),
        }
    }
    if read == 0 {
        check.wrong("csv", "holds no removal below its header line");
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

fn header_is_right(check: &mut Check, header: &StringRecord) -> bool {
    let mut right = true;
    for (i, name) in header.iter().enumerate() {
        let twice = header.iter().take(i).any(|earlier| earlier == name);
        if !COLUMNS.contains(&name) || twice {
            let why = if twice {
                "stands twice"
            } else {
                "is not a column"
            };
            check.wrong(
                "csv",
                format!("line 1: {name} {why}; columns are {}", COLUMNS.join(", ")),
            );
            right = false;
        }
    }
    for name in &COLUMNS[..REQUIRED] {
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

struct Line<'a> {
    check: &'a mut Check,
    header: &'a StringRecord,
    record: &'a StringRecord,
    line: u64,
}

impl Line<'_> {
    fn removed(mut self, job: Option<&JobId>) -> Option<Removed> {
        let joint = self.joint(job);
        let position = self.position();
        let condition = self.word("condition", Condition::ALL, Condition::id);
        if condition.is_none() && self.cell("condition").is_empty() {
            self.wrong("condition", "is required and was empty");
        }
        let means = self.words("means", Means::ALL, Means::id);
        let ticks = self.words("ticks", Tick::ALL, Tick::id);
        let heat_colour = self.word("heat_colour", HeatColour::ALL, HeatColour::id);
        self.within("heat_colour", |check, field| {
            check.heat_agrees(field, &means, heat_colour, heat_colour.is_none());
        });
        let heated_place = self.text("heated_place", bounds::PLACE);
        let thread = self.text("thread", bounds::DESIGNATION);
        let length = self.length();
        let marking = self.text("marking", bounds::SHORT);
        let grade = self.text("grade", bounds::DESIGNATION);
        let said = self.cell("breakaway_torque").to_owned();
        let breakaway = self.within("breakaway_torque", |check, field| {
            check.torque(field, &said)
        });
        let kept_in = self.text("kept_in", bounds::SHORT);
        let note = self.text("note", bounds::NOTE);
        let assembled = assembled::together(assembled::COLUMNS.map(|column| {
            let said = self.cell(column).to_owned();
            self.within(column, |check, field| check.assembled_cell(field, &said))
        }));
        Some(Removed {
            joint: joint?,
            position: position?,
            condition: condition?,
            ticks,
            means,
            heat_colour,
            heated_place,
            thread,
            length,
            marking,
            grade,
            breakaway,
            kept_in,
            note,
            assembled,
        })
    }

    /// A joint by its id, or by its full name in this job.
    fn joint(&mut self, job: Option<&JobId>) -> Option<JointId> {
        let said = self.cell("joint");
        let own = job.map(|job| format!("jobs/{job}/joints/"));
        let id = own
            .and_then(|own| said.strip_prefix(own.as_str()))
            .unwrap_or(said);
        let joint = JointId::new(id);
        if joint.is_none() {
            let why = format!("\"{said}\" is not a joint id");
            self.wrong("joint", &why);
        }
        joint
    }

    fn position(&mut self) -> Option<PositionNumber> {
        let said = self.cell("position").to_owned();
        let Ok(number) = said.parse::<i32>() else {
            let why = format!("\"{said}\" is not a whole number");
            self.wrong("position", &why);
            return None;
        };
        self.within("position", |check, field| check.position(field, number))
    }

    fn length(&mut self) -> Option<LengthSeen> {
        let said = self.cell("length").to_owned();
        if said.is_empty() {
            return None;
        }
        if let Some(word) = Compared::from_id(&said) {
            return Some(LengthSeen::Compared(word));
        }
        self.within("length", |check, field| check.length(field, &said))
            .map(LengthSeen::Measured)
    }

    fn text(&mut self, column: &str, most: usize) -> String {
        let said = self.cell(column).to_owned();
        self.within(column, |check, field| check.text(field, &said, most))
    }

    fn words<W: Copy + PartialEq>(
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

    fn word<W: Copy>(&mut self, column: &str, all: &[W], id: fn(W) -> &'static str) -> Option<W> {
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
        let spelled = said.to_lowercase().replace([' ', '_'], "-");
        let found = all.iter().copied().find(|word| id(*word) == spelled);
        if found.is_none() {
            let allowed: Vec<&str> = all.iter().map(|word| id(*word)).collect();
            let why = format!(
                "\"{said}\" is not known; allowed are {}",
                allowed.join(", ")
            );
            self.wrong(column, &why);
        }
        found
    }

    fn cell(&self, column: &str) -> &str {
        self.header
            .iter()
            .position(|name| name == column)
            .and_then(|i| self.record.get(i))
            .unwrap_or_default()
    }

    fn wrong(&mut self, column: &str, why: &str) {
        let place = self.place(column);
        self.check.wrong("csv", format!("{place}: {why}"));
    }

    fn place(&self, column: &str) -> String {
        format!("line {}, column {column}", self.line)
    }

    /// Runs a check of a single value and notes what it finds under this line and column.
    fn within<T>(&mut self, column: &str, run: impl FnOnce(&mut Check, &str) -> T) -> T {
        let mut inner = Check::default();
        let value = run(&mut inner, column);
        for violation in inner.into_violations() {
            self.wrong(column, &violation.wrong);
        }
        value
    }
}
