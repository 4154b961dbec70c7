//! Which grades a head may be, from its marks.

use crate::{
    catalogue::{Catalogue, sensible},
    fault::FaultReason,
    grade::Grade,
};

/// Words that tell nothing about a mark.
const NOISE: [&str; 17] = [
    "an", "the", "on", "of", "with", "and", "head", "mark", "marks", "marked", "marking", "letter",
    "radial", "degrees", "apart", "bolt", "raised",
];

/// Other words for the words of the tables.
const SAME: [(&str, &str); 18] = [
    ("unmarked", "no"),
    ("plain", "no"),
    ("bare", "no"),
    ("blank", "no"),
    ("none", "no"),
    ("nothing", "no"),
    ("without", "no"),
    ("2", "two"),
    ("3", "three"),
    ("5", "five"),
    ("6", "six"),
    ("line", "lines"),
    ("dash", "lines"),
    ("dashes", "lines"),
    ("tick", "lines"),
    ("ticks", "lines"),
    ("slashes", "lines"),
    ("captured", "captive"),
];

/// A grade that carries the mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadMatch<'c> {
    /// The grade.
    pub grade: &'c Grade,
    /// Minimum tensile strength over its sizes, in MPa, by which the list is ordered.
    pub weakest_tensile_mpa: f64,
}

impl Catalogue {
    /// Grades whose head mark has the words said, in that order, the weakest first; empty when none has.
    ///
    /// # Errors
    /// Missing or too long.
    pub fn identify_head(&self, said: &str) -> Result<Vec<HeadMatch<'_>>, FaultReason> {
        sensible(said)?;
        let wanted: Vec<String> = telling(said);
        if wanted.is_empty() {
            return Err(FaultReason::Missing);
        }
        let mut found: Vec<_> = self
            .grades()
            .iter()
            .filter(|grade| {
                let marked = telling(grade.head_marking());
                marked.windows(wanted.len()).any(|part| part == wanted)
            })
            .map(|grade| HeadMatch {
                grade,
                weakest_tensile_mpa: grade
                    .strengths()
                    .map(|s| s.tensile().get())
                    .min_by(f64::total_cmp)
                    .unwrap_or_default(),
            })
            .collect();
        found.sort_by(|a, b| a.weakest_tensile_mpa.total_cmp(&b.weakest_tensile_mpa));
        Ok(found)
    }
}

/// The words of a mark, in small letters, each in the table's own word; `8.8`, `A2-70` and `F593A` are one.
fn telling(text: &str) -> Vec<String> {
    // A maker's own mark is no grade.
    let text = text
        .to_lowercase()
        .replace("a maker's", "")
        .replace("maker's", "");
    text.split(|c: char| !(c.is_alphanumeric() || c == '.' || c == '-'))
        .map(|word| word.trim_matches(['.', '-']))
        .filter(|word| !word.is_empty() && !NOISE.contains(word))
        .map(|word| {
            let same = SAME.iter().find(|(other, _)| *other == word);
            same.map_or(word, |(_, ours)| *ours).to_owned()
        })
        .collect()
}
