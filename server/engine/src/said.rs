//! Comparing what somebody said with the names of the catalogue.
//!
//! Case, punctuation and filler words do not matter; `Grade5`, `gr. 5` and `SAE J429 grade 5` are
//! the same words. Nothing here needs the heap.

/// Longest text of any field, in bytes.
pub(crate) const LONGEST: usize = 64;

/// Words that carry nothing: `grade 5` is `5`.
const FILLERS: [&str; 10] = [
    "grade",
    "gr",
    "class",
    "cl",
    "property",
    "condition",
    "bolt",
    "screw",
    "nut",
    "pc",
];

/// The words of a text: runs of letters, or numbers such as `8.8`.
pub(crate) fn words(text: &str) -> impl Iterator<Item = &str> + Clone {
    let mut rest = text;
    std::iter::from_fn(move || {
        rest = rest.trim_start_matches(|c: char| !c.is_alphanumeric());
        let first = rest.chars().next()?;
        let inside = |c: char| {
            if first.is_numeric() {
                c.is_numeric() || c == '.'
            } else {
                c.is_alphabetic()
            }
        };
        let end = rest.find(|c| !inside(c)).unwrap_or(rest.len());
        let (word, tail) = rest.split_at(end);
        rest = tail;
        Some(word.trim_end_matches('.'))
    })
}

/// Whether two texts have the same words.
pub(crate) fn same(a: &str, b: &str) -> bool {
    same_words(words(a), words(b))
}

/// Whether a text names this item: its name or an alias, with or without (part of) its
/// standard in front.
pub(crate) fn names(said: &str, standard: &str, name: &str, aliases: &[&str]) -> bool {
    let without_standard = after_standard(said, standard);
    std::iter::once(&name).chain(aliases).any(|n| {
        same_words(without_standard.clone(), telling(n)) || same_words(telling(said), telling(n))
    })
}

/// The telling words after those that only repeat the standard, in its order.
fn after_standard<'a>(said: &'a str, standard: &'a str) -> impl Iterator<Item = &'a str> + Clone {
    let mut left = words(standard);
    let mut rest = telling(said);
    loop {
        let mut ahead = rest.clone();
        match ahead.next() {
            Some(word) if left.any(|s| s.eq_ignore_ascii_case(word)) => rest = ahead,
            _ => return rest,
        }
    }
}

fn telling(text: &str) -> impl Iterator<Item = &str> + Clone {
    words(text).filter(|w| !FILLERS.iter().any(|f| f.eq_ignore_ascii_case(w)))
}

fn same_words<'a>(a: impl Iterator<Item = &'a str>, mut b: impl Iterator<Item = &'a str>) -> bool {
    let mut some = false;
    for word in a {
        some = true;
        if !b
            .next()
            .is_some_and(|other| other.eq_ignore_ascii_case(word))
        {
            return false;
        }
    }
    some && b.next().is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_split_where_letters_meet_digits() {
        let split = |t| words(t).collect::<Vec<_>>();
        assert_eq!(split("SAE J429 gr. 5"), ["SAE", "J", "429", "gr", "5"]);
        assert_eq!(split("ISO 898-1 8.8"), ["ISO", "898", "1", "8.8"]);
        assert_eq!(split("A2-70"), ["A", "2", "70"]);
        assert_eq!(split(" - "), [""; 0]);
    }

    #[test]
    fn a_name_is_known_with_part_of_its_standard() {
        let five = |said| names(said, "SAE J429", "5", &[]);
        for said in [
            "5",
            "grade 5",
            "Grade5",
            "gr 5",
            "SAE 5",
            "J429 5",
            "SAE J429 grade 5",
        ] {
            assert!(five(said), "{said}");
        }
        for said in ["", "SAE", "SAE J429", "5.2", "8", "5 5", "J429 SAE 5"] {
            assert!(!five(said), "{said}");
        }
    }
}
