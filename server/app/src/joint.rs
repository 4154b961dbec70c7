//! Joints.

use super::{Call, Change, Error, names};
use clampbook_book::command::Command;
use clampbook_book::fact::JointAdded;
use clampbook_book::ids::{JobId, JointId};
use clampbook_book::job::{Job, Joint};

/// A joint with the job that it is of.
#[derive(Clone, Debug)]
pub struct JointOf {
    /// The job.
    pub job: JobId,
    /// The joint as it stands.
    pub joint: Joint,
}

impl Call<'_> {
    /// Adds a joint.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn add_joint(&self, change: Change<JointAdded>) -> Result<JointOf, Error> {
        let written = self.write(change, Command::AddJoint).await?;
        let added = written.only::<JointAdded>()?;
        let joint = joint_of(&written.job, &added.fact.joint)?.clone();
        let job = added.job;
        Ok(JointOf { job, joint })
    }

    /// A joint as it stands.
    ///
    /// # Errors
    /// Not found.
    pub async fn joint(&self, job: &JobId, id: &JointId) -> Result<JointOf, Error> {
        let found = self.find(job).await?;
        let joint = joint_of(&found, id)?.clone();
        let job = found.id.clone();
        Ok(JointOf { job, joint })
    }
}

/// A joint of a job.
pub(crate) fn joint_of<'j>(job: &'j Job, id: &JointId) -> Result<&'j Joint, Error> {
    job.joint(id)
        .ok_or_else(|| Error::not_found(names::joint(&job.id, id)))
}
