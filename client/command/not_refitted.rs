//! `not-refitted`.

use clampbook_api::v1::{
    LogNotRefittedRequest, NotRefitted, fitted_piece, job_service_client::JobServiceClient,
    not_refitted::What,
};

use crate::{
    args::{Counted, NotRefittedArgs, PiecesArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show,
};

pub(super) async fn run(args: NotRefittedArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let joint = name::joint(&args.place.job, &args.place.joint);
    let account = accounted(joint, args.place.position, args.pieces, args.reason);
    let request = LogNotRefittedRequest {
        not_refitted: Some(account),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_not_refitted, request)
        .await?;
    out.answer(&answer, show::recorded::pieces)
}

/// What became of pieces, and how that is known.
pub(super) fn accounted(
    joint: String,
    position: i32,
    pieces: PiecesArgs,
    reason: String,
) -> NotRefitted {
    NotRefitted {
        joint,
        position,
        what: Some(match pieces.what {
            Counted::Fastener => What::Fastener(true),
            Counted::Piece(fitted_piece::What::Piece(kind)) => What::Piece(kind),
            Counted::Piece(fitted_piece::What::SmallPart(kind)) => What::SmallPart(kind),
        }),
        count: pieces.count,
        fate: pieces.fate.into(),
        reason,
        ..NotRefitted::default()
    }
}
