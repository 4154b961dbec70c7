//! `pieces.proto`: what went in with a fastener, and what became of what did not.

use super::common;
use super::record::entry_name;
use super::words::Word;
use super::{Check, job::change};
use clampbook_api::v1 as wire;
use clampbook_app::Error;
use clampbook_app::job::Change;
use clampbook_book::bounds;
use clampbook_book::command::Command;
use clampbook_book::entry::Said;
use clampbook_book::fact::{FittedWith, PieceAccounted, PieceFitted, Thing};
use clampbook_book::ids::{EntryNumber, JobId};
use wire::fitted_piece::What as Fitted;
use wire::piece_account::What as Accounted;

/// Logs what became of pieces.
///
/// # Errors
/// All violations.
pub(crate) fn log_pieces(request: &wire::LogPiecesRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("account", request.account.as_ref())
        .and_then(|account| accounted(&mut check, account))
        .map(|(job, accounted)| (job, Command::LogPieces(accounted)));
    change(check, request, parts)
}

/// The account a message describes.
pub(super) fn accounted(
    check: &mut Check,
    account: &wire::PieceAccount,
) -> Option<(JobId, PieceAccounted)> {
    let joint = check.joint_name("account.joint", &account.joint);
    let position = check.position("account.position", account.position);
    let what = match &account.what {
        Some(Accounted::Piece(kind)) => check
            .required_word("account.piece", *kind)
            .map(Thing::Piece),
        Some(Accounted::SmallPart(kind)) => check
            .required_word("account.small_part", *kind)
            .map(Thing::SmallPart),
        Some(Accounted::Fastener(true)) => Some(Thing::Fastener),
        Some(Accounted::Fastener(false)) => {
            check.wrong(
                "account.fastener",
                "is false; leave it out, or say true for the fastener itself",
            );
            None
        }
        None => {
            check.wrong(
                "account.piece",
                "is required, or a small part, or the fastener itself",
            );
            None
        }
    };
    let count = check.alike("account.count", account.count);
    let became = check.required_word("account.fate", account.fate);
    let why = check.required_text("account.reason", &account.reason, bounds::NOTE);
    let (job, joint) = joint?;
    Some((
        job,
        PieceAccounted {
            joint,
            position: position?,
            what: what?,
            count: count?,
            became: became?,
            why,
        },
    ))
}

/// What else a refit says; nothing when it says nothing.
pub(super) fn fitted_with(check: &mut Check, refit: &wire::Refit) -> Option<Box<FittedWith>> {
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
        run_on: check.torque("refit.run_on_torque", &refit.run_on_torque),
    };
    (with != FittedWith::default()).then(|| Box::new(with))
}

/// What else was said of a refit, into the refit on the wire.
pub(super) fn tell(refit: wire::Refit, with: Option<&FittedWith>) -> wire::Refit {
    let Some(with) = with else {
        return refit;
    };
    wire::Refit {
        fitted_pieces: with.pieces.iter().map(fitted).collect(),
        as_it_came_out: with.as_it_came_out,
        run_on_torque: with
            .run_on
            .as_ref()
            .map(|torque| torque.said.clone())
            .unwrap_or_default(),
        run_on_torque_nm: with.run_on.as_ref().map(|torque| torque.nm),
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

/// An account as recorded.
pub(crate) fn account(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    accounted: &PieceAccounted,
) -> wire::PieceAccount {
    wire::PieceAccount {
        entry: entry_name(job, number),
        joint: format!("jobs/{job}/joints/{}", accounted.joint),
        position: accounted.position.into(),
        what: Some(match accounted.what {
            Thing::Piece(kind) => Accounted::Piece(kind.number()),
            Thing::SmallPart(kind) => Accounted::SmallPart(kind.number()),
            Thing::Fastener => Accounted::Fastener(true),
        }),
        count: accounted.count.into(),
        fate: accounted.became.number(),
        reason: accounted.why.clone(),
        said: Some(common::said(said)),
    }
}
