//! Judging a lubrication of the shop's own.

use super::shop::in_use;
use crate::judge::bounds::MOST_LUBRICATIONS;
use crate::judge::refusal::{Refusal, Violation};
use crate::record::context::Context;
use crate::record::date::Date;
use crate::record::fact::{Fact, LubricationStated, LubricationWithdrawn};
use crate::record::shop::Shop;
use clampbook_engine::{OwnLubrication, OwnLubricationAsk};

pub(super) fn create(
    shop: &Shop,
    stated: &LubricationStated,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    if shop.lubrication(&stated.lubrication).is_some() {
        return Err(Refusal::Exists { name: name(stated) });
    }
    if shop.lubrications().len() >= MOST_LUBRICATIONS {
        return Err(Refusal::State {
            subject: "shop".into(),
            explanation: format!(
                "has {MOST_LUBRICATIONS} own lubrications, the maximum; revise one instead"
            ),
        });
    }
    let mut wrong = wrong_values(stated, context);
    let mut free = |field: &str, said: &str| {
        if let Err(reason) = shop.catalogue().is_free_for_lubrication(said) {
            wrong.push(Violation::new(field, reason.to_string()));
        }
    };
    free("lubrication_id", stated.lubrication.as_str());
    free("lubrication.display_name", &stated.display_name);
    facts(wrong, stated, 1)
}

pub(super) fn revise(
    shop: &Shop,
    stated: &LubricationStated,
    etag: &str,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    let kept = in_use(shop.lubrication(&stated.lubrication), &name(stated), etag)?;
    let mut wrong = wrong_values(stated, context);
    let called = &kept.newest.fact.display_name;
    if stated.display_name != *called {
        wrong.push(Violation::new(
            "lubrication.display_name",
            format!(
                "is \"{}\"; a revision keeps the name \"{called}\", by which records know it",
                stated.display_name
            ),
        ));
    }
    facts(wrong, stated, kept.newest.fact.revision + 1)
}

pub(super) fn withdraw(
    shop: &Shop,
    withdrawn: &LubricationWithdrawn,
    etag: &str,
) -> Result<Vec<Fact>, Refusal> {
    let name = format!("lubrications/{}", withdrawn.lubrication);
    in_use(shop.lubrication(&withdrawn.lubrication), &name, etag)?;
    Ok(vec![Fact::LubricationWithdrawn(withdrawn.clone())])
}

fn name(stated: &LubricationStated) -> String {
    format!("lubrications/{}", stated.lubrication)
}

fn wrong_values(stated: &LubricationStated, context: &Context<'_>) -> Vec<Violation> {
    let row = OwnLubrication::new(&OwnLubricationAsk {
        id: stated.lubrication.as_str(),
        name: &stated.display_name,
        nut_factor: stated.nut_factor,
        low_nut_factor: stated.low_nut_factor,
        high_nut_factor: stated.high_nut_factor,
        lubricated: stated.lubricated,
        citation: "",
        note: "",
    });
    let mut wrong: Vec<Violation> = row
        .err()
        .unwrap_or_default()
        .into_iter()
        .map(|fault| {
            let field = format!("lubrication.{}", fault.field);
            Violation::new(field, fault.reason.to_string())
        })
        .collect();
    if Date::parse(&stated.tested_on).is_some_and(|day| day.is_after(context.now)) {
        wrong.push(Violation::new(
            "lubrication.tested_on",
            format!("{} lies in the future", stated.tested_on),
        ));
    }
    wrong
}

fn facts(
    wrong: Vec<Violation>,
    stated: &LubricationStated,
    revision: u32,
) -> Result<Vec<Fact>, Refusal> {
    if wrong.is_empty() {
        Ok(vec![Fact::LubricationStated(LubricationStated {
            revision,
            ..stated.clone()
        })])
    } else {
        Err(Refusal::Invalid(wrong))
    }
}
