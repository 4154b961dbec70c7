//! What became of pieces that did not go back.

use crate::words::Word;
use crate::{Validator, flag, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{NotRefitted, Thing};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::spoken::Spoken;
use wire::not_refitted::What as Accounted;

/// Logs what became of pieces.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogNotRefittedRequest,
) -> Result<wire::LogNotRefittedResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("not_refitted", request.not_refitted.as_ref())
        .and_then(|account| accounted(&mut check, account));
    let logged = call
        .log_not_refitted(check.change(&request, parts)?)
        .await?;
    let one = &logged.account;
    Ok(wire::LogNotRefittedResponse {
        not_refitted: Some(account(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
        etag: logged.etag,
    })
}

/// The account a message describes.
pub(crate) fn accounted(
    check: &mut Validator,
    account: &wire::NotRefitted,
) -> Option<(JobId, NotRefitted)> {
    let joint = check.joint_name("not_refitted.joint", &account.joint);
    let position = check.position("not_refitted.position", account.position);
    let what = match &account.what {
        Some(Accounted::Piece(kind)) => check
            .required_word("not_refitted.piece", *kind)
            .map(Thing::Piece),
        Some(Accounted::SmallPart(kind)) => check
            .required_word("not_refitted.small_part", *kind)
            .map(Thing::SmallPart),
        Some(Accounted::Fastener(true)) => Some(Thing::Fastener),
        Some(Accounted::Fastener(false)) => {
            check.wrong(
                "not_refitted.fastener",
                "is false; leave it out, or say true for the fastener itself",
            );
            None
        }
        None => {
            check.wrong(
                "not_refitted.piece",
                "is required, or a small part, or the fastener itself",
            );
            None
        }
    };
    let count = check.alike("not_refitted.count", account.count);
    let became = check.required_word("not_refitted.fate", account.fate);
    let why = check.required_text("not_refitted.reason", &account.reason, bounds::NOTE);
    let (job, joint) = joint?;
    Some((
        job,
        NotRefitted {
            joint,
            position: position?,
            what: what?,
            count: count?,
            became: became?,
            why,
        },
    ))
}

/// An account as recorded.
fn account(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    accounted: &NotRefitted,
) -> wire::NotRefitted {
    wire::NotRefitted {
        entry: names::entry(job, number),
        joint: names::joint(job, &accounted.joint),
        position: accounted.position.into(),
        what: Some(match accounted.what {
            Thing::Piece(kind) => Accounted::Piece(kind.number()),
            Thing::SmallPart(kind) => Accounted::SmallPart(kind.number()),
            Thing::Fastener => Accounted::Fastener(true),
        }),
        count: accounted.count.into(),
        fate: accounted.became.number(),
        reason: accounted.why.clone(),
        said: Some(request::said(said)),
        text: accounted.text(),
    }
}
