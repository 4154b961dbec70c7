//! Reads one CSV file row by row; every complaint names file, line and column.

use std::collections::BTreeMap;

/// One line of a table, its fields by column name.
pub(crate) struct Row {
    file: &'static str,
    line: u64,
    fields: BTreeMap<String, String>,
}

/// A sentence that starts with `file:line:`.
pub(crate) type Complaint = String;

/// Splits a table into rows and insists on exactly these columns.
pub(crate) fn read(
    file: &'static str,
    text: &str,
    columns: &[&str],
) -> Result<Vec<Row>, Complaint> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader
        .headers()
        .map_err(|e| format!("{file}:1: {e}"))?
        .clone();
    if head.iter().ne(columns.iter().copied()) {
        return Err(format!("{file}:1: columns must be {}", columns.join(",")));
    }
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| match e.position() {
            Some(p) => format!("{file}:{}: {e}", p.line()),
            None => format!("{file}: {e}"),
        })?;
        let line = record.position().map_or(0, csv::Position::line);
        let fields = head.iter().zip(record.iter());
        rows.push(Row {
            file,
            line,
            fields: fields
                .map(|(c, f)| (c.to_owned(), f.trim().to_owned()))
                .collect(),
        });
    }
    Ok(rows)
}

/// Most characters of a segment of a resource name.
const LONGEST_ID: usize = 63;

/// The tables write `unf-7_16-20` and `j429-5.2`, so that fractions and grades can be read; resource names have
/// neither stroke nor point: `unf-7-16-20`, `j429-5-2`.
pub(crate) fn as_id(written: &str) -> String {
    written.replace(['_', '.'], "-")
}

impl Row {
    /// A complaint about this row.
    pub(crate) fn bad(&self, what: impl std::fmt::Display) -> Complaint {
        format!("{}:{}: {what}", self.file, self.line)
    }

    /// A field that may be empty.
    pub(crate) fn text(&self, column: &str) -> &str {
        self.fields.get(column).map_or("", String::as_str)
    }

    /// A field that may not be empty.
    pub(crate) fn needed(&self, column: &str) -> Result<&str, Complaint> {
        match self.text(column) {
            "" => Err(self.bad(format_args!("{column} is empty"))),
            text => Ok(text),
        }
    }

    /// The id by which the world outside knows the row or another one.
    pub(crate) fn id(&self, column: &str) -> Result<String, Complaint> {
        let id = as_id(self.needed(column)?);
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        let sound = id.starts_with(|c: char| c.is_ascii_lowercase())
            && id.chars().all(plain)
            && !id.contains("--")
            && !id.ends_with('-')
            && id.len() <= LONGEST_ID;
        match sound {
            true => Ok(id),
            false => Err(self.bad(format_args!(
                "{column} is \"{}\", must be a lower case letter and then at most {} lower case letters, \
                 digits and single - _ or .",
                self.text(column),
                LONGEST_ID - 1
            ))),
        }
    }

    /// A positive number.
    pub(crate) fn number(&self, column: &str) -> Result<f64, Complaint> {
        let text = self.needed(column)?;
        positive(text).ok_or_else(|| {
            self.bad(format_args!(
                "{column} is \"{text}\", must be a positive number"
            ))
        })
    }

    /// A positive number, or nothing.
    pub(crate) fn number_if_any(&self, column: &str) -> Result<Option<f64>, Complaint> {
        match self.text(column) {
            "" => Ok(None),
            _ => self.number(column).map(Some),
        }
    }

    /// Words separated by spaces.
    pub(crate) fn words(&self, column: &str) -> Vec<String> {
        let words = self.text(column).split_whitespace();
        words.map(str::to_owned).collect()
    }

    /// Phrases separated by semicolons.
    pub(crate) fn phrases(&self, column: &str) -> Vec<String> {
        let phrases = self.text(column).split(';').map(str::trim);
        phrases
            .filter(|p| !p.is_empty())
            .map(str::to_owned)
            .collect()
    }
}

/// A positive finite number, or nothing.
pub(crate) fn positive(text: &str) -> Option<f64> {
    let value: f64 = text.parse().ok()?;
    (value.is_finite() && value > 0.0).then_some(value)
}
