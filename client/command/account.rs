//! `account`.

use clampbook_api::v1::{
    LogPiecesRequest, PieceAccount, fitted_piece, job_service_client::JobServiceClient,
    piece_account::What,
};

use crate::{
    args::{AccountArgs, Counted},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show,
};

pub(super) async fn run(args: AccountArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = LogPiecesRequest {
        account: Some(PieceAccount {
            joint: name::joint(&args.place.job, &args.place.joint),
            position: args.place.position,
            what: Some(match args.what {
                Counted::Fastener => What::Fastener(true),
                Counted::Piece(fitted_piece::What::Piece(kind)) => What::Piece(kind),
                Counted::Piece(fitted_piece::What::SmallPart(kind)) => What::SmallPart(kind),
            }),
            count: args.count,
            fate: args.fate.into(),
            reason: args.reason,
            ..PieceAccount::default()
        }),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::log_pieces, request)
        .await?;
    out.answer(&answer, show::pieces::accounted)
}
