//! `specification.proto` and its requests.

use super::words::Word;
use super::{Check, common, specification_table};
use crate::app::Error;
use crate::app::shop::ShopChange;
use clampbook_api::v1 as wire;
use clampbook_api::v1::specification_step::Step;
use clampbook_book::bounds;
use clampbook_book::command::ShopCommand;
use clampbook_book::fact::{
    Fact, Revision, SaidTorque, SpecificationStated, SpecificationWithdrawn, SpecifiedStep,
};
use clampbook_book::ids::SpecificationId;
use clampbook_book::refusal::Violation;
use clampbook_book::shop::{self, Kept, MOST_STEPS, Shop, Stated};
use clampbook_engine::Purpose;

/// Keeps a specification.
///
/// # Errors
/// All violations.
pub(crate) fn create(request: &wire::CreateSpecificationRequest) -> Result<ShopChange, Error> {
    let mut check = Check::default();
    let id = &request.specification_id;
    let id = check.new_id("specification_id", id, SpecificationId::new);
    let stated = stated(&mut check, id, request.specification.as_ref());
    check.shop_change(request, stated.map(ShopCommand::CreateSpecification))
}

/// Keeps a new revision.
///
/// # Errors
/// All violations.
pub(crate) fn revise(request: &wire::ReviseSpecificationRequest) -> Result<ShopChange, Error> {
    let mut check = Check::default();
    let id = check.specification_name("name", &request.name);
    let etag = check.etag(&request.etag);
    let stated = stated(&mut check, id, request.specification.as_ref());
    let command = stated.map(|stated| ShopCommand::ReviseSpecification { stated, etag });
    check.shop_change(request, command)
}

/// Keeps a whole file of specifications.
///
/// # Errors
/// All violations, each naming its line and column.
pub(crate) fn import(
    request: &wire::ImportSpecificationsRequest,
    shop: &Shop,
) -> Result<(ShopChange, usize), Error> {
    let mut check = Check::default();
    let lines = specification_table::read(&mut check, &request.csv).unwrap_or_default();
    // Lines that can be read are judged where they are written; if others cannot, what is wrong with any is told at once.
    if check.count() > 0 {
        check.extend(shop::wrong_lines(shop, &lines));
    }
    let line_count = lines.len();
    let command = ShopCommand::ImportSpecifications(lines);
    let change = check.shop_change(request, Some(command))?;
    Ok((change, line_count))
}

/// What became of the lines of a file.
pub(crate) fn imported<'f>(
    line_count: usize,
    facts: impl Iterator<Item = &'f Fact>,
) -> wire::ImportSpecificationsResponse {
    let (mut created, mut revised) = (0, 0);
    for fact in facts {
        match fact {
            Fact::SpecificationStated(stated) if stated.revision == 1 => created += 1,
            _ => revised += 1,
        }
    }
    let lines = i32::try_from(line_count).unwrap_or(i32::MAX);
    wire::ImportSpecificationsResponse {
        created_count: created,
        revised_count: revised,
        unchanged_count: lines - created - revised,
    }
}

/// A page of specifications as a table.
///
/// # Errors
/// When the text cannot be put together.
pub(crate) fn exported(
    page: &[&Kept<SpecificationStated>],
    next_page_token: String,
) -> Result<wire::ExportSpecificationsResponse, Error> {
    let stated = page.iter().map(|kept| &*kept.newest.fact);
    let csv = specification_table::write(stated).map_err(|e| Error::broken(&e))?;
    Ok(wire::ExportSpecificationsResponse {
        csv,
        next_page_token,
    })
}

/// Lets a specification hold no more.
///
/// # Errors
/// All violations.
pub(crate) fn withdraw(request: &wire::WithdrawSpecificationRequest) -> Result<ShopChange, Error> {
    let mut check = Check::default();
    let id = check.specification_name("name", &request.name);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let command = id.map(|specification| ShopCommand::WithdrawSpecification {
        withdrawn: SpecificationWithdrawn {
            specification,
            reason,
        },
        etag,
    });
    check.shop_change(request, command)
}

/// Which specification is wanted, and which revision; none for the newest.
///
/// # Errors
/// All violations.
pub(crate) fn wanted(
    request: &wire::GetSpecificationRequest,
) -> Result<(SpecificationId, Option<Revision>), Error> {
    let mut check = Check::default();
    let id = check.specification_name("name", &request.name);
    let revision = Revision::try_from(request.revision);
    if revision.is_err() {
        check.wrong("revision", "is negative; allowed are 0 and above");
    }
    let revision = revision.ok().filter(|revision| *revision > 0);
    check.finish(id).map(|id| (id, revision))
}

