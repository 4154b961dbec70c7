//! Methods about parts: whether one fits, what is to be ordered, what waits.

use super::Jobs;
use super::writing::{first, unexpected};
use crate::app::job::Recorded;
use crate::app::{Caller, Error, Operation};
use crate::convert::page::{Sizes, of_list};
use crate::convert::{Check, fitting, ordering as requests, record};
use clampbook_api::v1 as wire;
use clampbook_book::fact::Fact;
use clampbook_book::ids::AssemblyId;

const LINES: Sizes = Sizes {
    default: 100,
    most: 500,
};

impl Jobs {
    pub(super) async fn check_replacement(
        &self,
        caller: &Caller,
        request: wire::CheckReplacementRequest,
    ) -> Result<wire::CheckReplacementResponse, Error> {
        let asked = fitting::asked(&request)?;
        let (checks, designation) = self
            .0
            .app
            .fits(
                caller,
                &asked.job,
                &asked.joint,
                asked.position,
                &asked.part,
            )
            .await?;
        Ok(fitting::answer(&checks, designation))
    }

    pub(super) async fn list_parts_to_order(
        &self,
        caller: &Caller,
        request: wire::ListPartsToOrderRequest,
    ) -> Result<wire::ListPartsToOrderResponse, Error> {
        let mut check = Check::default();
        let scope = check.job_or_assembly_name("parent", &request.parent);
        let list = format!("ListPartsToOrder {}", request.parent);
        let page = check.numbered_page(&list, request.page_size, &request.page_token, LINES);
        let ((job, assembly), (size, after)) = check.finish(scope.zip(page))?;
        let lines = self.0.app.parts_to_order(caller, &job, assembly).await?;
        let (lines, next_page_token) = of_list(&list, lines, size, after);
        Ok(wire::ListPartsToOrderResponse {
            parts: lines.iter().map(|l| requests::line(&job, l)).collect(),
            next_page_token,
        })
    }

    pub(super) async fn list_waits(
        &self,
        caller: &Caller,
        request: wire::ListWaitsRequest,
    ) -> Result<wire::ListWaitsResponse, Error> {
        let mut check = Check::default();
        let scope = check.job_or_assembly_name("parent", &request.parent);
        let list = format!("ListWaits {}", request.parent);
        let page = check.numbered_page(&list, request.page_size, &request.page_token, LINES);
        let ((job, assembly), (size, after)) = check.finish(scope.zip(page))?;
        let waits = self.0.app.waits(caller, &job, assembly).await?;
        let (waits, next_page_token) = of_list(&list, waits, size, after);
        Ok(wire::ListWaitsResponse {
            waits: waits.iter().map(|w| requests::wait(&job, w)).collect(),
            next_page_token,
        })
    }

    pub(super) async fn log_part_wanted(
        &self,
        caller: &Caller,
        request: wire::LogPartWantedRequest,
    ) -> Result<wire::LogPartWantedResponse, Error> {
        let change = requests::log_part_wanted(&request)?;
        let receipt = self.write(caller, Operation::LogPartWanted, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::PartWanted(wanted) => Ok(wire::LogPartWantedResponse {
                wanted: Some(requests::part_wanted(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    wanted,
                )),
                flags: self.flags_about_parts(caller, &receipt, &wanted.assembly),
            }),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn log_part_arrival(
        &self,
        caller: &Caller,
        request: wire::LogPartArrivalRequest,
    ) -> Result<wire::LogPartArrivalResponse, Error> {
        let change = requests::log_part_arrival(&request)?;
        let receipt = self
            .write(caller, Operation::LogPartArrival, change)
            .await?;
        let entry = first(&receipt)?;
        let job = &receipt.job;
        match &entry.fact {
            Fact::PartArrived(arrived) => {
                let line = self
                    .0
                    .app
                    .part_called(caller, job, &arrived.assembly, &arrived.what);
                Ok(wire::LogPartArrivalResponse {
                    arrival: Some(requests::part_arrival(
                        &job.id,
                        entry.number,
                        &entry.said,
                        arrived,
                    )),
                    part: line.map(|line| requests::line(&job.id, &line)),
                    flags: self.flags_about_parts(caller, &receipt, &arrived.assembly),
                })
            }
            other => Err(unexpected(other)),
        }
    }

    fn flags_about_parts(
        &self,
        caller: &Caller,
        receipt: &Recorded,
        assembly: &AssemblyId,
    ) -> Vec<wire::Flag> {
        let flags = self.0.app.flags_about_parts(caller, &receipt.job, assembly);
        record::flags(&receipt.job.id, &flags)
    }
}
