//! Refits, with what went in beside the fastener.

use crate::replacement::{new_part, spec};
use crate::request::int;
use crate::words::Word;
use crate::{Validator, flag, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{FittedWith, PieceFitted, Refitted, Thing};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::shown;
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
    let is_new = match wire::FittedPart::try_from(refit.fitted_part) {
        Ok(wire::FittedPart::New) => Some(true),
        Ok(wire::FittedPart::Original) => Some(false),
        Ok(wire::FittedPart::Unspecified) => {
            check.wrong("refit.fitted_part", "is required");
            None
        }
        Err(_) => {
            check.wrong(
                "refit.fitted_part",
                format!("{} is not a value of this field", refit.fitted_part),
            );
            None
        }
    };
    let new_part =
        is_new.and_then(|new| new_part(check, "refit.new_part", refit.new_part.as_ref(), new));
    let tightness = check.required_word("refit.tightness", refit.tightness);
    let reading = check.torque("refit.torque_reading", &refit.torque_reading);
    let tool = check.text("refit.tool", &refit.tool, bounds::SHORT);
    let note = check.text("refit.note", &refit.note, bounds::NOTE);
    let with = fitted_with(check, refit);
    let (job, joint) = joint?;
    is_new?;
    Some((
        job,
        Refitted {
            joint,
            position: position?,
            new_part,
            tightness: tightness?,
            reading,
            tool,
            note,
            wanted: None,
            published: None,
            with,
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

/// What the record asked for, for people, in the unit in which the wrench was read.
fn wanted_text(refitted: &Refitted) -> String {
    let nm = match &refitted.published {
        Some(published) => published.torque_nm,
        None => refitted.wanted.as_ref().map(|wanted| wanted.torque_nm),
    };
    nm.map(|nm| shown::asked(nm, refitted.reading.as_ref()))
        .unwrap_or_default()
}

/// A refit as recorded.
pub(crate) fn refit(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    refitted: &Refitted,
) -> wire::Refit {
    let part = match refitted.new_part {
        Some(_) => wire::FittedPart::New,
        None => wire::FittedPart::Original,
    };
    let told = wire::Refit {
        entry: names::entry(job, number),
        joint: names::joint(job, &refitted.joint),
        position: refitted.position.into(),
        fitted_part: part.into(),
        new_part: refitted.new_part.as_ref().map(spec),
        tightness: refitted.tightness.number(),
        torque_reading: refitted
            .reading
            .as_ref()
            .map(|t| t.said.clone())
            .unwrap_or_default(),
        torque_reading_nm: refitted.reading.as_ref().map(|t| t.nm),
        tool: refitted.tool.clone(),
        note: refitted.note.clone(),
        wanted_torque_nm: match &refitted.published {
            Some(published) => published.torque_nm,
            None => refitted.wanted.as_ref().map(|w| w.torque_nm),
        },
        wanted_torque_text: wanted_text(refitted),
        catalog_edition: refitted
            .wanted
            .as_ref()
            .map(|w| w.catalog_edition.clone())
            .unwrap_or_default(),
        said: Some(request::said(said)),
        specification: refitted
            .published
            .as_ref()
            .map(|p| names::specification(&p.followed.specification))
            .unwrap_or_default(),
        specification_revision: refitted
            .published
            .as_ref()
            .map_or(0, |p| int(p.followed.revision)),
        text: refitted.text(),
        ..Default::default()
    };
    tell(told, refitted.with.as_deref())
}
