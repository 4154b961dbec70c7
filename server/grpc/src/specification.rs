//! Published specifications that the shop keeps.

use crate::Validator;
use crate::page::{Sizes, of_list};
use crate::request::{self, int};
use crate::words::Word;
use clampbook_api::v1 as wire;
use clampbook_api::v1::specification_step::Step;
use clampbook_app::specification::{SaidSpecification, SaidStep, read_table, write_table};
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::fact::{
    Revision, SaidTorque, SpecificationStated, SpecificationWithdrawn, SpecifiedStep,
};
use clampbook_book::ids::SpecificationId;
use clampbook_book::shop::{Kept, Stated};
use clampbook_book::spoken::Spoken;
use clampbook_engine::Purpose;

const SIZES: Sizes = Sizes {
    default: 100,
    most: 500,
};

/// Keeps a specification.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreateSpecificationRequest,
) -> Result<wire::Specification, Error> {
    let mut check = Validator::default();
    let id = &request.specification_id;
    let id = check.new_id("specification_id", id, SpecificationId::new);
    let stated = stated(&mut check, id, request.specification.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(newest(&call.create_specification(change).await?))
}

/// Keeps a new revision.
pub(crate) async fn revise(
    call: Call<'_>,
    request: wire::ReviseSpecificationRequest,
) -> Result<wire::Specification, Error> {
    let mut check = Validator::default();
    let id = check.specification_name("name", &request.name);
    let etag = check.etag(&request.etag);
    let stated = stated(&mut check, id, request.specification.as_ref());
    let change = check.shop_change(&request, stated)?;
    Ok(newest(&call.revise_specification(change, etag).await?))
}

/// Lets a specification hold no more.
pub(crate) async fn withdraw(
    call: Call<'_>,
    request: wire::WithdrawSpecificationRequest,
) -> Result<wire::Specification, Error> {
    let mut check = Validator::default();
    let id = check.specification_name("name", &request.name);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let withdrawn = id.map(|specification| SpecificationWithdrawn {
        specification,
        reason,
    });
    let change = check.shop_change(&request, withdrawn)?;
    Ok(newest(&call.withdraw_specification(change, etag).await?))
}

/// Keeps a whole file of specifications.
pub(crate) async fn import(
    call: Call<'_>,
    request: wire::ImportSpecificationsRequest,
) -> Result<wire::ImportSpecificationsResponse, Error> {
    let mut check = Validator::default();
    let lines = read_table(&mut check, &request.csv, &call.shop());
    let change = check.shop_change(&request, Some(lines))?;
    let imported = call.import_specifications(change, request.validate_only);
    let imported = imported.await?;
    Ok(wire::ImportSpecificationsResponse {
        created_count: int(imported.created),
        revised_count: int(imported.revised),
        unchanged_count: int(imported.unchanged),
    })
}

/// A page of specifications as a table.
pub(crate) fn export(
    call: Call<'_>,
    request: wire::ExportSpecificationsRequest,
) -> Result<wire::ExportSpecificationsResponse, Error> {
    let mut check = Validator::default();
    let list = call.operation().name();
    let page = check.numbered_page(list, request.page_size, &request.page_token, SIZES);
    let (size, after) = check.finish(page)?;
    let shop = call.shop();
    let in_use = shop.specifications().filter(|kept| kept.is_in_use());
    let (page, next_page_token) = of_list(list, in_use, size, after);
    let stated = page.iter().map(|kept| &*kept.newest.fact);
    Ok(wire::ExportSpecificationsResponse {
        csv: write_table(stated)?,
        next_page_token,
    })
}

/// A specification, in the revision that is wanted or the newest.
pub(crate) fn get(
    call: Call<'_>,
    request: wire::GetSpecificationRequest,
) -> Result<wire::Specification, Error> {
    let mut check = Validator::default();
    let id = check.specification_name("name", &request.name);
    let revision = Revision::try_from(request.revision);
    if revision.is_err() {
        check.wrong("revision", "is negative; allowed are 0 and above");
    }
    let revision = revision.ok().filter(|revision| *revision > 0);
    let found = call.specification(&check.finish(id)?, revision)?;
    Ok(specification(&found.kept, &found.stated))
}

/// The specifications that the shop keeps.
pub(crate) fn list(
    call: Call<'_>,
    request: wire::ListSpecificationsRequest,
) -> Result<wire::ListSpecificationsResponse, Error> {
    let mut check = Validator::default();
    let list = call.operation().name();
    let page = check.numbered_page(list, request.page_size, &request.page_token, SIZES);
    let (size, after) = check.finish(page)?;
    let shop = call.shop();
    let (page, next_page_token) = of_list(list, shop.specifications(), size, after);
    Ok(wire::ListSpecificationsResponse {
        specifications: page.into_iter().map(newest).collect(),
        next_page_token,
    })
}

/// The specification a message describes.
fn stated(
    check: &mut Validator,
    id: Option<SpecificationId>,
    said: Option<&wire::Specification>,
) -> Option<SpecificationStated> {
    let said = check.required("specification", said)?;
    let steps = said.steps.iter().map(|step| match &step.step {
        Some(Step::Torque(said)) => SaidStep::Torque(said),
        Some(Step::TurnDegrees(degrees)) => SaidStep::TurnDegrees(*degrees),
        None => SaidStep::Torque(""),
    });
    let said = SaidSpecification {
        display_name: &said.display_name,
        thread: &said.thread,
        grade: &said.grade,
        lubrication: &said.lubrication,
        purpose: check.word::<Purpose>("specification.purpose", said.purpose),
        steps: steps.collect(),
        minimum_torque: &said.minimum_torque,
        maximum_torque: &said.maximum_torque,
        citation: &said.citation,
        unit_confirmed: said.unit_confirmed,
        note: &said.note,
    };
    check.specification(id, &said)
}

/// The newest revision on the wire.
pub(crate) fn newest(kept: &Kept<SpecificationStated>) -> wire::Specification {
    specification(kept, &kept.newest)
}

/// One revision on the wire.
fn specification(
    kept: &Kept<SpecificationStated>,
    stated: &Stated<SpecificationStated>,
) -> wire::Specification {
    let fact = &stated.fact;
    let torque = |torque: Option<&SaidTorque>| torque.map_or_else(String::new, |t| t.said.clone());
    wire::Specification {
        name: names::specification(&fact.specification),
        display_name: fact.display_name.clone(),
        thread: fact.thread.clone(),
        grade: fact.grade.clone(),
        lubrication: fact.lubrication.clone(),
        purpose: Purpose::from_id(&fact.purpose).unwrap_or_default().number(),
        steps: fact.steps.iter().map(step).collect(),
        minimum_torque: torque(fact.minimum.as_ref()),
        maximum_torque: torque(fact.maximum.as_ref()),
        citation: fact.citation.clone(),
        unit_confirmed: fact.unit_confirmed,
        note: fact.note.clone(),
        revision: int(fact.revision),
        newest_revision: int(kept.newest.fact.revision),
        etag: kept.etag(),
        said: Some(request::said(&stated.said)),
        withdrawn_because: kept
            .withdrawn
            .as_ref()
            .map(|withdrawn| withdrawn.reason.clone())
            .unwrap_or_default(),
        text: fact.text(),
    }
}

fn step(step: &SpecifiedStep) -> wire::SpecificationStep {
    let step = match step {
        SpecifiedStep::Torque(torque) => Step::Torque(torque.said.clone()),
        SpecifiedStep::TurnDegrees(degrees) => Step::TurnDegrees(*degrees),
    };
    wire::SpecificationStep { step: Some(step) }
}
