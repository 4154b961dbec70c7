//! Who speaks: a person of the shop, somebody by a name alone, or nobody who is known.

use crate::record::ids::PersonId;
use crate::record::words::Known;
use std::sync::Arc;

/// Written down as the name when none is given.
pub const UNNAMED: &str = "local person";

/// Who speaks or asks, or who said something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Speaker {
    /// The person, if the shop has one of that name or id.
    pub person: Option<PersonId>,
    /// The name as it was when it was said.
    pub name: Arc<str>,
    /// How the person is known.
    pub known: Known,
}

impl Speaker {
    /// Somebody of whom a name is known and no more.
    #[must_use]
    pub fn called(name: Arc<str>) -> Self {
        let known = match &*name {
            "" | UNNAMED => Known::Open,
            _ => Known::Named,
        };
        Self {
            person: None,
            name,
            known,
        }
    }

    /// Whether this is known to be another person than that. An id is the person's own whatever the name; where one of
    /// the two has none, names tell. Of somebody who gave no name it is never known.
    #[must_use]
    pub fn is_another_than(&self, that: &Self) -> bool {
        if self.known == Known::Open || that.known == Known::Open {
            return false;
        }
        match (&self.person, &that.person) {
            (Some(this), Some(that)) => this != that,
            _ => !is_same_name(&self.name, &that.name),
        }
    }
}

/// Whether two names are the same to people, who care neither for capitals nor for blanks around them.
#[must_use]
pub fn is_same_name(one: &str, other: &str) -> bool {
    let lower = |name: &str| name.trim().to_lowercase();
    lower(one) == lower(other)
}

#[cfg(test)]
mod tests {
    use super::{Speaker, UNNAMED};
    use crate::record::ids::PersonId;

    fn person(id: &str, name: &str) -> Speaker {
        Speaker {
            person: PersonId::new(id),
            ..Speaker::called(name.into())
        }
    }

    fn another(one: &Speaker, other: &Speaker) -> bool {
        let answer = one.is_another_than(other);
        assert_eq!(answer, other.is_another_than(one), "{one:?} {other:?}");
        answer
    }

    #[test]
    fn one_id_is_one_person_whatever_the_name() {
        assert!(!another(&person("ida", "Ida"), &person("ida", "Ida Holm")));
        assert!(another(&person("ida", "Ida"), &person("ida-2", "Ida")));
    }

    #[test]
    fn names_tell_where_one_side_has_no_id() {
        let free = |name: &str| Speaker::called(name.into());
        for ida in [person("ida", "Ida Holm"), free("Ida Holm")] {
            assert!(!another(&ida, &free(" ida HOLM ")));
            assert!(another(&ida, &free("Ida")));
        }
        assert!(!another(&free("Žofie"), &free("žOFIE")));
        assert!(
            another(&person("ida", "Ida"), &free("ida-holm")),
            "a name is no id"
        );
    }

    #[test]
    fn somebody_without_a_name_is_never_known_to_be_another() {
        let open = Speaker::called(UNNAMED.into());
        for other in [
            open.clone(),
            person("ida", "Ida"),
            Speaker::called("Ida".into()),
        ] {
            assert!(!another(&open, &other));
        }
    }
}