/// A revision that was never stated.
pub(crate) fn no_such_revision(
    request: &wire::GetSpecificationRequest,
    kept: &Kept<SpecificationStated>,
) -> Error {
    let newest = kept.newest.fact.revision;
    let why = format!("is {}; allowed are 0 to {newest}", request.revision);
    Error::invalid(vec![Violation::new("revision", why)])
}

pub(super) fn stated(
    check: &mut Check,
    id: Option<SpecificationId>,
    said: Option<&wire::Specification>,
) -> Option<SpecificationStated> {
    let said = check.required("specification", said)?;
    let display_name = check.required_text(
        "specification.display_name",
        &said.display_name,
        bounds::DISPLAY_NAME,
    );
    let thread = check.required_text("specification.thread", &said.thread, bounds::DESIGNATION);
    let grade = check.text("specification.grade", &said.grade, bounds::DESIGNATION);
    let condition = check.text(
        "specification.condition",
        &said.condition,
        bounds::DESIGNATION,
    );
    let purpose = check.word::<Purpose>("specification.purpose", said.purpose);
    let steps = steps(check, &said.steps);
    let least = check.torque("specification.least_torque", &said.least_torque);
    let greatest = check.torque("specification.greatest_torque", &said.greatest_torque);
    let citation = check.required_text("specification.citation", &said.citation, bounds::SENTENCE);
    let note = check.text("specification.note", &said.note, bounds::NOTE);
    Some(SpecificationStated {
        specification: id?,
        // Which revision it is, is decided where it is written.
        revision: 0,
        display_name,
        thread,
        grade,
        condition,
        purpose: purpose.unwrap_or_default().id().into(),
        steps: steps?,
        least,
        greatest,
        citation,
        unit_confirmed: said.unit_confirmed,
        note,
    })
}

fn steps(check: &mut Check, steps: &[wire::SpecificationStep]) -> Option<Vec<SpecifiedStep>> {
    if steps.is_empty() || steps.len() > MOST_STEPS {
        let why = format!("has {} items; allowed are 1 to {MOST_STEPS}", steps.len());
        check.wrong("specification.steps", why);
        return None;
    }
    let numbered = steps.iter().enumerate();
    let read: Vec<_> = numbered
        .map(|(i, step)| {
            let field = format!("specification.steps[{i}]");
            match &step.step {
                Some(Step::Torque(said)) if !said.trim().is_empty() => check
                    .torque(&format!("{field}.torque"), said)
                    .map(SpecifiedStep::Torque),
                Some(Step::TurnDegrees(degrees)) => Some(SpecifiedStep::TurnDegrees(*degrees)),
                Some(Step::Torque(_)) | None => {
                    check.wrong(field, "is empty; allowed is a torque or an angle");
                    None
                }
            }
        })
        .collect();
    read.into_iter().collect()
}

/// The newest revision on the wire.
pub(crate) fn newest(kept: &Kept<SpecificationStated>) -> wire::Specification {
    specification(kept, &kept.newest)
}

/// One revision on the wire.
pub(crate) fn specification(
    kept: &Kept<SpecificationStated>,
    stated: &Stated<SpecificationStated>,
) -> wire::Specification {
    let fact = &stated.fact;
    let torque = |torque: Option<&SaidTorque>| torque.map_or_else(String::new, |t| t.said.clone());
    wire::Specification {
        name: format!("specifications/{}", fact.specification),
        display_name: fact.display_name.clone(),
        thread: fact.thread.clone(),
        grade: fact.grade.clone(),
        condition: fact.condition.clone(),
        purpose: Purpose::from_id(&fact.purpose).unwrap_or_default().number(),
        steps: fact.steps.iter().map(step).collect(),
        least_torque: torque(fact.least.as_ref()),
        greatest_torque: torque(fact.greatest.as_ref()),
        citation: fact.citation.clone(),
        unit_confirmed: fact.unit_confirmed,
        note: fact.note.clone(),
        revision: int(fact.revision),
        newest_revision: int(kept.newest.fact.revision),
        etag: kept.etag(),
        said: Some(common::said(&stated.said)),
        withdrawn_because: kept
            .withdrawn
            .as_ref()
            .map(|withdrawn| withdrawn.reason.clone())
            .unwrap_or_default(),
    }
}

fn step(step: &SpecifiedStep) -> wire::SpecificationStep {
    let step = match step {
        SpecifiedStep::Torque(torque) => Step::Torque(torque.said.clone()),
        SpecifiedStep::TurnDegrees(degrees) => Step::TurnDegrees(*degrees),
    };
    wire::SpecificationStep { step: Some(step) }
}

fn int(number: u32) -> i32 {
    i32::try_from(number).unwrap_or(i32::MAX)
}
