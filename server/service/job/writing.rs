//! Methods that write.

use super::Jobs;
use crate::app::job::{Change, Recorded, joint_of};
use crate::app::{Caller, Error, Operation};
use crate::convert::{fitting, job as requests, record};
use clampbook_api::v1 as wire;
use clampbook_book::entry::Entry;
use clampbook_book::fact::Fact;
use clampbook_book::ids::{JointId, PositionNumber};
use clampbook_book::job::etag;

impl Jobs {
    pub(super) async fn write(
        &self,
        caller: &Caller,
        operation: Operation,
        change: Change,
    ) -> Result<Recorded, Error> {
        self.0.app.write(caller, operation, change).await
    }

    pub(super) async fn create_job(
        &self,
        caller: &Caller,
        request: wire::CreateJobRequest,
    ) -> Result<wire::Job, Error> {
        let change = requests::create_job(&request)?;
        let receipt = self.write(caller, Operation::CreateJob, change).await?;
        Ok(record::job(&receipt.job))
    }

    pub(super) async fn create_assembly(
        &self,
        caller: &Caller,
        request: wire::CreateAssemblyRequest,
    ) -> Result<wire::Assembly, Error> {
        let change = requests::create_assembly(&request)?;
        let receipt = self
            .write(caller, Operation::CreateAssembly, change)
            .await?;
        match &first(&receipt)?.fact {
            Fact::AssemblyAdded(added) => Ok(record::assembly(&receipt.job, added)),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn create_joint(
        &self,
        caller: &Caller,
        request: wire::CreateJointRequest,
    ) -> Result<wire::Joint, Error> {
        let shop = self.0.app.shop(caller, Operation::CreateJoint)?;
        let change = requests::create_joint(&request, &shop)?;
        let receipt = self.write(caller, Operation::CreateJoint, change).await?;
        match &first(&receipt)?.fact {
            Fact::JointAdded(added) => {
                let joint = joint_of(&receipt.job, &added.joint)?;
                Ok(record::joint(&receipt.job.id, joint))
            }
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn log_removal(
        &self,
        caller: &Caller,
        request: wire::LogRemovalRequest,
    ) -> Result<wire::LogRemovalResponse, Error> {
        let change = requests::log_removal(&request)?;
        let receipt = self.write(caller, Operation::LogRemoval, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::Removed(removed) => Ok(wire::LogRemovalResponse {
                removal: Some(record::removal(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    removed,
                )),
                flags: self.flags_at(&receipt, &removed.joint, removed.position)?,
                etag: etag(entry.number),
            }),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn log_alike_removals(
        &self,
        caller: &Caller,
        request: wire::LogAlikeRemovalsRequest,
    ) -> Result<wire::LogAlikeRemovalsResponse, Error> {
        let change = requests::log_alike_removals(&request)?;
        let receipt = self
            .write(caller, Operation::LogAlikeRemovals, change)
            .await?;
        let id = &receipt.job.id;
        let mut removals = Vec::with_capacity(receipt.entries.len());
        let mut joint = None;
        for entry in receipt.entries.iter().map(|stored| &*stored.entry) {
            match &entry.fact {
                Fact::Removed(removed) => {
                    joint = Some(&removed.joint);
                    removals.push(record::removal(id, entry.number, &entry.said, removed));
                }
                other => return Err(unexpected(other)),
            }
        }
        let flags = match joint {
            Some(joint) => self
                .0
                .app
                .joint_flags(&receipt.job, joint_of(&receipt.job, joint)?),
            None => Vec::new(),
        };
        Ok(wire::LogAlikeRemovalsResponse {
            removals,
            flags: record::flags(id, &flags),
        })
    }

    pub(super) async fn import_removals(
        &self,
        caller: &Caller,
        request: wire::ImportRemovalsRequest,
    ) -> Result<wire::ImportRemovalsResponse, Error> {
        let change = requests::import_removals(&request)?;
        if request.validate_only {
            let count = self
                .0
                .app
                .check(caller, Operation::ImportRemovals, &change)
                .await?;
            return Ok(wire::ImportRemovalsResponse {
                removal_count: int(count),
                flags: Vec::new(),
            });
        }
        let job = change.job.clone();
        let receipt = self
            .write(caller, Operation::ImportRemovals, change)
            .await?;
        let flags = self.0.app.flags(caller, &job).await?;
        Ok(wire::ImportRemovalsResponse {
            removal_count: int(receipt.entries.len()),
            flags: record::flags(&job, &flags),
        })
    }

    pub(super) async fn log_decision(
        &self,
        caller: &Caller,
        request: wire::LogDecisionRequest,
    ) -> Result<wire::LogDecisionResponse, Error> {
        let change = requests::log_decision(&request)?;
        let receipt = self.write(caller, Operation::LogDecision, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::Decided(decided) => Ok(wire::LogDecisionResponse {
                decision: Some(record::decision(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    decided,
                )),
                flags: self.all_flags_at(&receipt, &decided.joint, decided.position)?,
                etag: etag(entry.number),
                checks: fitting::checks(&self.0.app.decided_fits(
                    &receipt.job,
                    joint_of(&receipt.job, &decided.joint)?,
                    decided,
                )),
            }),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn log_refit(
        &self,
        caller: &Caller,
        request: wire::LogRefitRequest,
    ) -> Result<wire::LogRefitResponse, Error> {
        let change = requests::log_refit(&request)?;
        let receipt = self.write(caller, Operation::LogRefit, change).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::Refitted(refitted) => Ok(wire::LogRefitResponse {
                refit: Some(record::refit(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    refitted,
                )),
                flags: self.all_flags_at(&receipt, &refitted.joint, refitted.position)?,
                etag: etag(entry.number),
            }),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn correct_entry(
        &self,
        caller: &Caller,
        request: wire::CorrectEntryRequest,
    ) -> Result<wire::CorrectEntryResponse, Error> {
        let shop = self.0.app.shop(caller, Operation::CorrectEntry)?;
        let change = requests::correct_entry(&request, &shop)?;
        let receipt = self.write(caller, Operation::CorrectEntry, change).await?;
        let stored = receipt.entries.first().ok_or_else(nothing_written)?;
        let touched = receipt
            .job
            .joints
            .iter()
            .find(|j| j.touched == stored.entry.number);
        let flags = match touched {
            Some(joint) => {
                let mut flags = self.0.app.joint_flags(&receipt.job, joint);
                let assembly = &joint.fact.assembly;
                flags.extend(self.0.app.flags_around(&receipt.job, assembly));
                flags
            }
            None => self.0.app.job_flags(&receipt.job),
        };
        Ok(wire::CorrectEntryResponse {
            entry: Some(record::entry(stored)),
            flags: record::flags(&receipt.job.id, &flags),
            etag: etag(stored.entry.number),
        })
    }

    /// Flags of a position with those that follow from the whole job, such as parts that have not arrived.
    fn all_flags_at(
        &self,
        receipt: &Recorded,
        joint: &JointId,
        position: PositionNumber,
    ) -> Result<Vec<wire::Flag>, Error> {
        let joint = joint_of(&receipt.job, joint)?;
        let flags = self.0.app.flags_at(&receipt.job, joint, position);
        Ok(record::flags(&receipt.job.id, &flags))
    }

    fn flags_at(
        &self,
        receipt: &Recorded,
        joint: &JointId,
        position: PositionNumber,
    ) -> Result<Vec<wire::Flag>, Error> {
        let joint = joint_of(&receipt.job, joint)?;
        let flags = self.0.app.position_flags(&receipt.job, joint, position);
        Ok(record::flags(&receipt.job.id, &flags))
    }
}

pub(super) fn first(receipt: &Recorded) -> Result<&Entry, Error> {
    receipt
        .entries
        .first()
        .map(|stored| &*stored.entry)
        .ok_or_else(nothing_written)
}

pub(super) fn unexpected(fact: &Fact) -> Error {
    Error::broken(&format!(
        "a request was answered by an entry of kind {}",
        fact.kind()
    ))
}

fn nothing_written() -> Error {
    Error::broken(&"a request was answered without an entry")
}

fn int(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX)
}
