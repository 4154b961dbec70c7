//! Lubrications of the shop's own.

use crate::request::{self, int};
use crate::{Check, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::date::Date;
use clampbook_book::fact::{ConditionStated, ConditionWithdrawn};
use clampbook_book::ids::ConditionId;
use clampbook_book::shop::{Kept, Shop};
use clampbook_book::spoken::Spoken;
use clampbook_engine::Condition;

/// Most tests of one lubrication. Common practice: more than a shop does in its life.
const TESTS: u32 = 10_000;

/// Keeps a lubrication.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreateConditionRequest,
) -> Result<wire::Condition, Error> {
    let mut check = Check::default();
    let id = check.new_id("condition_id", &request.condition_id, ConditionId::new);
    let stated = stated(&mut check, id, request.condition.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(own(&call.create_condition(change).await?))
}

/// Keeps a new revision.
pub(crate) async fn revise(
    call: Call<'_>,
    request: wire::ReviseConditionRequest,
) -> Result<wire::Condition, Error> {
    let mut check = Check::default();
    let id = check.condition_name("name", &request.name);
    let etag = check.etag(&request.etag);
    let stated = stated(&mut check, id, request.condition.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(own(&call.revise_condition(change, etag).await?))
}

/// Uses a lubrication no more.
pub(crate) async fn withdraw(
    call: Call<'_>,
    request: wire::WithdrawConditionRequest,
) -> Result<wire::Condition, Error> {
    let mut check = Check::default();
    let id = check.condition_name("name", &request.name);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let withdrawn = id.map(|condition| ConditionWithdrawn { condition, reason });
    let change = check.shop_change(&request, withdrawn)?;
    Ok(own(&call.withdraw_condition(change, etag).await?))
}

fn stated(
    check: &mut Check,
    id: Option<ConditionId>,
    own: Option<&wire::OwnCondition>,
) -> Option<ConditionStated> {
    let own = check.required("condition", own)?;
    let display_name = check.required_text(
        "condition.display_name",
        &own.display_name,
        bounds::DESIGNATION,
    );
    let tested_by = check.required_text("condition.tested_by", &own.tested_by, bounds::SHORT);
    let tested = check.required_text("condition.tested", &own.tested, bounds::SENTENCE);
    let note = check.text("condition.note", &own.note, bounds::NOTE);
    let tested_on = own.tested_on.trim().to_owned();
    if Date::parse(&tested_on).is_none() {
        let form = "is not a day; allowed is a form such as 2026-03-02";
        check.wrong("condition.tested_on", form);
    }
    let test_count = u32::try_from(own.test_count)
        .ok()
        .filter(|count| (1..=TESTS).contains(count));
    if test_count.is_none() {
        check.wrong(
            "condition.test_count",
            format!("is {}; allowed are 1 to {TESTS}", own.test_count),
        );
    }
    Some(ConditionStated {
        condition: id?,
        // Which revision it is, is decided where it is written.
        revision: 0,
        display_name,
        nut_factor: own.nut_factor,
        low_nut_factor: own.low_nut_factor,
        high_nut_factor: own.high_nut_factor,
        lubricated: own.lubricated,
        test_count: test_count?,
        tested_by,
        tested_on,
        tested,
        note,
    })
}

/// A row of the catalogue on the wire, with all that the shop keeps of it if it is the shop's own.
pub(crate) fn condition(shop: &Shop, condition: &Condition) -> wire::Condition {
    let kept = ConditionId::new(condition.id()).and_then(|id| shop.condition(&id));
    match kept {
        Some(kept) if condition.is_own() => own(kept),
        _ => catalogue::condition(condition),
    }
}

/// What the shop keeps of a lubrication of its own.
fn own(kept: &Kept<ConditionStated>) -> wire::Condition {
    let stated = &kept.newest.fact;
    wire::Condition {
        name: names::condition(&stated.condition),
        display_name: stated.display_name.clone(),
        aliases: Vec::new(),
        nut_factor: stated.nut_factor,
        low_nut_factor: stated.low_nut_factor,
        high_nut_factor: stated.high_nut_factor,
        share_of_error: clampbook_engine::condition::share_of_error(stated.lubricated),
        sources: vec![wire::Source {
            source: format!("shop-{}", stated.condition),
            citation: stated.citation(),
            basis: wire::Basis::Shop.into(),
            used_for: String::new(),
        }],
        own: Some(wire::OwnCondition {
            display_name: stated.display_name.clone(),
            nut_factor: stated.nut_factor,
            low_nut_factor: stated.low_nut_factor,
            high_nut_factor: stated.high_nut_factor,
            lubricated: stated.lubricated,
            test_count: int(stated.test_count),
            tested_by: stated.tested_by.clone(),
            tested_on: stated.tested_on.clone(),
            tested: stated.tested.clone(),
            note: stated.note.clone(),
        }),
        revision: int(stated.revision),
        etag: kept.etag(),
        said: Some(request::said(&kept.newest.said)),
        withdrawn_because: kept
            .withdrawn
            .as_ref()
            .map(|withdrawn| withdrawn.reason.clone())
            .unwrap_or_default(),
        text: stated.text(),
    }
}
