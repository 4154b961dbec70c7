//! Which value holds for a joint.

use super::joint::joint_of;
use super::{Call, Error, names};

use clampbook_book::ids::{JobId, JointId, SpecificationId};
use clampbook_book::job::Job;
use clampbook_book::value::{self, Effective};
use clampbook_book::words::TorqueUnit;
use clampbook_journal::JobsAfter;
use std::sync::Arc;

impl Call<'_> {
    /// Jobs to look through for uses of a specification, the one written last first, and where the next page begins.
    ///
    /// # Errors
    /// Not found.
    pub async fn jobs_with_uses(
        &self,
        id: &SpecificationId,
        after: Option<JobsAfter>,
        limit: u32,
    ) -> Result<(Vec<Arc<Job>>, Option<JobsAfter>), Error> {
        if self.app.store.shop().specification(id).is_none() {
            return Err(Error::not_found(names::specification(id)));
        }
        let page = self.app.store.jobs(after, limit).await?;
        let mut jobs = Vec::with_capacity(page.jobs.len());
        for summary in &page.jobs {
            jobs.push(self.find(&summary.id).await?);
        }
        Ok((jobs, page.next))
    }

    /// Finds the value that holds for a joint, told in a unit (else the job's, else that of its thread), and hands it to `show`, which makes what the adapter carries.
    ///
    /// # Errors
    /// Not found.
    pub async fn effective_value<T>(
        &self,
        job: &JobId,
        joint: &JointId,
        unit: Option<TorqueUnit>,
        show: impl FnOnce(&Effective<'_>) -> T,
    ) -> Result<T, Error> {
        let found = self.find(job).await?;
        let world = self.world();
        let joint = joint_of(&found, joint)?;
        Ok(show(&value::of(
            joint,
            &world.asked(),
            unit.or(found.torque_unit()),
        )))
    }
}
