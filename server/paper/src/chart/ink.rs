//! Lines and words in SVG, one element a line.

use std::fmt::Write;

/// A line.
pub(super) fn path(out: &mut String, d: &str, width: f64, dashes: &str) {
    let dashes = match dashes {
        "" => String::new(),
        dashes => format!(" stroke-dasharray=\"{dashes}\""),
    };
    // Writing into a String cannot fail, here and below.
    let _ = writeln!(
        out,
        "<path d=\"{d}\" fill=\"none\" stroke=\"black\" stroke-width=\"{width}\"{dashes}/>"
    );
}

/// Text.
pub(super) fn text(out: &mut String, (x, y): (f64, f64), anchor: &str, said: &str) {
    let said = escape(said);
    let _ = writeln!(
        out,
        "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{said}</text>"
    );
}

/// Text over lines, on a rim of paper.
pub(super) fn haloed(out: &mut String, (x, y): (f64, f64), said: &str) {
    let said = escape(said);
    let _ = writeln!(
        out,
        "<text x=\"{x:.1}\" y=\"{y:.1}\" stroke=\"white\" stroke-width=\"6\" stroke-linejoin=\"round\" \
         paint-order=\"stroke\">{said}</text>"
    );
}

/// Text that holds nothing an SVG reader takes for its own.
pub(super) fn escape(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            control if control.is_control() => {}
            other => safe.push(other),
        }
    }
    safe
}
