//! Judging a lubrication of the shop's own.

use super::shop::in_use;
use crate::judge::refusal::{Refusal, Violation};
use crate::record::context::Context;
use crate::record::date::Date;
use crate::record::fact::{ConditionStated, ConditionWithdrawn, Fact};
use crate::record::shop::Shop;
use clampbook_engine::{OwnCondition, OwnConditionAsk};

/// Most lubrications of a shop's own. Common practice: far more than any shop tests.
pub const MOST_CONDITIONS: usize = 500;

pub(super) fn create(
    shop: &Shop,
    stated: &ConditionStated,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    if shop.condition(&stated.condition).is_some() {
        return Err(Refusal::Exists { name: name(stated) });
    }
    if shop.conditions().len() >= MOST_CONDITIONS {
        return Err(Refusal::State {
            subject: "shop".into(),
            explanation: format!(
                "has {MOST_CONDITIONS} own conditions, the maximum; revise one instead"
            ),
        });
    }
    let mut wrong = wrong_values(stated, context);
    let mut free = |field: &str, said: &str| {
        if let Err(reason) = shop.catalogue().is_free_for_condition(said) {
            wrong.push(Violation::new(field, reason.to_string()));
        }
    };
    free("condition_id", stated.condition.as_str());
    free("condition.display_name", &stated.display_name);
    facts(wrong, stated, 1)
}

pub(super) fn revise(
    shop: &Shop,
    stated: &ConditionStated,
    etag: &str,
    context: &Context<'_>,
) -> Result<Vec<Fact>, Refusal> {
    let kept = in_use(shop.condition(&stated.condition), &name(stated), etag)?;
    let mut wrong = wrong_values(stated, context);
    let called = &kept.newest.fact.display_name;
    if stated.display_name != *called {
        wrong.push(Violation::new(
            "condition.display_name",
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
    withdrawn: &ConditionWithdrawn,
    etag: &str,
) -> Result<Vec<Fact>, Refusal> {
    let name = format!("conditions/{}", withdrawn.condition);
    in_use(shop.condition(&withdrawn.condition), &name, etag)?;
    Ok(vec![Fact::ConditionWithdrawn(withdrawn.clone())])
}

fn name(stated: &ConditionStated) -> String {
    format!("conditions/{}", stated.condition)
}

fn wrong_values(stated: &ConditionStated, context: &Context<'_>) -> Vec<Violation> {
    let row = OwnCondition::new(&OwnConditionAsk {
        id: stated.condition.as_str(),
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
            let field = format!("condition.{}", fault.field);
            Violation::new(field, fault.reason.to_string())
        })
        .collect();
    if Date::parse(&stated.tested_on).is_some_and(|day| day.is_after(context.now)) {
        wrong.push(Violation::new(
            "condition.tested_on",
            format!("{} lies in the future", stated.tested_on),
        ));
    }
    wrong
}

fn facts(
    wrong: Vec<Violation>,
    stated: &ConditionStated,
    revision: u32,
) -> Result<Vec<Fact>, Refusal> {
    if wrong.is_empty() {
        Ok(vec![Fact::ConditionStated(ConditionStated {
            revision,
            ..stated.clone()
        })])
    } else {
        Err(Refusal::Invalid(wrong))
    }
}
