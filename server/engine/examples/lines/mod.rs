//! What every example shares: one question a line on standard input, one line for each on standard output.

use std::{
    error::Error,
    io::{self, BufRead, BufWriter, Write},
};

/// What goes wrong with a line.
pub(crate) type Wrong = Box<dyn Error>;

/// Answers each line, split at its commas; what is wrong is answered with `error`.
pub(crate) fn answer_each(answer: impl Fn(&[&str]) -> Result<String, Wrong>) -> io::Result<()> {
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let fields: Vec<&str> = line.split(',').collect();
        match answer(&fields) {
            Ok(said) => writeln!(out, "{said}")?,
            Err(_) => writeln!(out, "error")?,
        }
    }
    out.flush()
}

/// Numbers with 17 significant digits.
pub(crate) fn exact(numbers: impl IntoIterator<Item = f64>) -> String {
    let shown: Vec<_> = numbers.into_iter().map(|n| format!("{n:.16e}")).collect();
    shown.join(",")
}

/// A number that may be left out.
#[allow(dead_code)] // not every example has one
pub(crate) fn optional(text: &str) -> Result<Option<f64>, Wrong> {
    Ok(match text {
        "" => None,
        text => Some(text.parse()?),
    })
}
