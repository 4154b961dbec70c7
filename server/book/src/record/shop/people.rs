//! The people of the shop, and who speaks.

use super::{Kept, Shop};
use crate::record::entry::Caller;
use crate::record::fact::PersonStated;
use crate::record::ids::PersonId;
use crate::record::speaker::{Speaker, is_same_name};
use crate::record::words::Known;

impl Shop {
    /// A person, with all that they were called.
    #[must_use]
    pub fn person(&self, id: &PersonId) -> Option<&Kept<PersonStated>> {
        self.people.get(id).map(|kept| &**kept)
    }

    /// All people, also withdrawn ones, by identifier.
    pub fn people(&self) -> impl ExactSizeIterator<Item = &Kept<PersonStated>> {
        self.people.values().map(|kept| &**kept)
    }

    /// The people who work here, by identifier.
    pub fn people_here(&self) -> impl Iterator<Item = &PersonStated> {
        let here = self.people().filter(|kept| kept.is_in_use());
        here.map(|kept| &*kept.newest.fact)
    }

    /// Who calls: the person who works here and has that id or that name, else somebody of that name.
    #[must_use]
    pub fn speaker(&self, caller: &Caller) -> Speaker {
        let called = Speaker::called(caller.person.clone());
        match called.known {
            Known::Open => called,
            Known::Named => match self.person_meant(&caller.person) {
                Some(person) => Speaker {
                    person: Some(person.person.clone()),
                    name: person.name.as_str().into(),
                    ..called
                },
                None => called,
            },
        }
    }

    /// The person meant by an id, `people/{id}` or a name.
    fn person_meant(&self, said: &str) -> Option<&PersonStated> {
        let id = said.strip_prefix("people/").unwrap_or(said);
        let by_id = PersonId::new(&id.trim().to_lowercase()).and_then(|id| self.person(&id));
        let by_id = by_id.filter(|kept| kept.is_in_use());
        by_id.map_or_else(
            || self.people_here().find(|p| is_same_name(&p.name, said)),
            |kept| Some(&kept.newest.fact),
        )
    }
}
