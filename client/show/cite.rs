//! Publications on the terminal: short enough for one screen, long enough to find them. `--json` has them in full.

use clampbook_api::v1::{Basis, Source};

use super::text::{paragraph, paragraphs};
use crate::args::Word;

/// A publication in full; with a word where the value was not simply read in it.
pub(super) fn in_full(source: &Source) -> String {
    format!("{}{}", source.citation, how(source))
}

/// Publications in one paragraph, a sentence for each thing they were used for.
pub(super) fn sources(sources: &[Source]) -> String {
    let mut shown: Vec<(&str, Vec<String>)> = Vec::new();
    for one in sources {
        let place = match one.basis() {
            // No library has it: who tested, when and what is all there is.
            Basis::Shop => one.citation.clone(),
            _ => short(&one.citation),
        };
        let said = format!("{place}{}", how(one));
        match shown.iter_mut().find(|(used, _)| *used == one.used_for) {
            Some((_, line)) if line.contains(&said) => {}
            Some((_, line)) => line.push(said),
            None => shown.push((&one.used_for, vec![said])),
        }
    }
    let sentences: Vec<String> = shown.into_iter().map(sentence).collect();
    match sentences.is_empty() {
        true => String::new(),
        false => paragraph("Sources", &sentences.join(" ")),
    }
}

/// `Nut factor: one; another.`
fn sentence((used_for, places): (&str, Vec<String>)) -> String {
    let places = places.join("; ");
    let mut letters = used_for.chars();
    let Some(first) = letters.next() else {
        return places;
    };
    let end = if places.ends_with('.') { "" } else { "." };
    format!(
        "{}{}: {places}{end}",
        first.to_uppercase(),
        letters.as_str()
    )
}

/// Publications of many rows in full, each once.
pub(super) fn once<'a>(sources: impl Iterator<Item = &'a Source>) -> String {
    let mut once: Vec<String> = Vec::new();
    for one in sources.map(in_full) {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    paragraphs("Sources", once)
}

/// How the value came out of it, where that is not simply by reading.
fn how(source: &Source) -> String {
    match source.basis() {
        Basis::Found | Basis::FoundAndComputed => String::new(),
        Basis::Memory => " (FROM MEMORY)".to_owned(),
        _ => format!(" ({})", Basis::said_of(source.basis)),
    }
}

/// What finds the place: the designation of a standard with table or paragraph, else the title without its remarks.
fn short(citation: &str) -> String {
    const PLACES: [&str; 5] = ["table", "paragraph", "section", "equation", "p. "];
    let (head, rest) = citation.split_once(", ").unwrap_or((citation, ""));
    // Of a book, author, edition and place find it.
    if let Some((before, place)) = citation.split_once(" ed., ")
        && let Some((_, edition)) = before.rsplit_once(", ")
        && edition.len() < before.len() - head.len()
    {
        return format!("{head}, {edition} ed., {}", without_remarks(place));
    }
    if !head.contains(|c: char| c.is_ascii_digit())
        || without_remarks(head) != head && !head.ends_with(')')
    {
        return without_remarks(citation).to_owned();
    }
    if PLACES.iter().any(|place| rest.starts_with(place)) {
        let place = rest.split(", ").next().unwrap_or(rest);
        return format!("{head}, {}", without_remarks(place));
    }
    head.to_owned()
}

fn without_remarks(text: &str) -> &str {
    [": ", "; ", " (", " with ", " by "]
        .iter()
        .filter_map(|mark| text.find(mark))
        .min()
        .map_or(text, |end| &text[..end])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_citation_is_cut_where_it_can_still_be_found() {
        for (citation, shown) in [
            (
                "Shigley, Mechanical Engineering Design, 9th ed., table 8-2 (from ANSI B1.1-1974)",
                "Shigley, 9th ed., table 8-2",
            ),
            (
                "Trade torque charts in the style of the IFI fastener standards, 5th ed. (K 0.20 plain)",
                "Trade torque charts in the style of the IFI fastener standards, 5th ed.",
            ),
            (
                "SAE J429, Mechanical and Material Requirements for Externally Threaded Fasteners",
                "SAE J429",
            ),
            (
                "VDI 2230 part 1 (2003), tables A9 (limiting surface pressure, shear strength) and 5",
                "VDI 2230 part 1 (2003), tables A9",
            ),
            (
                "FAA AC 43.13-1B (1998), paragraphs 7-36 and 7-37: grip, and at least one full thread",
                "FAA AC 43.13-1B (1998), paragraphs 7-36 and 7-37",
            ),
            (
                "Rule of the trade for engagement: 1 d steel, 1.25 to 1.5 d iron and bronze",
                "Rule of the trade for engagement",
            ),
            (
                "Trade table of Unified threads; every value agrees with the ASME B1.1 formula",
                "Trade table of Unified threads",
            ),
            (
                "Trade chart of nut factors by finish and joint material",
                "Trade chart of nut factors",
            ),
        ] {
            assert_eq!(short(citation), shown);
        }
    }

    #[test]
    fn what_was_used_for_the_same_stands_together_and_once() {
        let source = |used_for: &str, citation: &str, basis: Basis| Source {
            citation: citation.to_owned(),
            used_for: used_for.to_owned(),
            basis: basis.into(),
            ..Source::default()
        };
        let shown = sources(&[
            source("thread", "ISO 724:1993, basic dimensions", Basis::Found),
            source(
                "grade",
                "ISO 898-1:2013, Mechanical properties",
                Basis::Memory,
            ),
            source("thread", "ISO 724:1993, basic sizes", Basis::Found),
            source("thread", "BS 93:1951, threads", Basis::Computed),
        ]);
        assert_eq!(
            shown,
            "Sources      Thread: ISO 724:1993; BS 93:1951 (computed). Grade: ISO 898-1:2013\n             \
             (FROM MEMORY).\n"
        );
    }
}
