//! The method that writes what was marked before parting.

use super::Jobs;
use super::writing::{first, unexpected};
use crate::convert::marking as requests;
use clampbook_api::v1 as wire;
use clampbook_app::{Caller, Error, Operation};
use clampbook_book::fact::Fact;
use clampbook_book::job::etag;

impl Jobs {
    pub(super) async fn log_marks(
        &self,
        caller: &Caller,
        request: wire::LogMarksRequest,
    ) -> Result<wire::LogMarksResponse, Error> {
        let change = requests::log_marks(&request)?;
        let receipt = self.write(caller, Operation::LogMarks, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::Marked(marked) => Ok(wire::LogMarksResponse {
                marking: Some(requests::marking(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    marked,
                )),
                etag: etag(entry.number),
            }),
            other => Err(unexpected(other)),
        }
    }
}
