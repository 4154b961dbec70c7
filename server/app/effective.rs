//! Which value holds for a joint.

use super::job::joint_of;
use super::{App, Caller, Error, Operation};
use clampbook_book::effective::{self, Effective};
use clampbook_book::ids::{JobId, JointId};

impl App {
    /// Finds the value that holds for a joint and hands it to `show`, which makes what the adapter carries.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn effective_value<T>(
        &self,
        caller: &Caller,
        job: &JobId,
        joint: &JointId,
        show: impl FnOnce(&Effective<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::GetEffectiveValue)?;
        let found = self.find(job).await?;
        let shop = self.store.shop();
        let joint = joint_of(&found, joint)?;
        Ok(show(&effective::of(joint, &shop)))
    }
}
