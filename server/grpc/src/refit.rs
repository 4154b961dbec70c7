//! Refits, with what went in beside the fastener.

use crate::replacement::{new_part, spec};
use crate::words::Word;
use crate::{Validator, flag, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{FittedWith, PieceFitted, Refitted, Thing};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::spoken::Spoken;
use wire::fitted_piece::What as Fitted;

/// Logs a refit.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogRefitRequest,
) -> Result<wire::LogRefitResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("refit", request.refit.as_ref())
        .and_then(|refit| refitted(&mut check, refit));
    let logged = call.log_refit(check.change(&request, parts)?).await?;
    let one = &logged.refit;
    Ok(wire::LogRefitResponse {
        refit: Some(refit(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
        etag: logged.etag,
    })
}

/// The refit a message describes.
pub(crate) fn refitted(check: &mut Validator, refit: &wire::Refit) -> Option<(JobId, Refitted)> {
    let joint = check.joint_name("refit.joint", &refit.joint);
    let position = check.position("refit.position", refit.position);
    let part = match wire::FittedPart::try_from(refit.fitted_part) {
        Ok(wire::FittedPart::Unspecified) => {
            check.wrong("refit.fitted_part", "is required");
            None
        }
        Ok(part) => Some(part),
        Err(_) => {
            check.wrong(
                "refit.fitted_part",
                format!("{} is not a value of this field", refit.fitted_part),
            );
            None
        }
    };
    let is_new = part.map(|part| part == wire::FittedPart::New);
    let new_part =
        is_new.and_then(|new| new_part(check, "refit.new_part", refit.new_part.as_ref(), new));
    let note = check.text("refit.note", &refit.note, bounds::NOTE);
    let with = fitted_with(check, refit);
    let (job, joint) = joint?;
    Some((
        job,
        Refitted {
            in_already: part? == wire::FittedPart::InAlready,
            new_part,
            note,
            with,
            ..Refitted::new(joint, position?)
        },
    ))
}

/// What else a refit says; nothing when it says nothing.
fn fitted_with(check: &mut Validator, refit: &wire::Refit) -> Option<Box<FittedWith>> {
    let pieces = check.each(
        "refit.fitted_pieces",
        &refit.fitted_pieces,
        |check, item, piece| {
            let what = match &piece.what {
                Some(Fitted::Piece(kind)) => check
                    .required_word(&format!("{item}.piece"), *kind)
                    .map(Thing::Piece),
                Some(Fitted::SmallPart(kind)) => check
                    .required_word(&format!("{item}.small_part"), *kind)
                    .map(Thing::SmallPart),
                None => {
                    check.wrong(format!("{item}.piece"), "is required, or a small part");
                    None
                }
            };
            let count = check.alike(&format!("{item}.count"), piece.count);
            let said = check.text(&format!("{item}.text"), &piece.text, bounds::SHORT);
            Some(PieceFitted {
                what: what?,
                count: count?,
                is_new: piece.new,
                said,
            })
        },
    );
    let with = FittedWith {
        as_it_came_out: refit.as_it_came_out,
        pieces,
        prevailing_torque: check.torque("refit.prevailing_torque", &refit.prevailing_torque),
    };
    (with != FittedWith::default()).then(|| Box::new(with))
}

/// What else was said of a refit, into the refit on the wire.
fn tell(refit: wire::Refit, with: Option<&FittedWith>) -> wire::Refit {
    let Some(with) = with else {
        return refit;
    };
    wire::Refit {
        fitted_pieces: with.pieces.iter().map(fitted).collect(),
        as_it_came_out: with.as_it_came_out,
        prevailing_torque: with
            .prevailing_torque
            .as_ref()
            .map(|torque| torque.said.clone())
            .unwrap_or_default(),
        prevailing_torque_nm: with.prevailing_torque.as_ref().map(|torque| torque.nm),
        ..refit
    }
}

fn fitted(piece: &PieceFitted) -> wire::FittedPiece {
    wire::FittedPiece {
        what: match piece.what {
            Thing::Piece(kind) => Some(Fitted::Piece(kind.number())),
            Thing::SmallPart(kind) => Some(Fitted::SmallPart(kind.number())),
            Thing::Fastener => None,
        },
        count: piece.count.into(),
        new: piece.is_new,
        text: piece.said.clone(),
    }
}

/// A refit as recorded.
pub(crate) fn refit(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    refitted: &Refitted,
) -> wire::Refit {
    let part = match &refitted.new_part {
        Some(_) => wire::FittedPart::New,
        None if refitted.in_already => wire::FittedPart::InAlready,
        None => wire::FittedPart::Original,
    };
    let told = wire::Refit {
        entry: names::entry(job, number),
        joint: names::joint(job, &refitted.joint),
        position: refitted.position.into(),
        fitted_part: part.into(),
        new_part: refitted.new_part.as_ref().map(spec),
        note: refitted.note.clone(),
        said: Some(request::said(said)),
        text: refitted.text(),
        ..Default::default()
    };
    tell(told, refitted.with.as_deref())
}
