//! Judging published specifications: one, a new revision, or a whole file.

mod stated;

use super::shop::in_use;
use crate::judge::bounds::MOST_SPECIFICATIONS;
use crate::judge::command::ImportedSpecification;
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::{Fact, Revision, SpecificationStated, SpecificationWithdrawn};
use crate::record::ids::SpecificationId;
use crate::record::shop::Shop;
use stated::violations;
use std::collections::HashMap;

pub(super) fn create(shop: &Shop, stated: &SpecificationStated) -> Result<Vec<Fact>, Refusal> {
    if shop.specification(&stated.specification).is_some() {
        return Err(Refusal::Exists {
            name: name(&stated.specification),
        });
    }
    has_room(shop, 1)?;
    let wrong = violations(stated, shop.catalogue());
    if wrong.is_empty() {
        Ok(vec![fact(stated, 1)])
    } else {
        Err(Refusal::Invalid(wrong))
    }
}

pub(super) fn revise(
    shop: &Shop,
    stated: &SpecificationStated,
    etag: &str,
) -> Result<Vec<Fact>, Refusal> {
    let id = &stated.specification;
    let kept = in_use(shop.specification(id), &name(id), etag)?;
    let wrong = violations(stated, shop.catalogue());
    if wrong.is_empty() {
        Ok(vec![fact(stated, kept.newest.fact.revision + 1)])
    } else {
        Err(Refusal::Invalid(wrong))
    }
}

pub(super) fn withdraw(
    shop: &Shop,
    withdrawn: &SpecificationWithdrawn,
    etag: &str,
) -> Result<Vec<Fact>, Refusal> {
    let id = &withdrawn.specification;
    in_use(shop.specification(id), &name(id), etag)?;
    Ok(vec![Fact::SpecificationWithdrawn(withdrawn.clone())])
}

/// Where the contract has what a column holds.
const PATH: &str = "specification.";

/// What is new is created, what differs is revised, what is as it was is left alone. One wrong line, and nothing is kept.
pub(super) fn import(shop: &Shop, lines: &[ImportedSpecification]) -> Result<Vec<Fact>, Refusal> {
    let wrong = wrong_lines(shop, lines);
    if !wrong.is_empty() {
        return Err(Refusal::Invalid(wrong));
    }
    let facts: Vec<Fact> = lines
        .iter()
        .filter_map(|line| news(shop, &line.stated))
        .collect();
    let is_new = |line: &&ImportedSpecification| {
        let id = &line.stated.specification;
        shop.specification(id).is_none()
    };
    has_room(shop, lines.iter().filter(is_new).count())?;
    Ok(facts)
}

/// What a line adds to what is kept; nothing when it is as it was.
fn news(shop: &Shop, stated: &SpecificationStated) -> Option<Fact> {
    let Some(kept) = shop.specification(&stated.specification) else {
        return Some(fact(stated, 1));
    };
    let newest = &kept.newest.fact;
    let again = SpecificationStated {
        revision: newest.revision,
        ..stated.clone()
    };
    (again != **newest).then(|| fact(stated, newest.revision + 1))
}

/// All that is wrong with the lines of a file, each named with its column.
#[must_use]
pub fn wrong_lines(shop: &Shop, lines: &[ImportedSpecification]) -> Vec<Violation> {
    let mut seen: HashMap<&SpecificationId, u64> = HashMap::new();
    let mut wrong = Vec::new();
    for ImportedSpecification { line, stated } in lines {
        let mut column = |one: &Violation| wrong.push(one.without(PATH).in_table(*line));
        let id = &stated.specification;
        if let Some(first) = seen.insert(id, *line) {
            let why = format!("{id} stands in line {first} already");
            column(&Violation::new("id", why));
            continue;
        }
        for violation in violations(stated, shop.catalogue()) {
            column(&violation);
        }
        if shop.specification(id).is_some_and(|kept| !kept.is_in_use()) {
            let why = format!("{id} was withdrawn; use another id");
            column(&Violation::new("id", why));
        }
    }
    wrong
}

fn has_room(shop: &Shop, new: usize) -> Result<(), Refusal> {
    if shop.specifications().count() + new <= MOST_SPECIFICATIONS {
        return Ok(());
    }
    Err(Refusal::State {
        subject: "shop".into(),
        explanation: format!(
            "can keep {MOST_SPECIFICATIONS} specifications; revise those that are there instead"
        ),
    })
}

fn name(id: &SpecificationId) -> String {
    format!("specifications/{id}")
}

fn fact(stated: &SpecificationStated, revision: Revision) -> Fact {
    Fact::SpecificationStated(SpecificationStated {
        revision,
        ..stated.clone()
    })
}
