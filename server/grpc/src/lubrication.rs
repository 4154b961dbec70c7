//! Lubrications of the shop's own.

use crate::request::{self, int};
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::date::Date;
use clampbook_book::fact::{LubricationStated, LubricationWithdrawn};
use clampbook_book::ids::LubricationId;
use clampbook_book::shop::{Kept, Shop};
use clampbook_book::shown;
use clampbook_book::spoken::Spoken;
use clampbook_engine::Lubrication;

/// Most tests of one lubrication. Common practice: more than a shop does in its life.
const TESTS: u32 = 10_000;

/// Keeps a lubrication.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreateLubricationRequest,
) -> Result<wire::Lubrication, Error> {
    let mut check = Validator::default();
    let id = check.new_id(
        "lubrication_id",
        &request.lubrication_id,
        LubricationId::new,
    );
    let stated = stated(&mut check, id, request.lubrication.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(own(&call.create_lubrication(change).await?))
}

/// Keeps a new revision.
pub(crate) async fn revise(
    call: Call<'_>,
    request: wire::ReviseLubricationRequest,
) -> Result<wire::Lubrication, Error> {
    let mut check = Validator::default();
    let id = check.lubrication_name("name", &request.name);
    let etag = check.etag(&request.etag);
    let stated = stated(&mut check, id, request.lubrication.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(own(&call.revise_lubrication(change, etag).await?))
}

/// Uses a lubrication no more.
pub(crate) async fn withdraw(
    call: Call<'_>,
    request: wire::WithdrawLubricationRequest,
) -> Result<wire::Lubrication, Error> {
    let mut check = Validator::default();
    let id = check.lubrication_name("name", &request.name);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let withdrawn = id.map(|lubrication| LubricationWithdrawn {
        lubrication,
        reason,
    });
    let change = check.shop_change(&request, withdrawn)?;
    Ok(own(&call.withdraw_lubrication(change, etag).await?))
}

fn stated(
    check: &mut Validator,
    id: Option<LubricationId>,
    own: Option<&wire::OwnLubrication>,
) -> Option<LubricationStated> {
    let own = check.required("lubrication", own)?;
    let display_name = check.required_text(
        "lubrication.display_name",
        &own.display_name,
        bounds::DESIGNATION,
    );
    let tested_by = check.required_text("lubrication.tested_by", &own.tested_by, bounds::SHORT);
    let tested = check.required_text("lubrication.tested", &own.tested, bounds::SENTENCE);
    let note = check.text("lubrication.note", &own.note, bounds::NOTE);
    let tested_on = own.tested_on.trim().to_owned();
    if Date::parse(&tested_on).is_none() {
        let form = "is not a day; allowed is a form such as 2026-03-02";
        check.wrong("lubrication.tested_on", form);
    }
    let test_count = u32::try_from(own.test_count)
        .ok()
        .filter(|count| (1..=TESTS).contains(count));
    if test_count.is_none() {
        check.wrong(
            "lubrication.test_count",
            format!("is {}; allowed are 1 to {TESTS}", own.test_count),
        );
    }
    Some(LubricationStated {
        lubrication: id?,
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
pub(crate) fn lubrication(shop: &Shop, lubrication: &Lubrication) -> wire::Lubrication {
    let kept = LubricationId::new(lubrication.id()).and_then(|id| shop.lubrication(&id));
    match kept {
        Some(kept) if lubrication.is_own() => own(kept),
        _ => catalogue::lubrication(lubrication),
    }
}

/// What the shop keeps of a lubrication of its own.
fn own(kept: &Kept<LubricationStated>) -> wire::Lubrication {
    let stated = &kept.newest.fact;
    let scatter = clampbook_engine::lubrication::relative_scatter(stated.lubricated);
    wire::Lubrication {
        name: names::lubrication(&stated.lubrication),
        display_name: stated.display_name.clone(),
        aliases: Vec::new(),
        nut_factor: stated.nut_factor,
        low_nut_factor: stated.low_nut_factor,
        high_nut_factor: stated.high_nut_factor,
        relative_scatter: scatter,
        nut_factor_text: shown::nut_factor(stated.nut_factor),
        reported_text: format!(
            "{} to {}",
            shown::nut_factor(stated.low_nut_factor),
            shown::nut_factor(stated.high_nut_factor)
        ),
        scatter_text: catalogue::band(scatter),
        sources: vec![wire::Source {
            source: format!("shop-{}", stated.lubrication),
            citation: stated.citation(),
            basis: wire::Basis::Shop.into(),
            used_for: String::new(),
        }],
        own: Some(wire::OwnLubrication {
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
