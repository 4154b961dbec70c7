//! The people of the shop.

use crate::page::{Sizes, of_list};
use crate::words::Word;
use crate::{Validator, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::fact::{PersonStated, PersonWithdrawn};
use clampbook_book::ids::PersonId;
use clampbook_book::shop::Kept;
use clampbook_book::spoken::Spoken;
use clampbook_book::words::PersonRole;

const SIZES: Sizes = Sizes {
    default: 100,
    most: 500,
};

/// Keeps a person.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreatePersonRequest,
) -> Result<wire::Person, Error> {
    let mut check = Validator::default();
    let id = check.new_id("person_id", &request.person_id, PersonId::new);
    let stated = stated(&mut check, id, request.person.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(person(&call.create_person(change).await?))
}

/// Keeps what a person is called and does from now on.
pub(crate) async fn revise(
    call: Call<'_>,
    request: wire::RevisePersonRequest,
) -> Result<wire::Person, Error> {
    let mut check = Validator::default();
    let id = check.person_name("name", &request.name);
    let etag = check.etag(&request.etag);
    let stated = stated(&mut check, id, request.person.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(person(&call.revise_person(change, etag).await?))
}

/// Lets a person speak for the shop no more.
pub(crate) async fn withdraw(
    call: Call<'_>,
    request: wire::WithdrawPersonRequest,
) -> Result<wire::Person, Error> {
    let mut check = Validator::default();
    let id = check.person_name("name", &request.name);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let withdrawn = id.map(|person| PersonWithdrawn { person, reason });
    let change = check.shop_change(&request, withdrawn)?;
    Ok(person(&call.withdraw_person(change, etag).await?))
}

/// The people that the shop keeps.
pub(crate) fn list(
    call: Call<'_>,
    request: wire::ListPeopleRequest,
) -> Result<wire::ListPeopleResponse, Error> {
    let mut check = Validator::default();
    let list = call.operation().name();
    let page = check.numbered_page(list, request.page_size, &request.page_token, SIZES);
    let (size, after) = check.finish(page)?;
    let shop = call.shop();
    let (page, next_page_token) = of_list(list, shop.people(), size, after);
    Ok(wire::ListPeopleResponse {
        people: page.into_iter().map(person).collect(),
        next_page_token,
    })
}

fn stated(
    check: &mut Validator,
    id: Option<PersonId>,
    said: Option<&wire::Person>,
) -> Option<PersonStated> {
    let said = check.required("person", said)?;
    let name = check.required_text("person.display_name", &said.display_name, bounds::SHORT);
    let field = "person.roles";
    let roles: Vec<PersonRole> = check.each(field, &said.roles, |check, field, role| {
        check.required_word(field, *role)
    });
    if said.roles.is_empty() {
        let words: Vec<&str> = PersonRole::ALL.iter().map(|role| role.id()).collect();
        check.wrong(
            field,
            format!("is required; allowed are {}", words.join(", ")),
        );
    }
    check.distinct(field, &roles);
    Some(PersonStated {
        person: id?,
        name,
        roles,
    })
}

/// What the shop keeps of a person.
fn person(kept: &Kept<PersonStated>) -> wire::Person {
    let stated = &kept.newest.fact;
    let withdrawn = kept.withdrawn.as_ref();
    wire::Person {
        name: names::person(&stated.person),
        display_name: stated.name.clone(),
        roles: stated.roles.iter().map(|role| role.number()).collect(),
        etag: kept.etag(),
        said: Some(request::said(
            withdrawn.map_or(&kept.newest.said, |withdrawn| &withdrawn.said),
        )),
        withdrawn_because: withdrawn
            .map(|withdrawn| withdrawn.reason.clone())
            .unwrap_or_default(),
        text: stated.text(),
    }
}
