//! The people of the shop.

use clampbook_api::v1::{ListPeopleResponse, Person};

use super::{
    journal::stated,
    text::{led, stop},
};

/// All people by id.
pub(crate) fn list(list: &ListPeopleResponse) -> String {
    if list.people.is_empty() {
        return "The shop has named no people.\n".to_owned();
    }
    list.people.iter().map(one).collect()
}

/// One person.
pub(crate) fn one(person: &Person) -> String {
    let mut shown = led(&person.text);
    if !person.withdrawn_because.is_empty() {
        let why = format!("WITHDRAWN: {}", person.withdrawn_because);
        shown.push_str(&format!("{}\n", stop(&why)));
    }
    shown + &stated(person.said.as_ref())
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Said;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_person_is_shown_by_the_servers_text_and_why_they_left() {
        let ida = Person {
            text: "Person ida: Ida Holm; mechanic, lead".to_owned(),
            withdrawn_because: "moved away".to_owned(),
            said: Some(Said {
                display_name: "Otto".to_owned(),
                ..Said::default()
            }),
            ..Person::default()
        };
        let all = ListPeopleResponse {
            people: vec![ida],
            ..ListPeopleResponse::default()
        };
        assert_snapshot!(finish(&list(&all), Look::default()), @r"
        Person ida: Ida Holm; mechanic, lead
        WITHDRAWN: moved away
        Stated       by Otto, -
        ");
        let nobody = list(&ListPeopleResponse::default());
        assert_eq!(nobody, "The shop has named no people.\n");
    }
}
