//! Text for people: marks for colour, wrapping at 80 columns, tables; and the last step to what a terminal can show.

/// The blank between a number and its unit: no line is broken there. Printed as a plain one.
const UNBROKEN: char = '\u{a0}';

/// A quantity as the server shows it, never parted at the end of a line.
pub(crate) fn unbroken(text: &str) -> String {
    text.replace(' ', &UNBROKEN.to_string())
}

/// Columns of a page.
const WIDTH: usize = 80;

/// Width of the words that head a paragraph.
const HEADING: usize = 13;

/// How a terminal, or what stands in for it, can show text.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Look {
    /// Nothing but ASCII.
    pub(crate) ascii: bool,
    /// Colours.
    pub(crate) colour: bool,
}

// Text is composed with these private characters, so that composing is free of terminals; `finish` turns them into
// colour or drops them.
const STRONG: char = '\u{E000}';
const STOP: char = '\u{E001}';
const CAUTION: char = '\u{E002}';
const END: char = '\u{E003}';

/// Text that matters most.
pub(crate) fn strong(text: &str) -> String {
    format!("{STRONG}{text}{END}")
}

/// Text that stops work.
pub(crate) fn stop(text: &str) -> String {
    format!("{STOP}{text}{END}")
}

/// Text that asks for care.
pub(crate) fn caution(text: &str) -> String {
    format!("{CAUTION}{text}{END}")
}

/// The text as it is written out: marks become colour or nothing, control characters that somebody may have put into
/// a name never reach the terminal.
pub(crate) fn finish(text: &str, look: Look) -> String {
    let mut finished = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            STRONG if look.colour => finished.push_str("\u{1b}[1m"),
            STOP if look.colour => finished.push_str("\u{1b}[1;31m"),
            CAUTION if look.colour => finished.push_str("\u{1b}[33m"),
            END if look.colour => finished.push_str("\u{1b}[0m"),
            STRONG | STOP | CAUTION | END => {}
            UNBROKEN => finished.push(' '),
            '\n' | '\t' => finished.push(character),
            control if control.is_control() => finished.push('?'),
            other if look.ascii && !other.is_ascii() => finished.push_str(ascii(other)),
            other => finished.push(other),
        }
    }
    finished
}

fn ascii(character: char) -> &'static str {
    match character {
        '·' | '•' => ".",
        '×' => "x",
        '²' => "2",
        '³' => "3",
        '°' => " deg",
        '±' => "+/-",
        '−' | '–' | '—' | '─' | '━' => "-",
        '│' | '┃' => "|",
        '≤' => "<=",
        '≥' => ">=",
        'µ' | 'μ' => "u",
        'α' => "alpha",
        'π' => "pi",
        '’' | '‘' => "'",
        '“' | '”' => "\"",
        '…' => "...",
        '→' => "->",
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        _ => "?",
    }
}

/// Columns that the text takes.
fn width(text: &str) -> usize {
    text.chars()
        .filter(|character| !matches!(*character, STRONG | STOP | CAUTION | END))
        .count()
}

/// A paragraph behind the word that says what it is, for instance `Sources`.
pub(crate) fn paragraph(heading: &str, text: &str) -> String {
    wrap(
        &format!("{}  ", padded(heading, HEADING - 2)),
        HEADING,
        text,
    )
}

/// Paragraphs under one heading; nothing when there are none.
pub(crate) fn paragraphs<T: AsRef<str>>(
    heading: &str,
    texts: impl IntoIterator<Item = T>,
) -> String {
    texts
        .into_iter()
        .enumerate()
        .map(|(index, text)| paragraph(if index == 0 { heading } else { "" }, text.as_ref()))
        .collect()
}

/// Units that are never parted from their number.
const UNITS: [&str; 14] = [
    "N·m", "lbf·ft", "lbf·in", "kgf·m", "kN", "kN/mm", "lbf", "mm", "mm²", "µm", "in", "MPa", "%",
    "d",
];

