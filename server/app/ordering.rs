//! Whether a replacement fits, what is to be ordered, and what waits.

use super::job::joint_of;
use super::{App, Caller, Error, Operation, blocking};
use clampbook_book::fact::{Decided, FastenerSpec};
use clampbook_book::ids::{AssemblyId, JobId, JointId, PositionNumber};
use clampbook_book::job::{Job, Joint};
use clampbook_book::orders::{self, Line, Wait};
use clampbook_book::refusal::Violation;
use clampbook_book::rules::fits::{self, FitCheck};
use clampbook_book::rules::{self, Flag};
use std::sync::Arc;

impl App {
    /// What there is to say about a fastener in a position, and the fastener in the words of its standard.
    ///
    /// # Errors
    /// Not found; a position that the joint does not have.
    pub(crate) async fn fits(
        &self,
        caller: &Caller,
        job: &JobId,
        joint: &JointId,
        position: PositionNumber,
        part: &FastenerSpec,
    ) -> Result<(Vec<FitCheck>, String), Error> {
        caller.may(Operation::CheckReplacement)?;
        let job = self.find(job).await?;
        let joint = joint_of(&job, joint)?;
        let shop = self.store.shop();
        let checks =
            fits::check(joint, position, part, &shop, job.torque_unit()).ok_or_else(|| {
                let most = joint.positions.len();
                let wrong = format!("the joint has no position {position}; allowed is 1 to {most}");
                Error::invalid(vec![Violation::new("position", wrong)])
            })?;
        Ok((checks, orders::designation(part, shop.catalogue())))
    }

    /// What there is to say about a replacement that was decided on.
    pub(crate) fn decided_fits(
        &self,
        job: &Job,
        joint: &Joint,
        decided: &Decided,
    ) -> Vec<FitCheck> {
        let part = decided.replacement.as_ref();
        part.and_then(|part| {
            let shop = self.store.shop();
            fits::check(joint, decided.position, part, &shop, job.torque_unit())
        })
        .unwrap_or_default()
    }

    /// The parts to order of a job or of one of its assemblies.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn parts_to_order(
        &self,
        caller: &Caller,
        id: &JobId,
        assembly: Option<AssemblyId>,
    ) -> Result<Vec<Line>, Error> {
        caller.may(Operation::ListPartsToOrder)?;
        let job = self.find_with(id, assembly.as_ref()).await?;
        let shop = self.store.shop();
        blocking(move || orders::list(&job, assembly.as_ref(), &shop)).await
    }

    /// What waits in a job or in one of its assemblies.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn waits(
        &self,
        caller: &Caller,
        id: &JobId,
        assembly: Option<AssemblyId>,
    ) -> Result<Vec<Wait>, Error> {
        caller.may(Operation::ListWaits)?;
        let job = self.find_with(id, assembly.as_ref()).await?;
        let shop = self.store.shop();
        blocking(move || orders::waits(&job, assembly.as_ref(), &shop)).await
    }

    /// The line of an assembly's list that a text means.
    pub(crate) fn part_called(&self, job: &Job, assembly: &AssemblyId, what: &str) -> Option<Line> {
        orders::line_called(job, assembly, what, &self.store.shop())
    }

    /// Open flags about parts that have not arrived, on an assembly and on joints of it.
    pub(crate) fn flags_about_parts(&self, job: &Job, assembly: &AssemblyId) -> Vec<Flag> {
        rules::flags_about_parts(job, assembly, &self.store.shop())
    }

    /// The job as it stands, if it has the assembly.
    pub(super) async fn find_with(
        &self,
        id: &JobId,
        assembly: Option<&AssemblyId>,
    ) -> Result<Arc<Job>, Error> {
        let job = self.find(id).await?;
        match assembly {
            Some(assembly) if job.assembly(assembly).is_none() => {
                Err(Error::not_found(format!("jobs/{id}/assemblies/{assembly}")))
            }
            _ => Ok(job),
        }
    }
}
