//! The sheet as plain text, 80 columns wide, readable in one ink.

use clampbook_book::job::Standing;
use clampbook_book::rules::Flag;
use clampbook_book::sheet::{Built, CAUTIONS, Pass, Published, Row, Sheet, SheetJoint};
use clampbook_book::words::Tightness;
use textwrap::{Options, WordSplitter};
use time::OffsetDateTime;
use time::macros::format_description;

const WIDTH: usize = 80;

/// Renders the sheet.
#[must_use]
pub fn render(sheet: &Sheet) -> String {
    let mut page = Page::default();
    head(&mut page, sheet);
    not_torqued(&mut page, sheet);
    stops(&mut page, sheet);
    under(&mut page, "STILL WAITED FOR", &sheet.waits);
    under(&mut page, "FOUND ON PARTS", &sheet.findings);
    page.rule('-');
    for caution in CAUTIONS {
        page.hanging("! ", "  ", caution);
    }
    let sources = Sources::of(sheet);
    for (i, joint) in sheet.joints.iter().enumerate() {
        page.rule('=');
        joint_block(&mut page, i + 1, joint, &sources);
    }
    if sheet.joints.is_empty() {
        page.rule('=');
        page.hanging("", "", "Nothing has been taken apart yet.");
    }
    sources.list(&mut page);
    foot(&mut page, sheet);
    page.text
}

#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    fn rule(&mut self, mark: char) {
        let rule: String = std::iter::repeat_n(mark, WIDTH).collect();
        self.line(&rule);
    }

    fn hanging(&mut self, first: &str, rest: &str, words: &str) {
        let options = Options::new(WIDTH)
            .word_splitter(WordSplitter::NoHyphenation)
            .initial_indent(first)
            .subsequent_indent(rest);
        for line in textwrap::wrap(words, options) {
            self.line(&line);
        }
    }
}

fn head(page: &mut Page, sheet: &Sheet) {
    page.line("REASSEMBLY SHEET");
    page.hanging("", "", &sheet.job_display_name);
    if !sheet.machine.is_empty() {
        page.hanging("Machine: ", "         ", &sheet.machine);
    }
    page.hanging("Record:  ", "         ", &sheet.name);
    let count = &sheet.standings;
    let out = count.empty + count.loose + count.tight;
    let left_out = match count.left_out {
        0 => String::new(),
        number => format!("; {number} left out on purpose"),
    };
    page.hanging(
        "",
        "",
        &format!(
            "{} of {out} positions are back and at final torque; {} in but NOT TORQUED; {} empty{left_out}.",
            count.tight, count.loose, count.empty
        ),
    );
}

/// What is in but not tight kills; it comes before everything else.
fn not_torqued(page: &mut Page, sheet: &Sheet) {
    for joint in &sheet.joints {
        let loose: Vec<String> = joint
            .rows
            .iter()
            .filter(|row| is_loose(row.standing))
            .map(|row| row.position.to_string())
            .collect();
        if !loose.is_empty() {
            let holes = format!("{}, hole {}", joint.title, loose.join(", "));
            page.hanging("NOT TORQUED  ", "             ", &holes);
        }
    }
}

fn is_loose(standing: Standing) -> bool {
    matches!(standing, Standing::Fitted(tightness) if tightness != Tightness::Final)
}

fn stops(page: &mut Page, sheet: &Sheet) {
    page.rule('=');
    if sheet.stops.is_empty() {
        page.line("No open stop is on record.");
        return;
    }
    page.line(&format!("WHAT STOPS THE JOB ({})", sheet.stops.len()));
    for (flag, title) in &sheet.stops {
        page.hanging("STOP  ", "      ", &format!("{title}{}", place(flag)));
        page.hanging(
            "      ",
            "      ",
            &format!("{} ({})", flag.cause, flag.rule),
        );
        page.hanging("      Clears: ", "      ", flag.clears);
    }
}

/// Lines under a heading; nothing when there are none.
fn under(page: &mut Page, heading: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    page.rule('-');
    page.line(heading);
    for line in lines {
        page.hanging("* ", "  ", line);
    }
}

fn place(flag: &Flag) -> String {
    match flag.position {
        0 => String::new(),
        number => format!(", hole {number}"),
    }
}

fn joint_block(page: &mut Page, step: usize, joint: &SheetJoint, sources: &Sources<'_>) {
    page.hanging(
        &format!("STEP {step}  "),
        "        ",
        &format!(
            "{}  (class {})",
            joint.title,
            joint.fact.criticality.spoken()
        ),
    );
    if !joint.marks.is_empty() {
        page.hanging("        ", "        ", &format!("Marks: {}", joint.marks));
    }
    for photo in &joint.photos {
        page.hanging("        ", "        ", &format!("Photo: {photo}"));
    }
    let published = joint.published.iter().flat_map(Published::lines);
    let built = joint.built.iter().flat_map(Built::lines);
    let passes = joint.passes.iter().map(Pass::to_string);
    for line in published.chain(built).chain(passes) {
        page.hanging("        ", "        ", &line);
    }
    for caution in &joint.cautions {
        page.hanging("      ! ", "        ", caution);
    }
    for row in &joint.rows {
        page.line("");
        row_block(page, row);
    }
    if !joint.sources.is_empty() {
        page.line("");
        page.hanging("", "", &sources.cited_by(joint));
    }
}