/// The words of a text; a number and its unit are one.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text
        .split([' ', '\n', '\t'])
        .filter(|word| !word.is_empty())
    {
        let is_unit = UNITS.contains(&word.trim_end_matches([')', ',', '.', ';', ':']));
        match words.last_mut() {
            Some(last) if is_unit && last.ends_with(|c: char| c.is_ascii_digit()) => {
                last.push(UNBROKEN);
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// Text behind `first`, broken at blanks, further lines indented; ends with a new line.
pub(crate) fn wrap(first: &str, indent: usize, text: &str) -> String {
    let mut wrapped = first.to_owned();
    let mut column = width(first);
    let mut fresh = true;
    for word in words(text) {
        let blank = usize::from(!fresh);
        if !fresh && column + blank + width(&word) > WIDTH {
            wrapped.push('\n');
            wrapped.push_str(&" ".repeat(indent));
            column = indent;
        } else {
            wrapped.push_str(&" ".repeat(blank));
            column += blank;
        }
        wrapped.push_str(&word);
        column += width(&word);
        fresh = false;
    }
    let kept = wrapped.trim_end().len();
    wrapped.truncate(kept);
    wrapped.push('\n');
    wrapped
}

/// What the server says of something, its place standing out, over as many lines as it takes.
pub(crate) fn led(said: &str) -> String {
    match said.split_once(": ") {
        Some((place, said)) => wrap("", 2, &format!("{}: {said}", strong(place))),
        None => wrap("", 2, said),
    }
}

/// A table under its header; the last column wraps, the others are as wide as their widest cell.
pub(crate) fn table<const N: usize>(header: [&str; N], rows: &[[String; N]]) -> String {
    let mut widths = header.map(width);
    for row in rows {
        for (widest, cell) in widths.iter_mut().zip(row) {
            *widest = width(cell).max(*widest);
        }
    }
    let line = |cells: [&str; N]| {
        let Some((last, fixed)) = cells.split_last() else {
            return String::new();
        };
        let start: String = fixed
            .iter()
            .zip(widths)
            .map(|(cell, widest)| format!("{}  ", padded(cell, widest)))
            .collect();
        let indent = width(&start);
        wrap(&start, indent, last)
    };
    let body = rows
        .iter()
        .map(|row| line(row.each_ref().map(String::as_str)));
    std::iter::once(line(header)).chain(body).collect()
}

fn padded(text: &str, wanted: usize) -> String {
    format!("{text}{}", " ".repeat(wanted.saturating_sub(width(text))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_become_colour_or_nothing_and_never_a_control_of_somebody_else() {
        let text = format!("{} a\u{1b}[2Jb\r\n", stop("STOP"));
        assert_eq!(finish(&text, Look::default()), "STOP a?[2Jb?\n");
        let coloured = finish(
            &text,
            Look {
                ascii: false,
                colour: true,
            },
        );
        assert_eq!(coloured, "\u{1b}[1;31mSTOP\u{1b}[0m a?[2Jb?\n");
    }

    #[test]
    fn ascii_keeps_units_readable() {
        let look = Look {
            ascii: true,
            colour: false,
        };
        assert_eq!(
            finish("91.2 N·m, 67.3 lbf·ft, 76.6 mm²", look),
            "91.2 N.m, 67.3 lbf.ft, 76.6 mm2"
        );
        assert!(finish("Jörg × ± ≤ ’ 漢", look).is_ascii());
    }

    #[test]
    fn paragraphs_break_at_eighty_columns_under_their_heading() {
        let shown = paragraphs("Mind", ["word ".repeat(30), "short".to_owned()]);
        for line in shown.lines() {
            assert!(width(line) <= WIDTH, "{line}");
        }
        assert!(shown.starts_with("Mind         word word"), "{shown}");
        assert!(shown.ends_with("\n             short\n"), "{shown}");
        assert_eq!(paragraphs("Mind", Vec::<String>::new()), "");
    }

    #[test]
    fn a_word_longer_than_the_page_is_kept_whole() {
        let long = "x".repeat(100);
        assert_eq!(
            wrap("", 4, &format!("a {long}")),
            format!("a\n    {long}\n")
        );
        assert_eq!(wrap("head  ", 6, &long), format!("head  {long}\n"));
        assert_eq!(wrap("head  ", 6, ""), "head\n");
    }

    #[test]
    fn table_columns_line_up_whatever_is_marked() {
        let rows = [
            [stop("STOP"), "1".to_owned(), "a".to_owned()],
            ["-".to_owned(), "1000".to_owned(), "b c".to_owned()],
        ];
        let shown = finish(&table(["what", "n", "text"], &rows), Look::default());
        assert_eq!(shown, "what  n     text\nSTOP  1     a\n-     1000  b c\n");
    }
}
