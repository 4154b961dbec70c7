//! Which value holds for a joint.

use super::job::joint_of;
use super::{App, Caller, Error, Operation};
use clampbook_book::effective::{self, Effective};
use clampbook_book::ids::{JobId, JointId, SpecificationId};
use clampbook_book::job::Job;
use clampbook_book::words::TorqueUnit;
use clampbook_store::JobsAfter;
use std::sync::Arc;

impl App {
    /// Jobs to look through for uses of a specification, the one written last first, and where the next page begins.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn jobs_with_uses(
        &self,
        caller: &Caller,
        id: &SpecificationId,
        after: Option<JobsAfter>,
        limit: u32,
    ) -> Result<(Vec<Arc<Job>>, Option<JobsAfter>), Error> {
        caller.may(Operation::ListSpecificationUses)?;
        if self.store.shop().specification(id).is_none() {
            return Err(Error::not_found(format!("specifications/{id}")));
        }
        let page = self.store.jobs(after, limit).await?;
        let mut jobs = Vec::with_capacity(page.jobs.len());
        for summary in &page.jobs {
            jobs.push(self.find(&summary.id).await?);
        }
        Ok((jobs, page.next))
    }

    /// Finds the value that holds for a joint, told in a unit, the job's if none is given, and hands it to `show`, which makes what the adapter carries.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn effective_value<T>(
        &self,
        caller: &Caller,
        job: &JobId,
        joint: &JointId,
        unit: Option<TorqueUnit>,
        show: impl FnOnce(&Effective<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::GetEffectiveValue)?;
        let found = self.find(job).await?;
        let shop = self.store.shop();
        let joint = joint_of(&found, joint)?;
        Ok(show(&effective::of(
            joint,
            &shop,
            unit.unwrap_or_else(|| found.torque_unit()),
        )))
    }
}
