//! Methods that write about parts other than fasteners.

use super::Jobs;
use super::writing::{first, unexpected};
use crate::app::job::Recorded;
use crate::app::{Caller, Error, Operation};
use crate::convert::{finding as requests, record};
use clampbook_api::v1 as wire;
use clampbook_book::fact::Fact;
use clampbook_book::ids::AssemblyId;

impl Jobs {
    pub(super) async fn log_finding(
        &self,
        caller: &Caller,
        request: wire::LogFindingRequest,
    ) -> Result<wire::LogFindingResponse, Error> {
        let change = requests::log_finding(&request)?;
        let receipt = self.write(caller, Operation::LogFinding, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::PartFound(found) => Ok(wire::LogFindingResponse {
                finding: Some(requests::finding(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    found,
                )),
                flags: self.flags_about(&receipt, &found.assembly),
            }),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn answer_counterpart(
        &self,
        caller: &Caller,
        request: wire::AnswerCounterpartRequest,
    ) -> Result<wire::AnswerCounterpartResponse, Error> {
        let change = requests::answer_counterpart(&request)?;
        let receipt = self
            .write(caller, Operation::AnswerCounterpart, change)
            .await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::CounterpartAnswered(answered) => {
                let finding = receipt.job.findings.get(answered.finding);
                Ok(wire::AnswerCounterpartResponse {
                    answer: Some(requests::answer(
                        &receipt.job.id,
                        entry.number,
                        &entry.said,
                        answered,
                    )),
                    flags: finding
                        .map(|finding| self.flags_about(&receipt, &finding.found.assembly))
                        .unwrap_or_default(),
                })
            }
            other => Err(unexpected(other)),
        }
    }

    pub(super) fn flags_about(&self, receipt: &Recorded, assembly: &AssemblyId) -> Vec<wire::Flag> {
        let flags = self.0.app.flags_around(&receipt.job, assembly);
        record::flags(&receipt.job.id, &flags)
    }
}
