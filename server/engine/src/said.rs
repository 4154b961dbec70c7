//! Comparing what somebody said with the names of the catalogue.
//!
//! Case, punctuation and filler words do not matter; `Grade5`, `gr. 5` and `SAE J429 grade 5` are
//! the same words. Looking up needs no heap: what was said becomes a key in a small buffer, the
//! names were turned into keys when the catalogue was made.

use std::collections::HashMap;

/// Longest text of any field, in bytes.
pub(crate) const LONGEST: usize = 64;

/// The words of a text: runs of letters, or numbers such as `8.8`.
pub(crate) fn words(text: &str) -> impl Iterator<Item = &str> + Clone {
    let mut rest = text;
    std::iter::from_fn(move || {
        let (_, from) = rest.split_at(rest.find(char::is_alphanumeric)?);
        let end = match from.starts_with(char::is_numeric) {
            true => from.find(|c: char| !(c.is_numeric() || c == '.')),
            false => from.find(|c: char| !c.is_alphabetic()),
        };
        let (word, tail) = from.split_at(end.unwrap_or(from.len()));
        rest = tail;
        Some(word.trim_end_matches('.'))
    })
}

/// Whether a word in small letters carries nothing: `grade 5` is `5`.
const fn is_filler(word: &[u8]) -> bool {
    matches!(
        word,
        b"grade"
            | b"gr"
            | b"class"
            | b"cl"
            | b"property"
            | b"lubrication"
            | b"bolt"
            | b"screw"
            | b"nut"
            | b"pc"
    )
}

/// The telling words of a text in small letters, each followed by a blank.
struct Key {
    text: [u8; Self::ROOM],
    len: usize,
}

impl Key {
    /// A blank after each letter or digit is the most a text can grow by.
    const ROOM: usize = 2 * LONGEST;

    /// The key of a text that is not longer than [`LONGEST`].
    fn of(said: &str) -> Option<Self> {
        let mut key = Self {
            text: [0; Self::ROOM],
            len: 0,
        };
        for word in words(said) {
            let room = key.text.get_mut(key.len..=key.len + word.len())?;
            let (small, blank) = room.split_at_mut(word.len());
            small.copy_from_slice(word.as_bytes());
            small.make_ascii_lowercase();
            if !is_filler(small) {
                blank.fill(b' ');
                key.len += word.len() + 1;
            }
        }
        Some(key)
    }

    fn bytes(&self) -> &[u8] {
        &self.text[..self.len]
    }
}

/// Names of many items, each leading to the item's index.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Names {
    /// One name may lead to several items; they are in their list's order, each once.
    items: HashMap<Box<[u8]>, Vec<usize>>,
}

impl Names {
    /// Names of the items of a list, in its order.
    pub(crate) fn new<'a, N>(items: impl Iterator<Item = N>) -> Self
    where
        N: Iterator<Item = &'a str>,
    {
        Self::leading(items.enumerate().flat_map(|(index, names)| {
            names.filter_map(move |name| Some((Key::of(name)?.bytes().into(), index)))
        }))
    }

    /// The same, each name with or without any part of its standard in front: `J429 5`, `SAE 5`.
    pub(crate) fn with_standards<'a, N>(items: impl Iterator<Item = (&'a str, N)>) -> Self
    where
        N: Iterator<Item = &'a str>,
    {
        Self::leading(items.enumerate().flat_map(|(index, (standard, names))| {
            let fronts = fronts(standard);
            names.flat_map(move |name| {
                // A marking such as F593C holds its standard already.
                let holds_standard = words(name).count() > 2
                    && words(name).take(2).all(|w| words(standard).any(|s| s == w));
                let fronts = if holds_standard {
                    &fronts[..1]
                } else {
                    &fronts[..]
                };
                let name = Key::of(name);
                let with = |front: &Vec<u8>| {
                    let key = [front.as_slice(), name.as_ref()?.bytes()].concat();
                    Some((key.into_boxed_slice(), index))
                };
                fronts.iter().filter_map(with).collect::<Vec<_>>()
            })
        }))
    }

    /// Keys and where each leads, in the order of the items.
    fn leading(keys: impl Iterator<Item = (Box<[u8]>, usize)>) -> Self {
        let mut items: HashMap<_, Vec<_>> = HashMap::new();
        for (key, index) in keys {
            let same = items.entry(key).or_default();
            if same.last() != Some(&index) {
                same.push(index);
            }
        }
        Self { items }
    }

    /// Whether a name can be told from others: it is not too long and has a telling word.
    pub(crate) fn can_hold(name: &str) -> bool {
        Key::of(name).is_some_and(|key| key.len > 0)
    }

    /// Indices of the items that are called this.
    pub(crate) fn called(&self, said: &str) -> impl Iterator<Item = usize> + Clone + '_ {
        let key = Key::of(said);
        let key = key.as_ref().map_or(&[][..], Key::bytes);
        self.items.get(key).into_iter().flatten().copied()
    }
}

/// Every part of a standard's words that keeps their order, also none at all.
fn fronts(standard: &str) -> Vec<Vec<u8>> {
    let mut fronts = vec![Vec::new()];
    for word in words(standard) {
        let mut word = word.to_ascii_lowercase().into_bytes();
        word.push(b' ');
        let longer: Vec<_> = fronts
            .iter()
            .map(|f| [f.as_slice(), &word].concat())
            .collect();
        fronts.extend(longer);
    }
    fronts
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
        let items = [("SAE J429", "5"), ("SAE J429", "8")];
        let names = Names::with_standards(items.into_iter().map(|(s, n)| (s, std::iter::once(n))));
        let called = |said| names.called(said).collect::<Vec<_>>();
        for said in [
            "5",
            "grade 5",
            "Grade5",
            "gr 5",
            "SAE 5",
            "J429 5",
            "SAE J429 grade 5",
        ] {
            assert_eq!(called(said), [0], "{said}");
        }
        for said in ["", "SAE", "SAE J429", "5.2", "5 5", "J429 SAE 5"] {
            assert_eq!(called(said), [], "{said}");
        }
    }

    #[test]
    fn one_name_may_lead_to_several() {
        let names = Names::new(
            [["CW", "CW1"], ["cw", "CW2"]]
                .into_iter()
                .map(|n| n.into_iter()),
        );
        assert_eq!(names.called("cw").collect::<Vec<_>>(), [0, 1]);
        assert_eq!(names.called("CW2").collect::<Vec<_>>(), [1]);
    }

    #[test]
    fn the_longest_text_has_room() {
        let worst = "a1".repeat(LONGEST / 2);
        assert_eq!(Key::of(&worst).map(|k| k.len), Some(Key::ROOM));
    }
}
