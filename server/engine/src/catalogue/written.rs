//! Texts as they are usually written, found at once: most of what a shop asks is written so, and reading a text takes
//! longer than computing the torque.

use super::Catalogue;
use crate::{designation::Designation, thread::Thread};
use std::collections::HashMap;

/// What reading makes of each usual text. One that reading refuses is not among them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Written<T>(HashMap<Box<str>, T>);

impl<T> Default for Written<T> {
    fn default() -> Self {
        Self(HashMap::new())
    }
}

impl<T: Copy> Written<T> {
    fn of<'a>(texts: impl Iterator<Item = &'a str>, read: impl Fn(&str) -> Option<T>) -> Self {
        Self(
            texts
                .filter_map(|text| Some((text.into(), read(text)?)))
                .collect(),
        )
    }

    /// What is meant, if it is a usual text.
    pub(super) fn get(&self, said: &str) -> Option<T> {
        self.0.get(said).copied()
    }
}

impl Written<(usize, Designation)> {
    /// Places in the list of threads, and full designations.
    pub(super) fn threads(catalogue: &Catalogue) -> Self {
        Self::of(catalogue.threads.iter().flat_map(usual), |text| {
            let (thread, designation) = catalogue.read_thread(text).ok()?;
            let place = catalogue
                .threads
                .iter()
                .position(|t| t.id() == thread.id())?;
            Some((place, designation))
        })
    }
}

impl Written<usize> {
    /// Places in the list of grades: `SAE J429 5` and `5`, `ISO 898-1 8.8` and `8.8`.
    pub(super) fn grades(catalogue: &Catalogue) -> Self {
        let texts = catalogue.grades.iter();
        Self::of(texts.flat_map(|g| [g.full_name(), g.name()]), |text| {
            let grade = catalogue.read_grade(text).ok()?;
            catalogue.grades.iter().position(|g| g.id() == grade.id())
        })
    }

    /// Places in the list of lubrications.
    pub(super) fn lubrications(catalogue: &Catalogue) -> Self {
        let texts = catalogue.lubrications.iter();
        Self::of(texts.flat_map(|c| [c.name(), c.id()]), |text| {
            let lubrication = catalogue.read_lubrication(text).ok()?;
            catalogue.lubrications.iter().position(|c| c == lubrication)
        })
    }
}

/// `7/16-20 UNF` and `7/16-20`; `M10x1.5` and `M10`.
fn usual(thread: &Thread) -> impl Iterator<Item = &'static str> + use<> {
    let whole = thread.designation();
    let start = |end: char| whole.split_once(end).map(|(start, _)| start);
    [Some(whole), start(' '), start('x')].into_iter().flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_usual_text_means_what_reading_makes_of_it() {
        let catalogue = Catalogue::built_in();
        for (text, (place, designation)) in &catalogue.written_threads.0 {
            let read = (&catalogue.threads[*place], *designation);
            assert_eq!(catalogue.read_thread(text), Ok(read), "{text}");
        }
        for (text, place) in &catalogue.written_grades.0 {
            let read = &catalogue.grades[*place];
            assert_eq!(catalogue.read_grade(text), Ok(read), "{text}");
        }
        for (text, place) in &catalogue.written_lubrications.0 {
            let read = &catalogue.lubrications[*place];
            assert_eq!(catalogue.read_lubrication(text), Ok(read), "{text}");
        }
    }

    #[test]
    fn only_usual_texts_are_found_at_once() {
        let catalogue = Catalogue::built_in();
        for text in ["7/16-20", "7/16-20 UNF", "M10x1.5", "M10", "2 BA"] {
            assert!(catalogue.written_threads.get(text).is_some(), "{text}");
        }
        for text in ["SAE J429 5", "8.8"] {
            assert!(catalogue.written_grades.get(text).is_some(), "{text}");
        }
        assert!(catalogue.written_lubrications.get("dry").is_some());
        for text in ["", "7/16 fine", " 7/16-20", "5", "grade 5", "rusty"] {
            assert_eq!(catalogue.written_threads.get(text), None, "{text}");
            assert_eq!(catalogue.written_lubrications.get(text), None, "{text}");
        }
        assert_eq!(catalogue.written_grades.get("grade 5"), None);
    }
}