fn row_block(page: &mut Page, row: &Row) {
    let odd = match row.odd {
        Some(word) => format!("{} THAN ITS NEIGHBOURS: ", word.spoken().to_uppercase()),
        None => String::new(),
    };
    let label = if row.label.is_empty() {
        String::new()
    } else {
        format!(" {}", row.label)
    };
    page.hanging(
        &format!("[ ] HOLE {}{label}  ", row.position),
        "      ",
        &format!("{odd}{}", row.fastener),
    );
    page.hanging("      ", "      ", &row.torque.to_string());
    for (word, said) in [
        ("marks: ", &row.marks),
        ("from the head on: ", &row.stack),
        ("with it, as found: ", &row.parts),
    ] {
        if !said.is_empty() {
            page.hanging("      ", "        ", &format!("{word}{said}"));
        }
    }
    let mut details = Vec::new();
    if !row.reuse.is_empty() {
        details.push(row.reuse.clone());
    }
    if !row.preparation.is_empty() {
        details.push(format!("prepare: {}", row.preparation));
    }
    if !row.lock.is_empty() {
        details.push(format!("lock: {}", row.lock));
    }
    details.push(standing(row.standing));
    page.hanging("      ", "      ", &details.join(" | "));
}

fn standing(standing: Standing) -> String {
    match standing {
        Standing::InPlace => "not taken out".into(),
        Standing::Empty => "empty".into(),
        Standing::LeftOut => "empty on purpose".into(),
        Standing::Fitted(Tightness::Final) => "in, at final torque".into(),
        Standing::Fitted(tightness) => format!("IN BUT NOT TORQUED: {}", tightness.spoken()),
    }
}

/// The publications behind all computed values, numbered once for the whole sheet.
struct Sources<'s>(Vec<&'s str>);

impl<'s> Sources<'s> {
    fn of(sheet: &'s Sheet) -> Self {
        let mut all: Vec<&str> = Vec::new();
        for source in sheet.joints.iter().flat_map(|joint| &joint.sources) {
            if !all.contains(&source.as_str()) {
                all.push(source);
            }
        }
        Self(all)
    }

    fn cited_by(&self, joint: &SheetJoint) -> String {
        let numbers: Vec<usize> = (1..)
            .zip(&self.0)
            .filter(|(_, source)| joint.sources.iter().any(|own| own == *source))
            .map(|(number, _)| number)
            .collect();
        let what = match joint.published {
            Some(_) => "Loads computed",
            None => "Computed",
        };
        format!("{what} from sources {} at the end.", spans(&numbers))
    }

    fn list(&self, page: &mut Page) {
        if self.0.is_empty() {
            return;
        }
        page.rule('=');
        page.line("SOURCES OF COMPUTED VALUES");
        for (i, source) in self.0.iter().enumerate() {
            page.hanging(&format!("{:>3}  ", i + 1), "     ", source);
        }
    }
}

/// Rising numbers as people write them: `1 to 3, 5, 6`.
fn spans(numbers: &[usize]) -> String {
    let spans: Vec<String> = numbers
        .chunk_by(|a, b| a + 1 == *b)
        .map(|span| match span {
            [first, _, .., last] => format!("{first} to {last}"),
            [first, second] => format!("{first}, {second}"),
            _ => span.first().map(usize::to_string).unwrap_or_default(),
        })
        .collect();
    spans.join(", ")
}

fn foot(page: &mut Page, sheet: &Sheet) {
    page.rule('=');
    let hash: String = sheet
        .head
        .hash
        .iter()
        .take(6)
        .map(|b| format!("{b:02x}"))
        .collect();
    page.hanging(
        "",
        "",
        &format!(
            "Made {} from entry {} of {}; chain {hash}; catalogue {}.",
            made(sheet),
            sheet.head.entry,
            sheet.name,
            clampbook_book::CATALOGUE_EDITION
        ),
    );
}

fn made(sheet: &Sheet) -> String {
    let nanos = i128::from(sheet.head.made.0) * 1_000;
    OffsetDateTime::from_unix_timestamp_nanos(nanos)
        .ok()
        .and_then(|t| {
            t.format(format_description!(
                "[year]-[month]-[day] [hour]:[minute] UTC"
            ))
            .ok()
        })
        .unwrap_or_else(|| "at an unknown time".into())
}

#[cfg(test)]
mod tests {
    use super::spans;

    #[test]
    fn numbers_in_a_row_are_written_as_a_span() {
        assert_eq!(spans(&[1, 2, 3, 5, 6, 8]), "1 to 3, 5, 6, 8");
        assert_eq!(spans(&[4]), "4");
        assert_eq!(spans(&[]), "");
    }
}
