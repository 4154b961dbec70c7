//! Judging what is said about the people of the shop.

use super::shop::in_use;
use crate::judge::bounds::MOST_PEOPLE;
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::{Fact, PersonStated, PersonWithdrawn};
use crate::record::shop::Shop;
use crate::record::speaker::{UNNAMED, is_same_name};

/// An id is never given again: not to another name, because entries name it.
pub(super) fn create(shop: &Shop, stated: &PersonStated) -> Result<Vec<Fact>, Refusal> {
    if shop.person(&stated.person).is_some() {
        return Err(Refusal::Exists { name: name(stated) });
    }
    if shop.people().len() >= MOST_PEOPLE {
        return Err(Refusal::State {
            subject: "shop".into(),
            explanation: format!("has {MOST_PEOPLE} people, the maximum; revise one instead"),
        });
    }
    let mut wrong = taken_name(shop, stated);
    let id = stated.person.as_str();
    let called = shop
        .people_here()
        .find(|other| is_same_name(&other.name, id));
    wrong.extend(called.map(|other| {
        Violation::new(
            "person_id",
            format!(
                "\"{id}\" is the name of people/{}; choose another id",
                other.person
            ),
        )
    }));
    facts(wrong, stated)
}

pub(super) fn revise(shop: &Shop, stated: &PersonStated, etag: &str) -> Result<Vec<Fact>, Refusal> {
    in_use(shop.person(&stated.person), &name(stated), etag)?;
    facts(taken_name(shop, stated), stated)
}

pub(super) fn withdraw(
    shop: &Shop,
    withdrawn: &PersonWithdrawn,
    etag: &str,
) -> Result<Vec<Fact>, Refusal> {
    let name = format!("people/{}", withdrawn.person);
    in_use(shop.person(&withdrawn.person), &name, etag)?;
    Ok(vec![Fact::PersonWithdrawn(withdrawn.clone())])
}

fn name(stated: &PersonStated) -> String {
    format!("people/{}", stated.person)
}

/// A name, or what is typed in place of one, must mean one person.
fn taken_name(shop: &Shop, stated: &PersonStated) -> Vec<Violation> {
    let said = &stated.name;
    let wrong = |why| Violation::new("person.display_name", format!("\"{said}\" {why}"));
    let mut found = Vec::new();
    if is_same_name(said, UNNAMED) {
        found.push(wrong("is written down when nobody gives a name".into()));
    }
    let others = shop
        .people_here()
        .filter(|other| other.person != stated.person);
    for other in others {
        let id = &other.person;
        if is_same_name(said, &other.name) {
            found.push(wrong(format!(
                "is the name of people/{id}; add what tells the two apart"
            )));
        } else if is_same_name(said, id.as_str()) {
            found.push(wrong(format!(
                "is the id of people/{id}, {}; choose another name",
                other.name
            )));
        }
    }
    found
}

fn facts(wrong: Vec<Violation>, stated: &PersonStated) -> Result<Vec<Fact>, Refusal> {
    if wrong.is_empty() {
        Ok(vec![Fact::PersonStated(stated.clone())])
    } else {
        Err(Refusal::Invalid(wrong))
    }
}
