//! Flags, and the rules that raise them.

use crate::page::{Sizes, of_list};
use crate::words::Word;
use crate::{Validator, job};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::ids::JobId;
use clampbook_book::rules::{self as book, Flag, On, Rule};
use clampbook_book::spoken;

const FLAGS: Sizes = Sizes {
    default: 200,
    most: 1_000,
};

/// Open flags of a job.
pub(crate) async fn list(
    call: Call<'_>,
    request: wire::ListFlagsRequest,
) -> Result<wire::ListFlagsResponse, Error> {
    let mut check = Validator::default();
    let id = check.job_name("parent", &request.parent);
    let list = format!("ListFlags {}", request.parent);
    let page = check.judged_page(&list, request.page_size, &request.page_token, FLAGS);
    let (id, page) = check.finish(id.zip(page))?;
    let judged = call.flags(&id, page.at).await?;
    let (shown, next_page_token) = page.of(&list, judged.at, &judged.flags);
    Ok(wire::ListFlagsResponse {
        flags: flags(&id, shown),
        next_page_token,
    })
}

/// The rules.
pub(crate) async fn rules(
    call: Call<'_>,
    request: wire::ListRulesRequest,
) -> Result<wire::ListRulesResponse, Error> {
    let mut check = Validator::default();
    let list = call.operation().name();
    let page = check.numbered_page(list, request.page_size, &request.page_token, job::JOBS);
    let (size, after) = check.finish(page)?;
    let (rules, next_page_token) = of_list(list, call.rules(), size, after);
    Ok(wire::ListRulesResponse {
        rules: rules.into_iter().map(|rule| on_wire(rule)).collect(),
        next_page_token,
    })
}

/// One rule.
pub(crate) async fn rule(
    call: Call<'_>,
    request: wire::GetRuleRequest,
) -> Result<wire::Rule, Error> {
    let mut check = Validator::default();
    let id = check.rule_name("name", &request.name);
    Ok(on_wire(call.rule(check.finish(id)?)?))
}

/// Flags on the wire.
pub(crate) fn flags(job: &JobId, flags: &[Flag]) -> Vec<wire::Flag> {
    flags.iter().map(|f| flag(job, f)).collect()
}

/// A flag on the wire.
pub(crate) fn flag(job: &JobId, flag: &Flag) -> wire::Flag {
    let (joint, assembly) = match &flag.on {
        On::Joint(id) => (names::joint(job, id), String::new()),
        On::Assembly(id) => (String::new(), names::assembly(job, id)),
    };
    let (proposed, hold_for) = book::proposal(flag).unzip();
    wire::Flag {
        rule: flag.rule.into(),
        severity: flag.severity.number(),
        joint,
        position: flag.position.into(),
        cause: flag.cause.clone(),
        clears: flag.clears.into(),
        entries: flag.entries.iter().map(|n| names::entry(job, *n)).collect(),
        assembly,
        proposed: proposed.map_or(0, Word::number),
        proposed_hold_reason: hold_for.flatten().map_or(0, Word::number),
        text: spoken::flag(flag),
    }
}

/// A rule on the wire.
fn on_wire(rule: &Rule) -> wire::Rule {
    wire::Rule {
        name: names::rule(rule.id),
        title: rule.title.into(),
        raised_when: rule.raised_when.into(),
        cleared_by: rule.cleared_by.into(),
        source: rule.source.into(),
    }
}
