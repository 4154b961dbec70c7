//! Digits.

/// A number to three significant figures, without exponent and without zeros at the end of its decimals: `0.0123`, `50`,
/// `67.8`, `12300`.
#[must_use]
pub fn figures(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return value.to_string();
    }
    // The exponent after rounding: 99.96 shows as 100.
    let rounded = format!("{value:.2e}");
    let exponent: i32 = rounded
        .split_once('e')
        .and_then(|(_, e)| e.parse().ok())
        .unwrap_or(0);
    let decimals = usize::try_from(2 - exponent).unwrap_or(0);
    let number: f64 = rounded.parse().unwrap_or(value);
    without_empty_decimals(format!("{number:.decimals$}"))
}

/// A number with so many decimals at most.
pub(super) fn at_most(decimals: usize, value: f64) -> String {
    without_empty_decimals(format!("{value:.decimals$}"))
}

fn without_empty_decimals(number: String) -> String {
    if number.contains('.') {
        number
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        number
    }
}
