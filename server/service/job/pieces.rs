//! The method that writes what became of pieces.

use super::Jobs;
use super::writing::{first, unexpected};
use crate::app::job::joint_of;
use crate::app::{Caller, Error, Operation};
use crate::convert::pieces as requests;
use clampbook_api::v1 as wire;
use clampbook_book::fact::Fact;
use clampbook_book::job::etag;

impl Jobs {
    pub(super) async fn log_pieces(
        &self,
        caller: &Caller,
        request: wire::LogPiecesRequest,
    ) -> Result<wire::LogPiecesResponse, Error> {
        let change = requests::log_pieces(&request)?;
        let receipt = self.write(caller, Operation::LogPieces, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::PieceAccounted(accounted) => {
                let joint = joint_of(&receipt.job, &accounted.joint)?;
                Ok(wire::LogPiecesResponse {
                    account: Some(requests::account(
                        &receipt.job.id,
                        entry.number,
                        &entry.said,
                        accounted,
                    )),
                    flags: self.flags_about(caller, &receipt, &joint.fact.assembly),
                    etag: etag(entry.number),
                })
            }
            other => Err(unexpected(other)),
        }
    }
}
